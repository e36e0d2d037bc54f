// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/plan_panels.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>

#include "core/wood/clear_area.h"
#include "vision/wood/rank/best_place.h"
#include "vision/wood/rank/panel.h"

namespace rackside {
namespace {

constexpr double kEdgeShare = 0.2;     // of a strip's width, along each edge
constexpr double kSapwoodShare = 0.1;  // of that band: less may be left to the saw
constexpr const char* kOrdered = "order by colour and grain";

struct ReadFace {
  FigureMaps maps;
  std::unique_ptr<FaceFigure> figure;  // of `maps`
  bool colour = true;
};

// Faces read once each.
class Faces {
 public:
  Faces(const std::vector<Board>& boards, const FigureSource& figures)
      : boards_(boards), figures_(figures) {}

  const Board* board(const BoardId& id) const {
    for (const Board& b : boards_)
      if (b.id == id) return &b;
    return nullptr;
  }

  // Null where it cannot be read.
  const ReadFace* read(const BoardId& id, Face face) {
    auto& slot = read_[{id, face}];
    if (slot) return slot->get();
    slot.emplace();
    const Board* b = board(id);
    const Picture* picture = b ? b->newestPicture(face) : nullptr;
    if (!picture) return nullptr;
    auto maps = figures_(*b, face);
    if (!maps) return nullptr;
    auto fresh = std::make_unique<ReadFace>();
    fresh->maps = std::move(maps).value();
    fresh->colour = judgedBy(*picture, fresh->maps.colour).colour;
    fresh->figure = std::make_unique<FaceFigure>(fresh->maps);
    *slot = std::move(fresh);
    return slot->get();
  }

 private:
  const std::vector<Board>& boards_;
  const FigureSource& figures_;
  std::map<std::pair<BoardId, Face>, std::optional<std::unique_ptr<ReadFace>>> read_;
};

// Is the band along one edge of a strip (board frame: low or high across it) marked as sapwood?
bool sapwoodAlong(const Board& board, const Piece& piece, bool high) {
  const Pose pose{piece.outline[0], piece.angleRad};
  const double w = piece.widthMm, band = kEdgeShare * w;
  const Polygon edge =
      rackside::apply(pose, rectangle({0, high ? w - band : 0, piece.lengthMm, high ? w : band}));
  for (const Mark& m : board.marks)
    if (m.kind == MarkKind::sapwood && counts(m) && m.on(piece.showFace) &&
        area(intersect(polygonsOf(*m.on(piece.showFace)), {edge})) >
            kSapwoodShare * piece.lengthMm * band)
      return true;
  return false;
}

std::optional<PanelStrip> stripOf(const Piece& piece, Faces& faces) {
  const Board* board = faces.board(piece.board);
  const ReadFace* read = board ? faces.read(piece.board, piece.showFace) : nullptr;
  if (!read || piece.outline.size() < 4) return std::nullopt;
  Part strip;
  strip.lengthMm = piece.lengthMm;
  strip.widthMm = piece.widthMm;
  Placement place;
  place.board = piece.board;
  place.face = piece.showFace;
  place.boardFromPart = {piece.outline[0], piece.angleRad};
  place.outline = piece.outline;
  const bool low = sapwoodAlong(*board, piece, false), high = sapwoodAlong(*board, piece, true);
  PanelStrip s{stripAt(*read->figure, std::move(place), strip, read->colour), {}};
  s.near.sapwood = piece.showFace == Face::A ? low : high;
  s.far.sapwood = piece.showFace == Face::A ? high : low;
  return s;
}

bool isSawn(const Plan& plan, const Piece& piece) {
  for (const Blank& blank : plan.blanks)
    for (const Cut& cut : plan.cuts)
      if (blank.id == piece.blank && cut.id == blank.lastCut) return cut.made;
  return false;
}

void lay(const Panel& seen, const std::vector<Piece*>& pieces, PlannedPanel& panel) {
  const PanelOrder order = bestOrders(seen, 1).front();
  panel.strips.clear();
  panel.turned.clear();
  for (size_t i = 0; i < order.strips.size(); ++i) {
    Piece& piece = *pieces[static_cast<size_t>(order.strips[i].strip)];
    piece.strip = static_cast<int>(i) + 1;
    panel.strips.push_back(piece.id);
    if (order.strips[i].turned) panel.turned.push_back(piece.id);
  }
  std::erase_if(panel.remarks, [](const std::string& r) { return r.rfind(kOrdered, 0) == 0; });
  const auto worst =
      std::max_element(order.seams.begin(), order.seams.end(),
                       [](const Seam& a, const Seam& b) { return a.cost() < b.cost(); });
  if (worst != order.seams.end())
    panel.remarks.push_back(std::string(kOrdered) + "; at the seam that shows most " +
                            words(*worst));
}

}  // namespace

BoardTones boardTones(const std::vector<Board>& boards, const std::vector<Part>& parts,
                      const FigureSource& figures, const std::vector<Species>& own) {
  BoardTones tones;
  for (const Board& board : boards) {
    const auto serves = [&](const Part& part) {
      return part.glueUp.allowed && woodServes(part.species, board.species, own);
    };
    const Face face = board.newestPicture(Face::A) ? Face::A : Face::B;
    if (board.isSpokenFor() || board.cutUp || !board.newestPicture(face) ||
        std::none_of(parts.begin(), parts.end(), serves))
      continue;
    const auto maps = figures(board, face);
    if (!maps) continue;
    const FaceColour& colour = maps->colour;
    // Against white paper in view, where there is some, one face's light is another's.
    const double white = colour.lightKnown()
                             ? std::log((colour.white[0] + colour.white[1] + colour.white[2]) / 3)
                             : 0;
    const double tint = colour.lightKnown() ? std::log(colour.white[2] / colour.white[0]) : 0;
    tones[board.id] = {colour.meanLight - white, colour.shows() ? colour.meanWarmth - tint : 0};
  }
  return tones;
}

void orderPanels(const std::vector<Board>& boards, const FigureSource& figures, Plan& plan) {
  Faces faces(boards, figures);
  for (PlannedPanel& panel : plan.panels) {
    Panel seen;
    std::vector<Piece*> pieces;
    bool known = true;
    for (const PieceId& id : panel.strips)
      for (Piece& piece : plan.pieces) {
        if (piece.id != id) continue;
        auto strip = stripOf(piece, faces);
        known = known && strip && !isSawn(plan, piece);
        if (!known) break;
        seen.strips.push_back(std::move(*strip));
        pieces.push_back(&piece);
      }
    if (known && pieces.size() == panel.strips.size() && pieces.size() > 1)
      lay(seen, pieces, panel);
  }
}

}  // namespace rackside
