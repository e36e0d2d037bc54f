// SPDX-License-Identifier: GPL-3.0-or-later
// Parts too short or too narrow to go through the machines alone, milled together and cut apart
// afterwards. Several copies of one part end to end are an ordinary blank (core/plan/blank_kind.h);
// a gang is what that cannot be: different parts end to end, or pieces side by side. For the
// planner a gang is one part as large as all its members with a kerf between. Millimetres.
#pragma once

#include <optional>
#include <vector>

#include "core/job/part.h"
#include "core/job/shop.h"
#include "core/plan/plan.h"

namespace rackside {

struct GangMember {
  PartId part;
  Point at;  // its lower left corner, from the gang's
  double lengthMm = 0, widthMm = 0;
};

struct Gang {
  std::vector<GangMember> members;
  double lengthMm() const;
  double widthMm() const;
  bool operator==(const Gang& other) const;  // the same parts at the same places
};

// Is a blank of one copy, with its allowances, shorter or narrower than is safe to machine?
bool isTooShort(const Part& part, const Shop& shop);
bool isTooNarrow(const Part& part, const Shop& shop);

// Gangs of what would otherwise be milled with waste wood beside it: `free[p]` copies of parts[p]
// may be ganged. Narrow pieces of one length go side by side; short pieces of one width end to end,
// where copies of their own do not make a safe length. Members share thickness, species, look and
// what their faces may hold, run along the grain and have no outline of their own.
std::vector<Gang> gangsFor(const std::vector<Part>& parts, const std::vector<int>& free,
                           const Shop& shop);

// The gang as one part to plan, its value that of its members. Its parts must be among `parts`.
Part wholeOf(const Gang& gang, const std::vector<Part>& parts, const PartId& id, int copies);

// The pieces of one blank as a gang; none when they are copies of one part end to end.
std::optional<Gang> gangIn(const Blank& blank, const std::vector<const Piece*>& pieces);

// Writes on every blank whose pieces are too small to be machined alone how that is got round.
// (How small is safe is for the machine's manual to say; the shop's figures are common practice.)
void remarkOnSafeSizes(const Shop& shop, Plan& plan);

}  // namespace rackside
