// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/board_facts.h"

#include <QObject>
#include <algorithm>
#include <map>

#include "app/window/look/text.h"
#include "core/geometry/polygon.h"
#include "core/trade/tally.h"
#include "core/wood/looked_over.h"

namespace rackside {

namespace {

// From here on the outline is too doubtful to plan on without a look (common practice, no source).
constexpr double kDoubtfulShare = 0.15;

double doubtfulShare(const Outline& outline) {
  double all = 0, doubtful = 0;
  const auto& v = outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const double length = norm(v[(i + 1) % v.size()].at - v[i].at);
    all += length;
    if (v[i].state == EdgeState::unsure) doubtful += length;
  }
  return all > 0 ? doubtful / all : 0;
}

BoardFacts factsWithoutPlan(const Board& board) {
  BoardFacts f;
  f.id = board.id;
  f.name = qt(board.name);
  f.tag = board.tag;
  f.species = qt(board.species);
  f.place = qt(board.place);
  f.lengthMm = board.lengthMm.value;
  f.thicknessMm = board.thicknessMm;
  f.state = qt(stateWords(board));
  if (board.outline.vertices.size() < 3) return f;
  if (!(f.lengthMm > 0)) f.lengthMm = bounds(board.outline.polygon()).width();
  f.widthMm = tallyWidthMm(board.outline);
  f.boardFeet = boardFeet(surfaceMeasure(f.widthMm, f.lengthMm),
                          nominalThicknessIn(board.thicknessMm > 0 ? board.thicknessMm : 25.4));
  return f;
}

}  // namespace

BoardFacts boardFacts(const Rack& rack, const Board& board) {
  BoardFacts f = factsWithoutPlan(board);
  if (rack.plan)
    f.pieces = static_cast<int>(std::count_if(rack.plan->pieces.begin(), rack.plan->pieces.end(),
                                              [&](const Piece& p) { return p.board == board.id; }));
  return f;
}

std::vector<BoardFacts> rackFacts(const Rack& rack) {
  std::map<BoardId, int> pieces;
  if (rack.plan)
    for (const Piece& piece : rack.plan->pieces) ++pieces[piece.board];
  std::vector<BoardFacts> all;
  for (const Board& board : rack.boards) {
    all.push_back(factsWithoutPlan(board));
    if (const auto found = pieces.find(board.id); found != pieces.end())
      all.back().pieces = found->second;
  }
  return all;
}

std::vector<Lack> lacksOf(const Board& board) {
  std::vector<Lack> lacks;
  if (!(board.thicknessMm > 0))
    lacks.push_back(
        {QObject::tr("thickness"), QObject::tr("Measure the thickness and enter it below.")});
  if (board.species.empty())
    lacks.push_back({QObject::tr("species"),
                     QObject::tr("Enter what wood it is, so that parts can ask for it.")});
  if (!board.seen(Face::A))
    lacks.push_back(
        {QObject::tr("face A"), QObject::tr("Photograph face A with the cards lying on it.")});
  if (!board.seen(Face::B))
    lacks.push_back({QObject::tr("face B"),
                     QObject::tr("Turn the board over and photograph the other face; a face "
                                 "not photographed is unseen, not clear.")});
  if (board.outline.vertices.size() >= 3 && doubtfulShare(board.outline) > kDoubtfulShare)
    lacks.push_back({QObject::tr("clear outline"),
                     QObject::tr("Part of the edge was hard to see (dashed). Redraw "
                                 "it with the Outline tool or retake the picture.")});
  const auto open = std::count_if(board.marks.begin(), board.marks.end(),
                                  [](const Mark& m) { return !m.confirmed; });
  if (open > 0)
    lacks.push_back(
        {open == 1 ? QObject::tr("1 suggestion to review")
                   : QObject::tr("%1 suggestions to review").arg(static_cast<int>(open)),
         QObject::tr("Accept or refuse each suggestion; until then none of them counts.")});
  for (const Face face : facesToLookOver(board))
    lacks.push_back(
        {face == Face::A ? QObject::tr("a look over face A") : QObject::tr("a look over face B"),
         QObject::tr("Mark what a part may not hold, then tick that the face is looked over.")});
  return lacks;
}

}  // namespace rackside
