// SPDX-License-Identifier: GPL-3.0-or-later
// Panels of a plan laid in order by what painted boards look like.
#include "vision/wood/rank/plan_panels.h"

#include <catch2/catch.hpp>

#include "tests/support/wood_rack.h"
#include "vision/wood/rank/panel.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

constexpr double kLengthMm = 700, kWidthMm = 60;

// Four strips side by side on one painted board, named in an order that is not theirs.
struct Laid {
  Board board;
  FigureMaps figure;
  Plan plan;

  explicit Laid(uint32_t seed) {
    WoodSpec s;
    s.species = "cherry";
    s.seed = seed;
    s.pithYMm = 140;
    s.pithZMm = -60;
    board = paintedBoard("board-1", s, 900, 280, 0, PhotoWear{}, figure);
    PlannedPanel panel;
    panel.part = {"top"};
    for (const int i : {2, 0, 3, 1}) {
      Piece p;
      p.id = {"strip-" + std::to_string(i)};
      p.kind = PieceKind::panelStrip;
      p.part = panel.part;
      p.strip = static_cast<int>(panel.strips.size()) + 1;
      p.board = board.id;
      p.blank = {"blank-" + std::to_string(i)};
      p.lengthMm = kLengthMm;
      p.widthMm = kWidthMm;
      const double y = 10 + i * (kWidthMm + 5);
      p.outline = rectangle({100, y, 100 + kLengthMm, y + kWidthMm});
      panel.strips.push_back(p.id);
      plan.pieces.push_back(p);
    }
    plan.panels = {panel};
  }
  void order() {
    orderPanels(
        {board}, [&](const Board&, Face) { return Result<FigureMaps>(figure); }, plan);
  }
  bool isTurned(const PieceId& id) const {
    const auto& turned = plan.panels[0].turned;
    return std::find(turned.begin(), turned.end(), id) != turned.end();
  }
  int stripOf(const PieceId& id) const {
    for (const Piece& p : plan.pieces)
      if (p.id == id) return p.strip;
    return 0;
  }
};

}  // namespace

TEST_CASE("a panel's strips are laid anew, all of them, and numbered as they lie") {
  for (const uint32_t seed : {3U, 8U, 21U}) {
    Laid laid(seed);
    const std::vector<PieceId> before = laid.plan.panels[0].strips;
    laid.order();
    const PlannedPanel& panel = laid.plan.panels[0];
    CHECK(std::is_permutation(before.begin(), before.end(), panel.strips.begin(),
                              panel.strips.end()));
    for (size_t i = 0; i < panel.strips.size(); ++i)
      CHECK(laid.stripOf(panel.strips[i]) == static_cast<int>(i) + 1);
    REQUIRE(panel.remarks.size() == 1);
    CHECK(panel.remarks[0].find("colour steps by") != std::string::npos);
    // Once more changes nothing.
    Laid again = laid;
    again.order();
    CHECK(again.plan.panels[0].strips == panel.strips);
    CHECK(again.plan.panels[0].turned == panel.turned);
    CHECK(again.plan.panels[0].remarks == panel.remarks);
  }
}

TEST_CASE("marked sapwood ends up at the outer edges of a plan's panel") {
  Laid laid(8);
  // Along the near edges of strips 1 and 3.
  for (const int i : {1, 3}) {
    const double y = 10 + i * (kWidthMm + 5);
    Mark sap;
    sap.id = {"sap-" + std::to_string(i)};
    sap.kind = MarkKind::sapwood;
    sap.onA = rectangle({0, y - 2, 900, y + 8});
    laid.board.marks.push_back(sap);
  }
  laid.order();
  const PlannedPanel& panel = laid.plan.panels[0];
  const PieceId near = panel.strips.front(), far = panel.strips.back();
  CHECK(((near.text == "strip-1" && far.text == "strip-3") ||
         (near.text == "strip-3" && far.text == "strip-1")));
  CHECK_FALSE(laid.isTurned(near));
  CHECK(laid.isTurned(far));
}

TEST_CASE("strips that are sawn, or cannot be seen, stay in their order") {
  Laid sawn(8);
  Blank blank;
  blank.id = {"blank-0"};
  blank.lastCut = {"cut-1"};
  Cut cut;
  cut.id = {"cut-1"};
  cut.made = true;
  sawn.plan.blanks = {blank};
  sawn.plan.cuts = {cut};
  const auto before = sawn.plan.panels[0].strips;
  sawn.order();
  CHECK(sawn.plan.panels[0].strips == before);
  Laid unseen(8);
  orderPanels(
      {unseen.board}, [](const Board&, Face) { return Result<FigureMaps>(Error{"no picture"}); },
      unseen.plan);
  CHECK(unseen.plan.panels[0].strips == before);
}

TEST_CASE("boards have a tone when a part may be glued up from them") {
  const Laid laid(8);
  const FigureSource figures = [&](const Board&, Face) { return Result<FigureMaps>(laid.figure); };
  Part part;
  CHECK(boardTones({laid.board}, {part}, figures).empty());
  part.glueUp.allowed = true;
  const BoardTones tones = boardTones({laid.board}, {part}, figures);
  REQUIRE(tones.size() == 1);
  CHECK(std::isfinite(tones.begin()->second.lightness));
}
