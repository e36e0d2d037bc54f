// SPDX-License-Identifier: GPL-3.0-or-later
// All that follows from the kind of a mark: what it bars, how it grades, whether it is filled, how
// it looks. The rows are in mark_kinds.inc; nothing else lists the kinds but the plan's checker,
// which has a table of its own (core/plan/checker_kinds.*).
#pragma once

#include <string_view>
#include <vector>

#include "core/wood/mark.h"

namespace rackside {

// How it is usually drawn. A line also runs on along the grain past its tips, so that its clearance
// lies there, and kAcrossGrainMm beside it.
enum class MarkForm { area, round, line };
// Which other marks may be the same thing seen again.
enum class Likeness { body, line, sameKind };
// What of FaceAllows lets a part hold it.
enum class HeldBy {
  anything,
  knots,  // sound where it takes sound knots; loose, and not through, where fillings may be: dug
          // out
  sapwood,
  stain,
  filled,
  filledIfSound,
  filledIfShallow,  // its depth is known and it does not go through
  nothing
};
enum class Judged { no, soundness, soundnessAndLife };
// What it is to the grading rule.
enum class GradeFault {
  none,
  blemish,      // not clear, yet sound
  gum,          // a blemish, and nothing in cherry
  unsound,      // neither clear nor sound
  bySoundness,  // of a knot: sound only when said so
  wormHoles,    // pin, shot and spot holes are sound
  seasonCheck   // nothing when it surfaces out
};
// When there is a hollow to fill.
enum class HollowWhen {
  never,
  always,
  dugOut,  // always, once the bark is out
  loose,   // once the loose knot is out
  sound    // old holes of insects that are gone
};
// How a hollow narrows downwards: half an ellipsoid, upright walls, a trench with a pointed bottom.
enum class FillProfile { bowl, straight, wedge };

// Patterns that tell kinds apart in black and white on paper.
enum class Hatch {
  rising,
  crossed,
  crossedWide,
  grid,
  uprights,
  dots,
  denseDots,
  blots,
  rings,
  pluses,
  dashes,
  bars,
  solid,
  ticks,
  wide
};
// Pattern and outline on the screen, each kind's own together.
enum class ScreenFill {
  none,
  solid,
  dots4,
  dots5,
  dots6,
  levelLines,
  uprightLines,
  grid,
  risingLines,
  fallingLines,
  crossedLines
};
enum class ScreenLine { solid, dash, dot, dashDot };

struct MarkTraits {
  MarkKind kind;
  std::string_view name;     // as stored and typed
  std::string_view label;    // as the maker reads it
  std::string_view letters;  // one or two, no other kind's
  std::string_view meaning;  // one line for the maker
  MarkForm form;
  Likeness likeness;
  double clearanceMm;  // unless the shop says otherwise
  bool through;        // spoils the wood from face to face wherever it shows
  bool barsCuts;       // no saw may pass
  HeldBy held;
  Judged judged;
  GradeFault fault;
  HollowWhen hollow;
  FillProfile profile;  // of that hollow, unless the maker says otherwise
  Hatch hatch;
  Hatch hatchWhenSound;
  unsigned rgb;
  ScreenFill fill;
  ScreenLine line;
};

const MarkTraits& traitsOf(MarkKind kind);
const std::vector<MarkTraits>& allMarkTraits();  // in the order of the kinds

}  // namespace rackside
