// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/plan_basis.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <set>

#include "core/job/saw_rules.h"
#include "core/plan/standing.h"

namespace rackside {
namespace {

constexpr const char* kKey = "made_from";

// FNV-1a of 64 bits (Fowler, Noll, Vo; draft-eastlake-fnv): not secret, only unlike.
class Fingerprint {
 public:
  void add(double v) {
    if (v == 0) v = 0;  // −0 is 0
    addBits(std::bit_cast<std::uint64_t>(v));
  }
  void add(const std::string& text) {
    addBits(text.size());
    for (const char c : text) addByte(static_cast<unsigned char>(c));
  }
  void add(Point p) { add(p.x), add(p.y); }
  void add(const Polygon& points) {
    addBits(points.size());
    for (const Point p : points) add(p);
  }
  void add(const Ellipse& e) { add(e.centre), add(e.semiX), add(e.semiY), add(e.angleRad); }
  void add(const Stroke& s) { add(s.points), add(s.widthMm); }
  template <class Kind>
  void addKind(Kind kind) {
    addBits(static_cast<std::uint64_t>(kind));
  }
  template <class... Flags>
  void addFlags(Flags... flags) {
    (addByte(flags ? 1 : 0), ...);
  }

  std::string text() const {
    constexpr const char* kDigits = "0123456789abcdef";
    std::string out;
    for (int shift = 60; shift >= 0; shift -= 4) out += kDigits[(sum_ >> shift) & 15];
    return out;
  }

 private:
  void addByte(unsigned char byte) { sum_ = (sum_ ^ byte) * 0x100000001b3U; }
  void addBits(std::uint64_t bits) {
    for (int shift = 0; shift < 64; shift += 8) addByte(static_cast<unsigned char>(bits >> shift));
  }
  std::uint64_t sum_ = 0xcbf29ce484222325U;
};

void add(Fingerprint& f, const Mark& m) {
  f.addKind(m.kind);
  for (const Face face : {Face::A, Face::B}) {
    f.addKind(m.on(face) ? 1 + m.on(face)->index() : 0);
    if (m.on(face)) std::visit([&f](const auto& shape) { f.add(shape); }, *m.on(face));
  }
  f.addFlags(m.through, m.live);
  f.add(m.depthMm.value_or(-1));
  f.addKind(m.depthFrom);
  f.addKind(m.soundness);
}

std::string printOf(const Board& b) {
  Fingerprint f;
  f.add(b.species);
  for (const double v : {b.thicknessMm, b.bowMm, b.cupMm, b.twistMm, b.pricePerBoardFoot,
                         b.moisture.empty() ? -1 : b.moisture.back().percent})
    f.add(v);
  f.addFlags(b.leftEndSawn, b.rightEndSawn);
  f.addKind(b.state);
  f.addKind(b.sawn);
  f.addKind(b.barkSide ? 1 + static_cast<int>(*b.barkSide) : 0);
  for (const OutlineVertex& v : b.outline.vertices) {
    f.add(v.at), f.add(v.sigmaMm);
    f.addKind(v.state);
  }
  for (const Face face : {Face::A, Face::B}) {
    const Picture* picture = b.newestPicture(face);
    f.add(picture ? picture->id.text : std::string());
  }
  for (const Mark& m : b.marks)
    if (m.confirmed) add(f, m);
  return f.text();
}

void add(Fingerprint& f, const FaceAllows& a) {
  f.addFlags(a.soundKnots, a.filledHoles, a.stain);
  f.addKind(a.sapwood);
}

void add(Fingerprint& f, const Part& p) {
  f.add(p.id.text), f.add(p.species), f.add(p.matchGroup);
  for (const double v :
       {double(p.copies), p.lengthMm, p.widthMm, p.thicknessMm, p.grainToleranceDeg, p.value,
        p.glueUp.leastStripMm, p.glueUp.greatestStripMm})
    f.add(v);
  f.addKind(p.grain), f.addKind(p.showing), f.addKind(p.look);
  add(f, p.show), add(f, p.back);
  f.addFlags(p.glueUp.allowed, p.outline.has_value());
  if (p.outline) f.add(*p.outline);
}

std::string printOf(const std::vector<Part>& parts) {
  std::vector<const Part*> sorted;
  for (const Part& p : parts) sorted.push_back(&p);
  std::sort(sorted.begin(), sorted.end(),
            [](const Part* a, const Part* b) { return a->id < b->id; });
  Fingerprint f;
  for (const Part* p : sorted) add(f, *p);
  return f.text();
}

// How lengths are shown is none of the plan's concern.
std::string printOf(const Shop& s) {
  Fingerprint f;
  for (const double v : {s.crosscutKerfMm,
                         s.ripKerfMm,
                         s.firstRipKerfMm,
                         s.endTrimMm,
                         s.lengthAllowanceMm,
                         s.widthAllowanceMm,
                         s.thicknessAllowanceMm,
                         s.longPartMm,
                         s.longThicknessAllowanceMm,
                         s.minTakeOffMm,
                         s.jointerWidthMm,
                         s.planerWidthMm,
                         s.snipeMm,
                         s.shortestSafeMm,
                         s.narrowestSafeMm,
                         s.glueLineAllowanceMm,
                         s.usefulOffcutLengthMm,
                         s.usefulOffcutWidthMm,
                         s.lookWeight,
                         s.stockWeight,
                         s.offcutWeight,
                         s.restAllowanceMm,
                         s.widePartMm,
                         s.shopMoisturePercent})
    f.add(v);
  const SawRules rules = sawRules(s);
  for (const RuleField& field : kRuleFields) f.add(rules.*field.value);
  for (const MarkKind kind : allMarkKinds()) f.add(s.clearance(kind));
  return f.text();
}

// A plan made before these rules can be sawn as it is, if not as well.
bool isAboutSawing(const std::string& rule) {
  return rule == "slices" || rule == "surplus";
}

std::set<BoardId> boardsUsed(const Plan& plan) {
  std::set<BoardId> used;
  for (const Cut& c : plan.cuts) used.insert(c.board);
  for (const Blank& b : plan.blanks) used.insert(b.board);
  for (const Piece& p : plan.pieces) used.insert(p.board);
  return used;
}

std::vector<std::string> changedSince(const PlanRequest& request, const Plan& plan,
                                      const std::set<BoardId>& used) {
  std::vector<std::string> changed;
  const std::optional<PlanBasis> then = notedBasis(plan);
  if (!then) return changed;
  PlanBasis now = basisOf(request.boards, request.parts, request.shop);
  if (now.parts != then->parts) changed.emplace_back("the parts list");
  if (now.shop != then->shop) changed.emplace_back("the shop's settings");
  for (const Board& board : request.boards) {
    if (board.cutUp || used.count(board.id) == 0) continue;
    const auto before = then->boards.find(board.id.text);
    if (before == then->boards.end() || before->second != now.boards[board.id.text])
      changed.push_back("board " + board.name);
  }
  return changed;
}

}  // namespace

PlanBasis basisOf(const std::vector<Board>& boards, const std::vector<Part>& parts,
                  const Shop& shop) {
  PlanBasis basis{printOf(parts), printOf(shop), {}};
  for (const Board& b : boards) basis.boards[b.id.text] = printOf(b);
  return basis;
}

void noteBasis(Plan& plan, const PlanBasis& basis) {
  (*plan.extra)[kKey] = {{"parts", basis.parts}, {"shop", basis.shop}, {"boards", basis.boards}};
}

std::optional<PlanBasis> notedBasis(const Plan& plan) {
  if (!plan.extra->contains(kKey)) return std::nullopt;
  try {
    const nlohmann::json& j = plan.extra->at(kKey);
    return PlanBasis{j.at("parts"), j.at("shop"), j.at("boards")};
  } catch (const nlohmann::json::exception&) {
    return std::nullopt;  // noted by no version of this program
  }
}

const PlanState::Broken* PlanState::brokenOn(const BoardId& board) const {
  const auto found =
      std::find_if(broken.begin(), broken.end(), [&](const Broken& b) { return b.board == board; });
  return found == broken.end() ? nullptr : &*found;
}

PlanState planState(const PlanRequest& request, const Plan& plan) {
  PlanState state;
  std::set<BoardId> used = boardsUsed(plan);
  state.changed = changedSince(request, plan, used);
  for (const Board& board : request.boards) {
    if (used.erase(board.id) == 0 || board.cutUp) continue;
    auto breaches = breachesOn(request, plan, board);
    std::erase_if(breaches, [](const Breach& b) { return isAboutSawing(b.rule); });
    if (!breaches.empty())
      state.broken.push_back({board.id, "on board " + board.name + ", " + breaches[0].message});
  }
  for (const BoardId& gone : used)
    state.broken.push_back({gone, "a board that it cuts (" + gone.text + ") is not on the rack"});
  return state;
}

}  // namespace rackside
