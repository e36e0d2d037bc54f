// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/checker.h"

#include <algorithm>
#include <set>
#include <utility>

#include "core/plan/checker_geometry.h"
#include "core/plan/checker_rules.h"

namespace rackside {
namespace checking {
namespace {

constexpr std::pair<const char*, Rule> kRules[] = {
    {"inside", ruleInside},
    {"ends", ruleEnds},
    {"clear-face-a", ruleClearFaceA},
    {"clear-face-b", ruleClearFaceB},
    {"unseen-face", ruleUnseenFace},
    {"metal", ruleMetal},
    {"board-use", ruleBoardUse},
    {"cut-order", ruleCutOrder},
    {"cut-tree", ruleCutTree},
    {"edge-to-edge", ruleEdgeToEdge},
    {"stages", ruleStages},
    {"square-crosscuts", ruleSquareCrosscuts},
    {"rip-angle", ruleRipAngle},
    {"one-blank", ruleOneBlank},
    {"blank-holds", ruleBlankHolds},
    {"middle", ruleMiddle},
    {"kerf", ruleKerf},
    {"free", ruleFree},
    {"made", ruleMade},
    {"slices", ruleSlices},
    {"surplus", ruleSurplus},
    {"idle", ruleIdle},
    {"overlap", ruleOverlap},
    {"piece-size", rulePieceSize},
    {"piece-in-blank", rulePieceInBlank},
    {"parting", ruleParting},
    {"allowance", ruleAllowance},
    {"thickness", ruleThickness},
    {"safe-size", ruleSafeSize},
    {"copies", ruleCopies},
    {"accounted", ruleAccounted},
    {"species", ruleSpecies},
    {"grain", ruleGrain},
    {"pins", rulePins},
    {"value", ruleValue},
    {"panel", rulePanel},
};

template <class Map, class Key>
bool has(const Map& map, const Key& key) {
  return map.find(key) != map.end();
}

// Every id is used once and stands for something: without that no other rule can be asked.
void ruleIds(const Scene& s, const Report& report) {
  if (s.blanks.size() != s.plan.blanks.size()) report("two blanks have the same id");
  if (s.cuts.size() != s.plan.cuts.size()) report("two cuts have the same id");
  std::set<PieceId> pieces;
  for (const Piece& p : s.plan.pieces) {
    if (!pieces.insert(p.id).second) report("two pieces have the id " + p.id.text);
    if (!has(s.parts, p.part)) report("piece " + p.id.text + " is of a part that is not wanted");
    if (!has(s.blanks, p.blank))
      report("piece " + p.id.text + " lies in no blank");
    else if (s.blanks.at(p.blank)->board != p.board)
      report("piece " + p.id.text + " and its blank are on different boards");
  }
  for (const Blank& b : s.plan.blanks) {
    if (!has(s.boards, b.board)) report("blank " + b.id.text + " is on no board of the rack");
    if (!has(s.piecesOf, b.id)) report("blank " + b.id.text + " holds no piece");
    if (!has(s.cuts, b.lastCut) || s.cuts.at(b.lastCut)->board != b.board)
      report("blank " + b.id.text + " has no last cut on its board");
  }
  for (const Cut& c : s.plan.cuts) {
    if (!has(s.boards, c.board)) report("cut " + c.id.text + " is on no board of the rack");
    if (c.parent && (!has(s.cuts, *c.parent) || s.cuts.at(*c.parent)->board != c.board))
      report("cut " + c.id.text + " divides a region that no cut of its board makes");
  }
}

Scene sceneOf(const PlanRequest& request, const Plan& plan) {
  Scene s{request, plan, {}, {}, {}, {}, {}};
  for (const Board& b : request.boards) s.boards[b.id] = &b;
  for (const Part& p : request.parts) s.parts[p.id] = &p;
  for (const Blank& b : plan.blanks) s.blanks[b.id] = &b;
  for (const Cut& c : plan.cuts) s.cuts[c.id] = &c;
  for (const Piece& p : plan.pieces) s.piecesOf[p.blank].push_back(&p);
  return s;
}

}  // namespace

std::string nameOf(const Scene& scene, const Piece& piece) {
  return scene.partOf(piece).name + " " + std::to_string(piece.copy) + " on board " +
         scene.boards.at(piece.board)->name;
}
std::string nameOf(const Scene& scene, const Blank& blank) {
  return "the blank of " + nameOf(scene, *scene.piecesOf.at(blank.id)[0]);
}
std::string nameOf(const Scene& scene, const Cut& cut) {
  return "cut " + std::to_string(cut.order) + " of board " + scene.boards.at(cut.board)->name;
}

Polygon finishedSpan(const Scene& scene, const Blank& blank) {
  const double angle = blank.boardFromBlank.angleRad;
  Box box;
  for (const Piece* piece : scene.piecesOf.at(blank.id)) {
    const Box b = boxOf(turnedBack(piece->outline, angle));
    box = {std::min(box.x0, b.x0), std::min(box.y0, b.y0), std::max(box.x1, b.x1),
           std::max(box.y1, b.y1)};
  }
  const double half = (box.y1 - box.y0) / 2;
  const double more = half / driedShares(scene.boardOf(blank), scene.request.shop).width - half;
  box.y0 -= more, box.y1 += more;
  return turnedBack({{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}},
                    -angle);
}

}  // namespace checking

std::vector<Breach> checkPlan(const PlanRequest& request, const Plan& plan) {
  using namespace checking;
  std::vector<Breach> breaches;
  const Scene scene = sceneOf(request, plan);
  ruleIds(scene, Report("ids", breaches));
  if (!breaches.empty()) return breaches;
  for (const auto& [name, rule] : kRules) rule(scene, Report(name, breaches));
  return breaches;
}

}  // namespace rackside
