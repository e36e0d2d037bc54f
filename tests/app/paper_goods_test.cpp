// SPDX-License-Identifier: GPL-3.0-or-later
// Full-size templates, labels on bought sheets, face pictures that carry their scale.
#include <QBuffer>
#include <QImage>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <opencv2/imgcodecs.hpp>
#include <sstream>

#include "app/sheets/face_file.h"
#include "app/sheets/label_sheet.h"
#include "app/sheets/part_template.h"
#include "core/storage/rack_folder.h"
#include "tests/app/bench_rack.h"
#include "tests/core/support/temporary_folder.h"

using namespace rackside;
using namespace rackside::sheets;

namespace {

// A bent rail 55 mm wide, an arc whose radius goes with its length.
Part bentRail(double lengthMm = 800) {
  Part part;
  part.name = "Bent rail";
  part.lengthMm = lengthMm;
  part.thicknessMm = 20;
  Polygon outline;
  const double r = 900 * lengthMm / 800, half = lengthMm / 2;
  part.widthMm = 55 + r - std::sqrt(r * r - half * half);
  const auto arc = [&](double x, double lift) {
    return Point{
        x, std::sqrt(r * r - (x - half) * (x - half)) - std::sqrt(r * r - half * half) + lift};
  };
  for (int i = 0; i <= 40; ++i) outline.push_back(arc(lengthMm * i / 40, 0));
  for (int i = 40; i >= 0; --i) outline.push_back(arc(lengthMm * i / 40, 55));
  part.outline = outline;
  return part;
}

bool contains(const Rect& r, Point p, double inset) {
  return p.x > r.x0 + inset && p.x < r.x1 - inset && p.y > r.y0 + inset && p.y < r.y1 - inset;
}

}  // namespace

TEST_CASE("the tiles of a template cover the part and overlap their neighbours") {
  const auto paper = GENERATE(Paper::a4, Paper::letter);
  const double length = GENERATE(120.0, 800.0, 2400.0);
  const Part part = bentRail(length);
  const auto tiles = templateTiles(part, paper);
  CHECK((tiles.size() == 1) == (length < 250));
  for (const Point& p : *part.outline) {
    INFO(p.x << ", " << p.y);
    CHECK(std::any_of(tiles.begin(), tiles.end(),
                      [&](const TemplateTile& t) { return contains(t.partMm, p, 0); }));
  }
  for (const TemplateTile& a : tiles)
    for (const TemplateTile& b : tiles) {
      if (b.column == a.column + 1 && b.row == a.row)
        CHECK(a.partMm.x1 - b.partMm.x0 == Approx(kTemplateOverlapMm));
      if (b.row == a.row + 1 && b.column == a.column)
        CHECK(a.partMm.y1 - b.partMm.y0 == Approx(kTemplateOverlapMm));
    }
}

TEST_CASE("a template is drawn at full size, its outline where the part has it") {
  constexpr double kPxPerMm = 8;
  const Part part = bentRail();
  const auto paper = GENERATE(Paper::a4, Paper::letter);
  int looked = 0;
  for (const TemplateTile& tile : templateTiles(part, paper)) {
    const QSizeF mm = paperSizeMm(paper, true);
    QImage image(qRound(mm.width() * kPxPerMm), qRound(mm.height() * kPxPerMm),
                 QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter painter(&image);
    const auto texts = paintTemplate(painter, kPxPerMm, part, tile, paper, {});
    painter.end();
    for (const DrawnText& t : texts) CHECK_FALSE(t.cutShort);
    for (const Point& p : *part.outline) {
      if (!contains(tile.partMm, p, 1)) continue;
      const QPointF at = onTile(tile, paper, p) * kPxPerMm;
      int darkest = 255;
      for (int dy = -1; dy <= 1; ++dy)
        for (int dx = -1; dx <= 1; ++dx)
          darkest =
              std::min(darkest, qGray(image.pixel(int(std::floor(at.x())) + dx, int(at.y()) + dy)));
      INFO(tile.name().toStdString() << " " << p.x << ", " << p.y);
      CHECK(darkest < 140);
      ++looked;
    }
    // Two points of one tile lie as far apart on paper as in the part.
    const QPointF a = onTile(tile, paper, {0, 0}), b = onTile(tile, paper, {100, 40});
    CHECK(std::hypot(b.x() - a.x(), b.y() - a.y()) == Approx(std::hypot(100, 40)));
  }
  CHECK(looked >= int(part.outline->size()));
}

TEST_CASE("labels of a bought sheet stay within their label and the page") {
  for (const LabelSheet& sheet : labelSheets()) {
    INFO(sheet.name);
    const QSizeF mm = paperSizeMm(sheet.paper, false);
    QRectF last;
    for (int i = 0; i < sheet.columns * sheet.rows; ++i) {
      const QRectF place = labelPlace(sheet, i);
      CHECK(QRectF(QPointF(-1e-6, -1e-6), QSizeF(mm.width() + 2e-6, mm.height() + 2e-6))
                .contains(place));
      CHECK(place.width() >= kLabelWidthMm);
      CHECK(place.height() >= kLabelHeightMm);
      CHECK_FALSE(place.adjusted(1e-6, 1e-6, -1e-6, -1e-6).intersects(last));
      last = place;
    }
    // The same blank is left on the right as on the left, and below as above.
    CHECK(mm.width() - last.right() == Approx(sheet.leftMm).margin(0.3));
    CHECK(mm.height() - last.bottom() == Approx(sheet.topMm).margin(0.3));
  }
}

TEST_CASE("labels start after those already used, and say when there are none") {
  const Rack rack = tests::benchRack();
  const LabelSheet& sheet = labelSheets().front();
  CHECK(labelSheetPdf(rack, {}, sheet, 5));
  CHECK_FALSE(labelSheetPdf(rack, {}, sheet, sheet.columns * sheet.rows));
  Rack unplanned = rack;
  unplanned.plan.reset();
  CHECK_FALSE(labelSheetPdf(unplanned, {}, sheet, 0));
}

TEST_CASE("a face picture's file carries its scale, the world file every pixel's place") {
  const tests::TemporaryFolder folder;
  const Rack rack = tests::benchRack(folder.path());
  const Board& board = rack.boards.front();
  const Picture* picture = board.newestPicture(Face::A);
  REQUIRE(picture);
  const auto file = faceFile(board, Face::A, folder.path());
  REQUIRE(file);
  // Read by OpenCV's decoder, not by the library that wrote it.
  const std::vector<uchar> bytes(file->png.begin(), file->png.end());
  const cv::Mat image = cv::imdecode(bytes, cv::IMREAD_COLOR);
  CHECK(image.cols == picture->widthPx);
  CHECK(image.rows == picture->heightPx);
  // The chunk pHYs: pixels a unit in x and y, four bytes each, then 1 for the metre
  // (PNG, 11.3.4.3).
  const size_t at = file->png.find("pHYs");
  REQUIRE(at != std::string::npos);
  const auto number = [&](size_t from) {
    unsigned value = 0;
    for (size_t i = 0; i < 4; ++i) value = value * 256 + static_cast<uchar>(file->png[from + i]);
    return value;
  };
  CHECK(number(at + 4) == Approx(1000 / picture->mmPerPx).margin(0.5));
  CHECK(number(at + 8) == Approx(1000 / picture->mmPerPx).margin(0.5));
  CHECK(file->png[at + 12] == 1);
  std::istringstream lines(file->world);
  double a, d, b, e, c, f;
  lines >> a >> d >> b >> e >> c >> f;
  const auto& m = picture->boardFromPicture;
  CHECK(a * 30 + b * 7 + c == Approx(m[0] * 30 + m[1] * 7 + m[2]));
  CHECK(d * 30 + e * 7 + f == Approx(m[3] * 30 + m[4] * 7 + m[5]));
}
