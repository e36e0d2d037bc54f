// SPDX-License-Identifier: GPL-3.0-or-later
// The checker's rules, one named predicate each, grouped by file.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/plan/checker.h"

namespace rackside::checking {

// Lengths within this are the same; clearances may be short by kCurveMm, since curves are drawn as
// polygons.
inline constexpr double kSameMm = 0.05;
inline constexpr double kCurveMm = 0.25;

// The plan with what its ids stand for. Rules may rely on `ids` having passed.
struct Scene {
  const PlanRequest& request;
  const Plan& plan;
  std::map<BoardId, const Board*> boards;
  std::map<PartId, const Part*> parts;
  std::map<BlankId, const Blank*> blanks;
  std::map<CutId, const Cut*> cuts;
  std::map<BlankId, std::vector<const Piece*>> piecesOf;

  const Board& boardOf(const Blank& b) const { return *boards.at(b.board); }
  const Part& partOf(const Piece& p) const { return *parts.at(p.part); }
};

// What each cut parts, from the board's outline on (checker_cuts). A cut whose parent comes later
// in the order finds no region and divides nothing.
struct Divided {
  Polygon before, left, right;
};
std::map<CutId, Divided> replay(const Scene& scene);
Point rightOf(const Segment& line);  // a unit vector

// Reports breaches of one rule.
class Report {
 public:
  Report(std::string rule, std::vector<Breach>& out) : rule_(std::move(rule)), out_(out) {}
  void operator()(const std::string& message) const { out_.push_back({rule_, message}); }

 private:
  std::string rule_;
  std::vector<Breach>& out_;
};

using Rule = void (*)(const Scene&, const Report&);

std::string nameOf(const Scene& scene, const Piece& piece);
std::string nameOf(const Scene& scene, const Blank& blank);
std::string nameOf(const Scene& scene, const Cut& cut);
// The rectangle, board frame, from the first finished piece of a blank to the last, as wide as it
// is before it dries.
Polygon finishedSpan(const Scene& scene, const Blank& blank);

// What drying to the shop's moisture leaves of a board's sizes, as shares of them (checker_sizes).
struct Dried {
  double width = 1, thickness = 1;
};
Dried driedShares(const Board& board, const Shop& shop);

// checker_wood.cpp
void ruleInside(const Scene&, const Report&);
void ruleEnds(const Scene&, const Report&);
void ruleClearFaceA(const Scene&, const Report&);
void ruleClearFaceB(const Scene&, const Report&);
void ruleUnseenFace(const Scene&, const Report&);
void ruleMetal(const Scene&, const Report&);
void ruleBoardUse(const Scene&, const Report&);
// checker_cuts.cpp
void ruleCutOrder(const Scene&, const Report&);
void ruleCutTree(const Scene&, const Report&);
void ruleEdgeToEdge(const Scene&, const Report&);
void ruleStages(const Scene&, const Report&);
void ruleKerf(const Scene&, const Report&);
void ruleFree(const Scene&, const Report&);
void ruleMade(const Scene&, const Report&);
// checker_slices.cpp
void ruleSlices(const Scene&, const Report&);
void ruleSurplus(const Scene&, const Report&);
// checker_idle.cpp
void ruleIdle(const Scene&, const Report&);
// checker_sizes.cpp
void ruleOverlap(const Scene&, const Report&);
void rulePieceSize(const Scene&, const Report&);
void rulePieceInBlank(const Scene&, const Report&);
void ruleParting(const Scene&, const Report&);
void ruleAllowance(const Scene&, const Report&);
void ruleThickness(const Scene&, const Report&);
void ruleSafeSize(const Scene&, const Report&);
// checker_demand.cpp
void ruleCopies(const Scene&, const Report&);
void ruleAccounted(const Scene&, const Report&);
void ruleSpecies(const Scene&, const Report&);
void ruleGrain(const Scene&, const Report&);
void rulePins(const Scene&, const Report&);
void ruleValue(const Scene&, const Report&);
// checker_freedom.cpp
void ruleSquareCrosscuts(const Scene&, const Report&);
void ruleRipAngle(const Scene&, const Report&);
void ruleOneBlank(const Scene&, const Report&);
void ruleBlankHolds(const Scene&, const Report&);
void ruleMiddle(const Scene&, const Report&);
// checker_panels.cpp
void rulePanel(const Scene&, const Report&);

}  // namespace rackside::checking
