// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/made_rack.h"

#include <QDir>
#include <QImage>
#include <cmath>
#include <random>
#include <stdexcept>

#include "core/geometry/polygon.h"
#include "core/storage/rack_folder.h"
#include "core/wood/measure.h"

namespace rackside::made {

namespace {

using Random = std::mt19937;

double between(Random& random, double low, double high) {
  return low + (high - low) * (static_cast<double>(random()) / 4294967295.0);
}

Outline wavyOutline(Random& random, double length, double width) {
  Outline outline;
  const double phase = between(random, 0, 6.28), sway = between(random, 1, 6);
  const auto wave = [&](double x) { return sway * std::sin(phase + x / 300.0); };
  const auto state = [&] {
    const double dice = between(random, 0, 1);
    return dice < 0.06 ? EdgeState::unsure : dice < 0.10 ? EdgeState::bridged : EdgeState::sure;
  };
  const int steps = static_cast<int>(length / 40);
  for (int i = 0; i <= steps; ++i) {
    const double x = length * i / steps;
    outline.vertices.push_back({{x, 8 + wave(x)}, 0.3, state()});
  }
  for (int i = steps; i >= 0; --i) {
    const double x = length * i / steps;
    outline.vertices.push_back({{x, width - 8 + 0.6 * wave(x * 1.3)}, 0.3, state()});
  }
  PlaneMode mode;
  mode.dx[1] = 0.4;  // 0.4 mm a metre along, one standard deviation
  mode.dy[2] = 0.4;
  outline.planeModes.push_back(mode);
  return outline;
}

Mark randomMark(Random& random, double length, double width) {
  static const MarkKind kinds[] = {MarkKind::knot,      MarkKind::check, MarkKind::sapwood,
                                   MarkKind::wormHoles, MarkKind::gum,   MarkKind::barkPocket,
                                   MarkKind::favour,    MarkKind::stain};
  Mark mark;
  mark.id = MarkId{newIdText("mark")};
  mark.kind = kinds[random() % std::size(kinds)];
  const Point at{between(random, 80, length - 250), between(random, 40, width - 60)};
  if (mark.kind == MarkKind::check) {
    mark.onA = Stroke{{at, {at.x + 70, at.y + 3}, {at.x + 150, at.y - 2}}, 1};
  } else if (mark.kind == MarkKind::sapwood || mark.kind == MarkKind::favour) {
    mark.onA = Polygon{
        {at.x, at.y}, {at.x + 200, at.y + 4}, {at.x + 190, at.y + 32}, {at.x + 10, at.y + 28}};
  } else {
    mark.onA = Ellipse{at, between(random, 8, 26), between(random, 6, 16), between(random, 0, 3)};
  }
  if (mark.kind == MarkKind::knot) {
    mark.soundness = random() % 2 ? Soundness::sound : Soundness::loose;
    mark.through = random() % 3 == 0;
    if (mark.through) mark.onB = mark.onA;
  }
  return mark;
}

Picture pictureOf(const Board& board, Face face, double mmPerPx) {
  const Rect box = bounds(board.outline.polygon());
  Picture p;
  p.id = PictureId{newIdText("picture")};
  p.face = face;
  p.file = p.id.text + ".jpg";
  p.widthPx = static_cast<int>((box.width() + 40) / mmPerPx);
  p.heightPx = static_cast<int>((box.height() + 40) / mmPerPx);
  p.mmPerPx = mmPerPx;
  p.boardFromPicture = {mmPerPx, 0, box.x0 - 20, 0, -mmPerPx, box.y1 + 20};
  return p;
}

double hash01(int x, int y, unsigned seed) {
  unsigned h = static_cast<unsigned>(x) * 374761393u + static_cast<unsigned>(y) * 668265263u +
               seed * 2246822519u;
  h = (h ^ (h >> 13)) * 1274126177u;
  return ((h ^ (h >> 16)) & 0xFFFF) / 65535.0;
}

}  // namespace

RackWish roomy(int boards) {
  RackWish w;
  w.boards = boards;
  w.mmPerPx = 4;
  w.marksPerBoard = 2;
  w.thicknessMm = 34;
  w.bothFaces = true;
  return w;
}

Board makeBoard(unsigned seed, int tag, const RackWish& wish) {
  Random random(seed);
  Board board;
  board.id = BoardId{newIdText("board")};
  board.name = std::to_string(tag);
  board.tag = tag;
  board.species = random() % 2 ? "cherry" : "ash";
  board.place = "bay " + std::to_string(1 + random() % 3);
  if (random() % 6) board.thicknessMm = random() % 2 ? 27 : 34;
  if (wish.thicknessMm > 0) board.thicknessMm = wish.thicknessMm;
  const double length = between(random, 1500, 3200), width = between(random, 130, 300);
  board.outline = wavyOutline(random, length, width);
  board.lengthMm = lengthOf(board.outline);
  board.widthsMm = widthsEvery(board.outline, 100);
  for (int i = 0; i < wish.marksPerBoard; ++i)
    board.marks.push_back(randomMark(random, length, width));
  board.pictures.push_back(pictureOf(board, Face::A, wish.mmPerPx));
  if (random() % 3 || wish.bothFaces)
    board.pictures.push_back(pictureOf(board, Face::B, wish.mmPerPx));
  return board;
}

std::vector<Part> makeParts(int rows) {
  struct Row {
    const char* name;
    int copies;
    double length, width, thickness;
  };
  std::vector<Part> parts;
  for (const Row& row : {Row{"Stretcher", 1, 700, 70, 20}, Row{"Leg", 4, 440, 60, 20},
                         Row{"Long rail", 2, 980, 80, 20}, Row{"Seat", 1, 1100, 120, 20}}) {
    if (static_cast<int>(parts.size()) == rows) break;
    Part part;
    part.id = PartId{newIdText("part")};
    part.name = row.name;
    part.copies = row.copies;
    part.lengthMm = row.length;
    part.widthMm = row.width;
    part.thicknessMm = row.thickness;
    parts.push_back(part);
  }
  return parts;
}

void paintFace(const Board& board, const Picture& picture, const std::filesystem::path& file,
               unsigned seed) {
  QImage image(picture.widthPx, picture.heightPx, QImage::Format_RGB32);
  const bool cherry = board.species == "cherry";
  const auto& m = picture.boardFromPicture;
  const Rect box = bounds(board.outline.polygon());
  for (int row = 0; row < image.height(); ++row) {
    auto* line = reinterpret_cast<QRgb*>(image.scanLine(row));
    const double y = m[4] * row + m[5];
    for (int column = 0; column < image.width(); ++column) {
      const double x = m[0] * column + m[2];
      if (y < box.y0 + 8 || y > box.y1 - 8 || x < box.x0 || x > box.x1) {
        const int grey = 84 + static_cast<int>(14 * hash01(column / 3, row / 3, seed));
        line[column] = qRgb(grey, grey, grey - 6);
        continue;
      }
      const double arch = y - (box.y0 + box.y1) / 2;
      const double ring = std::sin(0.35 * (arch + 0.00002 * x * x * (arch > 0 ? 1 : -1)) +
                                   0.8 * std::sin(x / 170.0 + seed));
      const double grain = hash01(column / 14, row, seed) - 0.5;
      const double v = 1 + 0.09 * ring + 0.10 * grain;
      line[column] = cherry ? qRgb(int(176 * v), int(112 * v), int(70 * v))
                            : qRgb(int(206 * v), int(180 * v), int(140 * v));
    }
  }
  if (!image.save(QString::fromStdString(file.string()), "JPG", 90))
    throw std::runtime_error("cannot write " + file.string());
}

Rack writeRack(const std::filesystem::path& folder, const RackWish& wish) {
  Rack rack;
  for (int i = 0; i < wish.boards; ++i)
    rack.boards.push_back(makeBoard(wish.seed * 1000 + static_cast<unsigned>(i), i + 1, wish));
  rack.parts = makeParts(wish.parts);
  if (const Status saved = saveRack(rack, folder); !saved)
    throw std::runtime_error(saved.error().message);
  if (!wish.pictures) return rack;
  for (const Board& board : rack.boards)
    for (const Picture& picture : board.pictures)
      paintFace(board, picture, boardFolder(folder, board.id) / picture.file,
                wish.seed + static_cast<unsigned>(*board.tag) * 2 + (picture.face == Face::B));
  return rack;
}

}  // namespace rackside::made
