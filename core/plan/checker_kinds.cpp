// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/checker_kinds.h"

#include <array>
#include <stdexcept>

namespace rackside::checking {
namespace {

// kind, runs on, spoils the body, stops the saw
constexpr std::array kRules = {
    KindRule{MarkKind::knot, false, false, false},
    KindRule{MarkKind::check, true, false, false},
    KindRule{MarkKind::split, true, true, false},
    KindRule{MarkKind::shake, true, true, false},
    KindRule{MarkKind::honeycomb, false, true, false},
    KindRule{MarkKind::sapwood, false, false, false},
    KindRule{MarkKind::wane, false, false, false},
    KindRule{MarkKind::pith, false, false, false},
    KindRule{MarkKind::barkPocket, false, false, false},
    KindRule{MarkKind::gum, false, false, false},
    KindRule{MarkKind::wormHoles, false, false, false},
    KindRule{MarkKind::metal, false, true, true},
    KindRule{MarkKind::stain, false, false, false},
    KindRule{MarkKind::holeToFill, false, false, false},
    KindRule{MarkKind::favour, false, false, false},
    KindRule{MarkKind::avoid, false, true, false},
};

// A new kind does not build until it has its row here.
#define RACKSIDE_MARK_KIND(id, ...) +1
constexpr size_t kKinds = 0
#include "core/wood/mark_kinds.inc"
    ;
#undef RACKSIDE_MARK_KIND
static_assert(kRules.size() == kKinds, "each kind of mark needs a rule of the checker's");

}  // namespace

const KindRule& ruleOf(MarkKind kind) {
  for (const KindRule& rule : kRules)
    if (rule.kind == kind) return rule;
  throw std::logic_error("a kind of mark without a rule");
}

bool holds(const FaceAllows& allows, const Mark& mark) {
  if (mark.live) return false;
  const bool sound = mark.soundness == Soundness::sound;
  if (mark.kind == MarkKind::favour) return true;
  // A loose knot is dug out and filled unless it goes through; of one that nobody judged it is not
  // known which it is.
  if (mark.kind == MarkKind::knot && (mark.soundness != Soundness::loose || mark.through))
    return sound && allows.soundKnots;
  if (mark.kind == MarkKind::sapwood) return allows.sapwood != SapwoodRule::no;
  if (mark.kind == MarkKind::stain) return allows.stain;
  if (!allows.filledHoles) return false;
  if (mark.kind == MarkKind::holeToFill || mark.kind == MarkKind::barkPocket ||
      mark.kind == MarkKind::knot)
    return true;
  if (mark.kind == MarkKind::wormHoles) return sound;
  return mark.kind == MarkKind::check && mark.depthMm && !mark.through;
}

}  // namespace rackside::checking
