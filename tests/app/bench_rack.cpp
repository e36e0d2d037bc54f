// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/bench_rack.h"

#include <cmath>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/storage/rack_folder.h"
#include "core/wood/measure.h"

namespace rackside::tests {
namespace {

double nearEdge(double x) {
  return 3 + 3 * std::sin(x / 170);
}
double farEdge(double x, double width) {
  return width - 3 - 3 * std::sin(x / 230 + 1);
}

Outline waneyOutline(double length, double width) {
  Outline o;
  const int steps = std::max(4, int(length / 50));
  for (int i = 0; i <= steps; ++i)
    o.vertices.push_back(
        {{length * i / steps, nearEdge(length * i / steps)}, 0.2, EdgeState::sure});
  for (int i = steps; i >= 0; --i)
    o.vertices.push_back({{length * i / steps, farEdge(length * i / steps, width)},
                          0.2,
                          i % 7 == 3 ? EdgeState::unsure : EdgeState::sure});
  return o;
}

// Brown with darker streaks along: enough to see lines and words against.
cv::Mat drawnFace(int width, int height) {
  cv::Mat face(height, width, CV_8UC3, cv::Scalar(60, 95, 140));
  cv::RNG random(7);
  for (int i = 0; i < height * 2; ++i) {
    const int y = random.uniform(0, height), x = random.uniform(-width / 2, width);
    cv::line(face, {x, y}, {x + random.uniform(200, 900), y + random.uniform(-3, 4)},
             cv::Scalar(40, 70, 105) + cv::Scalar::all(random.uniform(-20, 30)), 1, cv::LINE_AA);
  }
  return face;
}

Picture addPicture(const Board& board, double length, double width,
                   const std::filesystem::path& folder) {
  Picture p;
  p.id = {"pic-" + board.id.text};
  p.file = "face_a.jpg";
  p.mmPerPx = 1;
  p.widthPx = int(length);
  p.heightPx = int(width);
  p.boardFromPicture = {1, 0, 0.5, 0, -1, width - 0.5};
  const auto place = boardFolder(folder, board.id);
  std::filesystem::create_directories(place);
  cv::imwrite((place / p.file).string(), drawnFace(p.widthPx, p.heightPx));
  return p;
}

std::vector<Mark> manyMarks(const Board& board, double length, double width) {
  std::vector<Mark> marks;
  const auto& kinds = allMarkKinds();
  for (size_t i = 0; i < kinds.size(); ++i) {
    Mark m;
    m.id = {"mk-" + board.id.text + "-" + std::to_string(i)};
    m.kind = kinds[i];
    const double x = length * (double(i) + 0.5) / double(kinds.size());
    const double y = width * (0.15 + 0.7 * double(i % 3) / 2);
    const double size = std::min(18.0, length / 60);
    if (m.kind == MarkKind::check || m.kind == MarkKind::split) {
      m.onA = Stroke{{{x - 2 * size, y}, {x, y + 3}, {x + 2 * size, y}}, 2};
    } else {
      m.onA = Ellipse{{x, y}, size, size * 0.7, 0.3};
    }
    if (m.kind == MarkKind::knot || m.kind == MarkKind::wormHoles)
      m.soundness = i % 2 ? Soundness::sound : Soundness::loose;
    m.through = i % 4 == 0;
    if (i % 5 == 4) std::swap(m.onA, m.onB);
    marks.push_back(std::move(m));
  }
  return marks;
}

Part aPart(const std::string& id, const std::string& name, int copies, double length,
           double width) {
  Part p;
  p.id = {id};
  p.name = name;
  p.copies = copies;
  p.lengthMm = length;
  p.widthMm = width;
  p.thicknessMm = 20;
  return p;
}

}  // namespace

Board drawnBoard(int tag, double length, double width, const std::filesystem::path& folder) {
  Board b;
  b.id = {"bd-" + std::to_string(tag)};
  b.name = std::to_string(tag);
  b.tag = tag;
  b.place = "left bay, second arm";
  b.species = "cherry";
  b.thicknessMm = 27;
  b.outline = waneyOutline(length, width);
  b.lengthMm = lengthOf(b.outline);
  b.widthsMm = widthsEvery(b.outline, 100);
  if (!folder.empty()) b.pictures.push_back(addPicture(b, length, width, folder));
  b.marks = manyMarks(b, length, width);
  return b;
}

void layByHand(Rack& rack, const Board& board, const Part& part, const HandCut& how) {
  Plan& plan = *rack.plan;
  const double kerf = 3.2, width = bounds(board.outline.polygon()).y1;
  const std::string stem = board.id.text + "-";
  int order = 0, copy = 0;
  for (const Piece& p : plan.pieces) copy = p.part == part.id ? std::max(copy, p.copy) : copy;
  std::optional<CutId> parent;
  bool left = true;
  const auto cut = [&](CutKind kind, Segment line) -> Cut& {
    Cut c;
    c.id = {stem + "cut" + std::to_string(++order)};
    c.board = board.id;
    c.order = order;
    c.kind = kind;
    c.line = line;
    c.kerfMm = kerf;
    c.parent = parent;
    c.leftOfParent = left;
    plan.cuts.push_back(c);
    return plan.cuts.back();
  };
  Cut& trim = cut(CutKind::crosscut, {{how.trimMm, width}, {how.trimMm, 0}});
  trim.wasteIsRight = true;
  parent = trim.id;
  std::vector<CutId> sections;
  for (int s = 0; s < how.sections; ++s) {
    const double x = how.trimMm + (s + 1) * how.pieceLengthMm + s * kerf;
    Cut& end = cut(CutKind::crosscut, {{x, 0}, {x, width}});
    end.wasteIsRight = s + 1 == how.sections;
    sections.push_back(end.id);
    parent = end.id;
    left = false;
  }
  for (int s = 0; s < how.sections; ++s) {
    const double x0 = how.trimMm + s * (how.pieceLengthMm + kerf), x1 = x0 + how.pieceLengthMm;
    parent = sections[size_t(s)];
    left = true;
    double y = nearEdge(x0) + how.firstOffsetMm;
    Cut& first = cut(CutKind::rip, {{x0, y}, {x1, y}});
    first.firstRip = first.wasteIsRight = true;
    first.offsetAtFromMm = y - nearEdge(x0);
    first.offsetAtToMm = y - nearEdge(x1);
    parent = first.id;
    for (int i = 0; i < how.perSection; ++i) {
      const double top = y + how.pieceWidthMm;
      Cut& rip = cut(CutKind::rip, {{x1, top}, {x0, top}});
      rip.wasteIsRight = i + 1 == how.perSection;
      Blank blank;
      blank.id = {stem + "blank" + std::to_string(order)};
      blank.board = board.id;
      blank.boardFromBlank = {{x0, y}, 0};
      blank.roughLengthMm = how.pieceLengthMm;
      blank.roughWidthMm = how.pieceWidthMm;
      blank.finishedThicknessMm = part.thicknessMm;
      blank.lastCut = rip.id;
      plan.blanks.push_back(blank);
      Piece piece;
      piece.id = {stem + "piece" + std::to_string(order)};
      piece.part = part.id;
      piece.copy = ++copy;
      piece.blank = blank.id;
      piece.board = board.id;
      piece.outline = rectangle({x0 + 12.5, y + 3.2, x1 - 12.5, top - 3.2});
      piece.lengthMm = how.pieceLengthMm - 25;
      piece.widthMm = how.pieceWidthMm - 6.4;
      plan.pieces.push_back(piece);
      parent = rip.id;
      left = false;
      y = top + kerf;
    }
  }
}

Rack benchRack(const std::filesystem::path& folder) {
  Rack rack;
  rack.parts = {aPart("pt-1", "Bench rail", 9, 575, 53.6),
                aPart("pt-2", "Drawer runner", 4, 95, 33),
                aPart("pt-3", "Wall cabinet side with a long name", 12, 875, 93.6),
                aPart("pt-4", "Seat slat", 2, 1800, 90)};
  rack.plan.emplace();
  rack.plan->seed = 1;
  rack.boards = {drawnBoard(3, 300, 90, folder), drawnBoard(7, 2400, 210, folder),
                 drawnBoard(12, 5000, 330, folder)};
  layByHand(rack, rack.boards[0], rack.parts[1], {1, 1, 120, 40, 50, 10});
  layByHand(rack, rack.boards[1], rack.parts[0], {3, 3, 600, 60, 50, 12});
  layByHand(rack, rack.boards[2], rack.parts[2], {4, 3, 900, 100, 60, 9});
  Unplaced u;
  u.part = rack.parts[3].id;
  u.why = "no board has a clear length of 1825 mm in this width";
  u.nearest = Unplaced::Nearest{rack.boards[2].id, 84, "length"};
  rack.plan->unplaced = {u};
  return rack;
}

}  // namespace rackside::tests
