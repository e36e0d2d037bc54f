// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/run/in_gangs.h"

#include <algorithm>
#include <cmath>

#include "core/plan/worth.h"

namespace rackside {
namespace {

const Part& partOf(const PlanRequest& request, const PartId& id) {
  return *std::find_if(request.parts.begin(), request.parts.end(),
                       [&](const Part& p) { return p.id == id; });
}

std::pair<PartId, int> copyOf(const Piece& p) {
  return {p.part, p.copy};
}

// The gang's rectangle where its pieces lie, board frame, its lower left corner first.
Polygon spanOf(const Blank& blank, const std::vector<const Piece*>& pieces, const Gang& gang) {
  const double sine = std::sin(blank.boardFromBlank.angleRad);
  const double cosine = std::cos(blank.boardFromBlank.angleRad);
  double along = 1e300, across = 1e300;
  for (const Piece* piece : pieces)
    for (const Point q : piece->outline) {
      along = std::min(along, q.x * cosine + q.y * sine);
      across = std::min(across, q.y * cosine - q.x * sine);
    }
  const Pose boardFromGang{{along * cosine - across * sine, along * sine + across * cosine},
                           blank.boardFromBlank.angleRad};
  return rackside::apply(boardFromGang, rectangle({0, 0, gang.lengthMm(), gang.widthMm()}));
}

}  // namespace

InGangs::InGangs(const Reduced& above, const PlanWeights& weights,
                 const std::vector<Gang>& dissolved)
    : above_(above.request), weights_(weights) {
  below_ = above;
  std::set<PartId> strips;
  for (const WantedPanel& panel : above.panels)
    for (const PanelWay& way : panel.ways)
      strips.insert(above_.parts[static_cast<size_t>(way.part)].id);
  if (above_.current) takeGangsOfCurrent();
  formGangs(strips, dissolved);
  shareCopies();
  for (const Kind& k : gangs_)
    below_.request.parts.push_back(wholeOf(k.gang, above_.parts, k.id, k.copies));
  if (!below_.held.empty()) below_.held.resize(below_.request.parts.size(), 0);
  if (above_.current) below_.request.current = &current_;
}

std::vector<Gang> InGangs::missingIn(const Plan& plan) const {
  std::vector<Gang> missing;
  for (const Kind& k : gangs_)
    if (std::count_if(plan.pieces.begin(), plan.pieces.end(),
                      [&](const Piece& p) { return p.part == k.id; }) < k.copies)
      missing.push_back(k.gang);
  return missing;
}

std::string InGangs::limits() const {
  return "Parts too small to machine alone were ganged; the bound is for these gangs.";
}

InGangs::Kind& InGangs::kindOf(const Gang& gang) {
  for (Kind& k : gangs_)
    if (k.gang == gang) return k;
  gangs_.push_back({gang, {"gang-" + std::to_string(gangs_.size() + 1)}, 0});
  return gangs_.back();
}

const InGangs::Kind* InGangs::findKind(const PartId& id) const {
  for (const Kind& k : gangs_)
    if (k.id == id) return &k;
  return nullptr;
}

void InGangs::takeGangsOfCurrent() {
  current_ = *above_.current;
  std::map<BlankId, std::vector<const Piece*>> held;
  for (const Piece& p : above_.current->pieces) held[p.blank].push_back(&p);
  current_.pieces.clear();
  for (const Blank& blank : above_.current->blanks) {
    const auto& pieces = held[blank.id];
    const std::optional<Gang> gang = pieces.empty() ? std::nullopt : gangIn(blank, pieces);
    if (!gang || !areWanted(pieces)) {
      for (const Piece* p : pieces) current_.pieces.push_back(*p), alone_.insert(copyOf(*p));
      continue;
    }
    Kind& kind = kindOf(*gang);
    ++kind.copies;
    current_.pieces.push_back(asOnePiece(blank, pieces, kind));
  }
}

// With the id of its first, pinned when one of them is.
Piece InGangs::asOnePiece(const Blank& blank, const std::vector<const Piece*>& pieces,
                          const Kind& kind) {
  Piece whole = *pieces[0];
  whole.part = kind.id;
  whole.copy = kind.copies;
  whole.lengthMm = kind.gang.lengthMm();
  whole.widthMm = kind.gang.widthMm();
  whole.outline = spanOf(blank, pieces, kind.gang);
  whole.angleRad = blank.boardFromBlank.angleRad;
  whole.worth = 0;
  std::vector<PieceId>& pinned = below_.request.pinned;
  bool isPinned = false;
  for (const Piece* p : pieces) {
    whole.worth += p->worth;
    ganged_.insert(copyOf(*p));
    originals_[whole.id].push_back(*p);
    isPinned = std::erase(pinned, p->id) > 0 || isPinned;
  }
  if (isPinned) pinned.push_back(whole.id);
  return whole;
}

bool InGangs::areWanted(const std::vector<const Piece*>& pieces) const {
  return std::all_of(pieces.begin(), pieces.end(), [&](const Piece* piece) {
    return std::any_of(above_.parts.begin(), above_.parts.end(), [&](const Part& p) {
      return p.id == piece->part && piece->copy <= p.copies;
    });
  });
}

void InGangs::formGangs(const std::set<PartId>& strips, const std::vector<Gang>& dissolved) {
  std::vector<int> free;
  free.reserve(above_.parts.size());
  for (const Part& part : above_.parts) {
    int n = 0;
    for (int copy = 1; copy <= part.copies && !strips.count(part.id); ++copy)
      n += !alone_.count({part.id, copy}) && !ganged_.count({part.id, copy}) ? 1 : 0;
    free.push_back(n);
  }
  for (const Gang& gang : gangsFor(above_.parts, free, above_.shop)) {
    if (std::find(dissolved.begin(), dissolved.end(), gang) != dissolved.end()) continue;
    ++kindOf(gang).copies;
    for (const GangMember& m : gang.members) ++newlyGanged_[m.part];
  }
}

// Of each part: copies for new gangs, and those left to lie alone. A part that is wholly ganged
// keeps its place in the list, which panels count by.
void InGangs::shareCopies() {
  for (Part& part : below_.request.parts) {
    int forGangs = newlyGanged_[part.id];
    std::vector<int>& alone = aloneCopies_[part.id];
    for (int copy = part.copies; copy >= 1; --copy) {
      if (ganged_.count({part.id, copy})) continue;
      if (forGangs > 0 && !alone_.count({part.id, copy})) {
        freeForGangs_[part.id].insert(freeForGangs_[part.id].begin(), copy);
        --forGangs;
      } else {
        alone.insert(alone.begin(), copy);
      }
    }
    part.copies = static_cast<int>(alone.size());
  }
  for (Piece& piece : current_.pieces)
    if (const auto found = aloneCopies_.find(piece.part); found != aloneCopies_.end())
      if (const auto at = std::find(found->second.begin(), found->second.end(), piece.copy);
          at != found->second.end())
        piece.copy = static_cast<int>(at - found->second.begin()) + 1;
}

void InGangs::raise(Plan& plan) const {
  CopiesOf left = copiesFor(plan);
  std::vector<Piece> pieces;
  for (const Piece& piece : plan.pieces) addApart(piece, left, pieces);
  plan.pieces = std::move(pieces);
}

// Copies for the gangs that are new, or lie elsewhere than in the current plan.
InGangs::CopiesOf InGangs::copiesFor(const Plan& plan) const {
  CopiesOf left = freeForGangs_;
  for (const auto& original : originals_) {
    const PieceId& whole = original.first;
    if (std::any_of(plan.pieces.begin(), plan.pieces.end(),
                    [&](const Piece& p) { return p.id == whole; }))
      continue;
    for (const Piece& p : original.second) left[p.part].push_back(p.copy);
  }
  return left;
}

void InGangs::addApart(const Piece& piece, CopiesOf& left, std::vector<Piece>& out) const {
  const Kind* kind = findKind(piece.part);
  if (!kind) {
    out.push_back(piece);
    out.back().copy = aloneCopies_.at(piece.part)[static_cast<size_t>(piece.copy) - 1];
    return;
  }
  if (const auto was = originals_.find(piece.id); was != originals_.end()) {
    out.insert(out.end(), was->second.begin(), was->second.end());
    return;
  }
  for (size_t i = 0; i < kind->gang.members.size(); ++i) {
    Piece one = memberOf(piece, kind->gang.members[i]);
    if (i > 0) one.id.text += "-" + std::to_string(i + 1);
    one.copy = left[one.part].front();
    left[one.part].erase(left[one.part].begin());
    out.push_back(std::move(one));
  }
}

Piece InGangs::memberOf(const Piece& whole, const GangMember& m) const {
  const Part& part = partOf(above_, m.part);
  Piece one = whole;
  one.part = m.part;
  one.lengthMm = part.lengthMm;
  one.widthMm = part.widthMm;
  one.outline =
      rackside::apply(Pose{whole.outline[0], whole.angleRad},
                      rectangle({m.at.x, m.at.y, m.at.x + m.lengthMm, m.at.y + m.widthMm}));
  one.worth = placedWorth(above_, weights_, part, one);
  return one;
}

}  // namespace rackside
