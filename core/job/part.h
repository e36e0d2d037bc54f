// SPDX-License-Identifier: GPL-3.0-or-later
// A part: what has to come out of the wood.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/kept_keys.h"
#include "core/base/result.h"
#include "core/geometry/shapes.h"

namespace rackside {

enum class GrainRule { along, free };
enum class Showing { none, oneFace, bothFaces };
enum class SapwoodRule { no, yes, wantedOnEdge };
enum class Look { any, straight, archCentred, lively, evenColour };

// What a face of the part may hold. A back may hold more than a front.
struct FaceAllows {
  bool soundKnots = false;
  bool filledHoles = false;
  bool stain = false;
  SapwoodRule sapwood = SapwoodRule::no;
  bool operator==(const FaceAllows&) const = default;
};

// A panel glued up from strips.
struct GlueUp {
  bool allowed = false;
  double leastStripMm = 60;
  double greatestStripMm = 200;
  bool operator==(const GlueUp&) const = default;
};

struct Part {
  PartId id;
  std::string name;
  int copies = 1;
  double lengthMm = 0;     // finished, along the grain when grain is along
  double widthMm = 0;      // finished
  double thicknessMm = 0;  // finished
  GrainRule grain = GrainRule::along;
  double grainToleranceDeg = 10;
  Showing showing = Showing::oneFace;
  FaceAllows show;  // the showing face or faces
  FaceAllows back;  // the other
  Look look = Look::any;
  std::string species;  // empty: any
  GlueUp glueUp;
  std::string matchGroup;          // parts of one group want like wood; empty: none
  std::optional<Polygon> outline;  // finished outline inside length × width, origin at its corner
  double value = 0;                // of one copy; 0: by its finished face area
  std::string note;
  KeptKeys extra;
};

std::string_view name(GrainRule v);
std::string_view name(Showing v);
std::string_view name(SapwoodRule v);
std::string_view name(Look v);
std::optional<GrainRule> grainRuleFromName(std::string_view s);
std::optional<Showing> showingFromName(std::string_view s);
std::optional<SapwoodRule> sapwoodRuleFromName(std::string_view s);
std::optional<Look> lookFromName(std::string_view s);

Status validate(const Part& part);

}  // namespace rackside
