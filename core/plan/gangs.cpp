// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/gangs.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/plan/blank_kind.h"

namespace rackside {
namespace {

constexpr double kSameMm = 0.05;
constexpr size_t kFewest = 2;
const char* const kTooSmall = "too small to machine alone";

double roughLength(double clearMm, const Shop& shop) {
  return clearMm + shop.lengthAllowanceMm + 2 * shop.snipeMm;
}

bool mayBeGanged(const Part& part) {
  return part.grain == GrainRule::along && !part.outline && !part.glueUp.allowed;
}

// What members of a gang have to share, but for the size.
bool goTogether(const Part& a, const Part& b) {
  return std::abs(a.thicknessMm - b.thicknessMm) < kSameMm && sameWood(a.species, b.species) &&
         a.showing == b.showing && a.show == b.show && a.back == b.back && a.look == b.look;
}

// Parts that may share a gang, as indices; `size` is what they must be alike in.
std::vector<std::vector<size_t>> classesOf(const std::vector<Part>& parts,
                                           const std::vector<size_t>& among, double Part::*size) {
  std::vector<std::vector<size_t>> classes;
  for (const size_t p : among) {
    const auto fits = [&](const std::vector<size_t>& c) {
      return goTogether(parts[c[0]], parts[p]) &&
             std::abs(parts[c[0]].*size - parts[p].*size) < kSameMm;
    };
    const auto found = std::find_if(classes.begin(), classes.end(), fits);
    if (found == classes.end())
      classes.push_back({p});
    else
      found->push_back(p);
  }
  return classes;
}

// One row of pieces, each after the other with a kerf between.
class Row {
 public:
  Row(bool endToEnd, const Shop& shop) : endToEnd_(endToEnd), shop_(shop) {}

  void add(const Part& part) {
    const double kerf = endToEnd_ ? shop_.crosscutKerfMm : shop_.ripKerfMm;
    const double at = gang_.members.empty() ? 0 : reach_ + kerf;
    gang_.members.push_back(
        {part.id, endToEnd_ ? Point{at, 0} : Point{0, at}, part.lengthMm, part.widthMm});
    reach_ = at + (endToEnd_ ? part.lengthMm : part.widthMm);
  }
  bool isSafe() const {
    return endToEnd_ ? roughLength(reach_, shop_) >= shop_.shortestSafeMm
                     : reach_ + shop_.widthAllowanceMm >= shop_.narrowestSafeMm;
  }
  const Gang& gang() const { return gang_; }

 private:
  bool endToEnd_;
  const Shop& shop_;
  Gang gang_;
  double reach_ = 0;
};

// As few pieces a gang as make it safe; what is left over joins the last one, or stays alone.
void addRows(const std::vector<const Part*>& pieces, bool endToEnd, const Shop& shop,
             std::vector<Gang>& out) {
  std::vector<Row> rows;
  for (const Part* piece : pieces) {
    if (rows.empty() || rows.back().isSafe()) rows.emplace_back(endToEnd, shop);
    rows.back().add(*piece);
  }
  if (rows.size() > 1 && !rows.back().isSafe()) {
    rows.pop_back();
    const size_t placed = [&] {
      size_t n = 0;
      for (const Row& row : rows) n += row.gang().members.size();
      return n;
    }();
    for (size_t i = placed; i < pieces.size(); ++i) rows.back().add(*pieces[i]);
  }
  for (const Row& row : rows)
    if (row.gang().members.size() >= kFewest) out.push_back(row.gang());
}

// Copies of a part that are left when as many as make a safe length are milled together.
int leftOver(const Part& part, int free, const Shop& shop) {
  const double step = part.lengthMm + shop.crosscutKerfMm;
  const double want = shop.shortestSafeMm - roughLength(0, shop) + shop.crosscutKerfMm;
  const int together = std::max(1, static_cast<int>(std::ceil(want / step - 1e-9)));
  return free % together;
}

Rect boxInBlank(const Blank& blank, const Piece& piece) {
  const Pose back{{0, 0}, -blank.boardFromBlank.angleRad};
  Polygon p;
  p.reserve(piece.outline.size());
  for (const Point q : piece.outline) p.push_back(q - blank.boardFromBlank.origin);
  return bounds(rackside::apply(back, p));
}

// What a blank of these pieces has to say about their size; empty when each could go alone.
std::string safeSizeRemark(const Blank& blank, const std::vector<const Piece*>& pieces,
                           const Shop& shop) {
  bool isShort = false, narrow = false;
  Rect span{1e300, 1e300, -1e300, -1e300};
  for (const Piece* piece : pieces) {
    const Rect b = boxInBlank(blank, *piece);
    span = {std::min(span.x0, b.x0), std::min(span.y0, b.y0), std::max(span.x1, b.x1),
            std::max(span.y1, b.y1)};
    isShort = isShort || roughLength(b.width(), shop) < shop.shortestSafeMm - kSameMm;
    narrow = narrow || b.height() + shop.widthAllowanceMm < shop.narrowestSafeMm - kSameMm;
  }
  if (!isShort && !narrow) return {};
  std::string text = std::string(kTooSmall) + ": ";
  const bool padded = roughLength(span.width(), shop) < shop.shortestSafeMm - kSameMm ||
                      span.height() + shop.widthAllowanceMm < shop.narrowestSafeMm - kSameMm;
  if (pieces.size() > 1) text += "milled as one and cut apart afterwards";
  if (padded)
    text += std::string(pieces.size() > 1 ? ", " : "") + "left with waste wood until it is milled";
  return text + "; the machine's manual gives its least size";
}

}  // namespace

double Gang::lengthMm() const {
  double most = 0;
  for (const GangMember& m : members) most = std::max(most, m.at.x + m.lengthMm);
  return most;
}
double Gang::widthMm() const {
  double most = 0;
  for (const GangMember& m : members) most = std::max(most, m.at.y + m.widthMm);
  return most;
}
bool Gang::operator==(const Gang& other) const {
  return std::equal(members.begin(), members.end(), other.members.begin(), other.members.end(),
                    [](const GangMember& a, const GangMember& b) {
                      return a.part == b.part && norm(a.at - b.at) < kSameMm;
                    });
}

bool isTooShort(const Part& part, const Shop& shop) {
  return roughLength(part.lengthMm, shop) < shop.shortestSafeMm;
}
bool isTooNarrow(const Part& part, const Shop& shop) {
  return part.widthMm + shop.widthAllowanceMm < shop.narrowestSafeMm;
}

std::vector<Gang> gangsFor(const std::vector<Part>& parts, const std::vector<int>& free,
                           const Shop& shop) {
  std::vector<Gang> gangs;
  std::vector<size_t> narrow, shortOnes;
  for (size_t p = 0; p < parts.size(); ++p) {
    if (!mayBeGanged(parts[p])) continue;
    if (isTooNarrow(parts[p], shop))
      narrow.push_back(p);
    else if (isTooShort(parts[p], shop))
      shortOnes.push_back(p);
  }
  for (const auto& alike : classesOf(parts, narrow, &Part::lengthMm)) {
    std::vector<const Part*> pieces;
    for (const size_t p : alike) pieces.insert(pieces.end(), size_t(free[p]), &parts[p]);
    addRows(pieces, false, shop, gangs);
  }
  for (const auto& alike : classesOf(parts, shortOnes, &Part::widthMm)) {
    std::vector<const Part*> pieces;
    int kinds = 0;
    for (const size_t p : alike) {
      const int left = leftOver(parts[p], free[p], shop);
      kinds += left > 0 ? 1 : 0;
      pieces.insert(pieces.end(), size_t(left), &parts[p]);
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Part* a, const Part* b) { return a->lengthMm > b->lengthMm; });
    if (kinds > 1) addRows(pieces, true, shop, gangs);
  }
  return gangs;
}

Part wholeOf(const Gang& gang, const std::vector<Part>& parts, const PartId& id, int copies) {
  Part whole;
  double value = 0;
  std::string name;
  for (const GangMember& m : gang.members) {
    const auto part =
        std::find_if(parts.begin(), parts.end(), [&](const Part& p) { return p.id == m.part; });
    const double tolerance = name.empty()
                                 ? part->grainToleranceDeg
                                 : std::min(whole.grainToleranceDeg, part->grainToleranceDeg);
    if (name.empty()) whole = *part;
    whole.grainToleranceDeg = tolerance;
    value += baseValue(*part);
    name += (name.empty() ? "" : " + ") + part->name;
  }
  whole.id = id;
  whole.name = name;
  whole.copies = copies;
  whole.lengthMm = gang.lengthMm();
  whole.widthMm = gang.widthMm();
  whole.value = value;
  return whole;
}

std::optional<Gang> gangIn(const Blank& blank, const std::vector<const Piece*>& pieces) {
  Gang gang;
  Point corner{1e300, 1e300};
  bool mixed = false;
  for (const Piece* piece : pieces) {
    const Rect box = boxInBlank(blank, *piece);
    corner = {std::min(corner.x, box.x0), std::min(corner.y, box.y0)};
    gang.members.push_back({piece->part, {box.x0, box.y0}, box.width(), box.height()});
    mixed = mixed || piece->part != pieces[0]->part ||
            std::abs(box.y0 - gang.members[0].at.y) > kSameMm;
  }
  if (!mixed) return std::nullopt;
  for (GangMember& m : gang.members) m.at = m.at - corner;
  return gang;
}

void remarkOnSafeSizes(const Shop& shop, Plan& plan) {
  std::map<BlankId, std::vector<const Piece*>> pieces;
  for (const Piece& piece : plan.pieces) pieces[piece.blank].push_back(&piece);
  for (Blank& blank : plan.blanks) {
    std::erase_if(blank.remarks, [](const std::string& r) { return r.rfind(kTooSmall, 0) == 0; });
    const std::string remark = safeSizeRemark(blank, pieces[blank.id], shop);
    if (!remark.empty()) blank.remarks.push_back(remark);
  }
}

}  // namespace rackside
