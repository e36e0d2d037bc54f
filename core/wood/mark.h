// SPDX-License-Identifier: GPL-3.0-or-later
// A mark: something on or in the wood that decides what may be cut there.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/id.h"
#include "core/base/kept_keys.h"
#include "core/base/result.h"
#include "core/geometry/shapes.h"

namespace rackside {

enum class Face { A, B };
inline Face otherFace(Face f) {
  return f == Face::A ? Face::B : Face::A;
}

// The kinds stand in mark_kinds.inc, with all that follows from each (MarkTraits, mark_traits.h).
#define RACKSIDE_MARK_KIND(id, ...) id,
enum class MarkKind {
#include "core/wood/mark_kinds.inc"
};
#undef RACKSIDE_MARK_KIND
const std::vector<MarkKind>& allMarkKinds();
std::string_view name(MarkKind kind);  // as stored and typed: "knot", "hole-to-fill", …
std::optional<MarkKind> markKindFromName(std::string_view name);

enum class Soundness { unknown, sound, loose };  // of a knot; of worm holes: sound = old
enum class MarkAuthor { maker, crayon, proposal };

using MarkShape = std::variant<Polygon, Ellipse, Stroke>;

struct Mark {
  MarkId id;
  MarkKind kind = MarkKind::avoid;
  // Where it shows, in board mm; the two faces share one frame. At least one is present.
  std::optional<MarkShape> onA;
  std::optional<MarkShape> onB;
  bool through = false;           // reaches from one face to the other
  std::optional<double> depthMm;  // from `depthFrom`, when it does not
  Face depthFrom = Face::A;
  Soundness soundness = Soundness::unknown;
  bool live = false;  // worm holes with living insects: the board is set aside
  MarkAuthor author = MarkAuthor::maker;
  double confidence = 1.0;  // 0..1; a maker's own mark is 1
  bool confirmed = true;    // a proposal counts only once the maker has taken it
  std::string note;
  KeptKeys extra;  // keys of a file that this version does not know

  const std::optional<MarkShape>& on(Face f) const { return f == Face::A ? onA : onB; }
  std::optional<MarkShape>& on(Face f) { return f == Face::A ? onA : onB; }
};

// The shape as polygons (mm), curves within 0.2 mm.
Polygons polygonsOf(const MarkShape& shape);

// What is wrong with a mark, in words for the person who drew it; success when nothing is.
Status validate(const Mark& mark);

}  // namespace rackside
