// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/geometry_test.h"

#include <QImage>
#include <QTemporaryDir>
#include <QTest>
#include <cmath>
#include <random>

#include "app/window/face/face_camera.h"
#include "app/window/face/ruler.h"
#include "app/window/face/tile_pyramid.h"
#include "app/window/look/text.h"
#include "app/window/pages/table_text.h"
#include "app/window/tools/outline_stretch.h"
#include "app/window/tools/shape_handles.h"
#include "core/geometry/polygon.h"

namespace rackside {

namespace {

Outline box(double length, double width) {
  Outline o;
  for (const Point p : {Point{0, 0}, {length, 0}, {length, width}, {0, width}})
    o.vertices.push_back({p, 0.2, EdgeState::sure});
  return o;
}

const LengthStyle kInches{UnitSystem::inches, 0, 16};
const LengthStyle kMillimetres{UnitSystem::millimetres, 0, 16};

}  // namespace

void GeometryTest::cameraGoesThereAndBack() {
  FaceCamera camera;
  camera.setViewport(QRectF(26, 26, 900, 500));
  camera.fit({0, 0, 2400, 220}, 40);
  for (const bool over : {false, true}) {
    camera.setTurnedOver(over);
    const Point p{123.4, 56.7};
    const Point back = camera.toBoard(camera.toScreen(p));
    QVERIFY(norm(back - p) < 1e-9);
    QVERIFY(camera.toScreen({0, 100}).y() < camera.toScreen({0, 0}).y());  // y runs upwards
    QCOMPARE(camera.toScreen({100, 0}).x() > camera.toScreen({0, 0}).x(), !over);
  }
}

void GeometryTest::zoomKeepsThePointUnderThePointer() {
  FaceCamera camera;
  camera.setViewport(QRectF(26, 26, 900, 500));
  camera.fit({0, 0, 2400, 220}, 40);
  const QPointF anchor(333, 222);
  const Point before = camera.toBoard(anchor);
  camera.zoomAt(anchor, 3.7);
  QVERIFY(norm(camera.toBoard(anchor) - before) < 1e-9);
}

void GeometryTest::inchRulerTicksFallOnFractions() {
  for (const double zoom : {0.05, 0.3, 1.0, 4.0, 15.0, 50.0}) {
    const auto ticks = rulerTicks(-10, 400, zoom, 60, kInches);
    QVERIFY(ticks.size() > 1);
    double lastLabel = -1e9;
    for (size_t i = 0; i < ticks.size(); ++i) {
      const double sixteenths = ticks[i].mm / 25.4 * 16;  // 25.4 mm an inch: the 1959 agreement
      QVERIFY(std::abs(sixteenths - std::round(sixteenths)) < 1e-6);
      if (i > 0) QVERIFY((ticks[i].mm - ticks[i - 1].mm) * zoom >= 5 - 1e-6);
      if (ticks[i].label.isEmpty()) continue;
      QVERIFY((ticks[i].mm - lastLabel) * zoom >= 60 - 1e-6);
      lastLabel = ticks[i].mm;
    }
  }
}

void GeometryTest::millimetreRulerTicksAreNeverCrowded() {
  for (const double zoom : {0.03, 0.2, 1.0, 6.0, 40.0}) {
    const auto ticks = rulerTicks(0, 900 / zoom, zoom, 50, kMillimetres);
    QVERIFY(ticks.size() <= 181);
    QVERIFY(std::any_of(ticks.begin(), ticks.end(),
                        [](const RulerTick& t) { return !t.label.isEmpty(); }));
  }
}

void GeometryTest::ellipseHandleTurnsAndStretches() {
  const MarkShape shape = Ellipse{{100, 100}, 20, 10, 0};
  const auto turned = std::get<Ellipse>(withHandleAt(shape, 0, {100, 130}));
  QCOMPARE(turned.semiX, 30.0);
  QVERIFY(std::abs(turned.angleRad - std::acos(0.0)) < 1e-12);
  const auto wide = std::get<Ellipse>(withHandleAt(shape, 3, {100, 75}));
  QCOMPARE(wide.semiY, 25.0);
  QCOMPARE(wide.angleRad, 0.0);
  const auto handles = handlesOf(shape);
  QVERIFY(norm(handles[2] - Point{80, 100}) < 1e-9);
}

void GeometryTest::vertexIsSetIntoTheNearestSide() {
  const MarkShape shape = Polygon{{0, 0}, {100, 0}, {100, 50}, {0, 50}};
  const auto added = withVertexNear(shape, {101, 25}, 5);
  QVERIFY(added.has_value());
  QCOMPARE(added->second, size_t{2});
  QCOMPARE(std::get<Polygon>(added->first).size(), size_t{5});
  QVERIFY(!withVertexNear(shape, {50, 25}, 5).has_value());
  QVERIFY(!withoutHandle(MarkShape(Polygon{{0, 0}, {1, 0}, {0, 1}}), 0).has_value());
}

void GeometryTest::thinnedStaysWithinTolerance() {
  std::mt19937 random(7);
  std::vector<Point> line;
  for (int i = 0; i <= 200; ++i)
    line.push_back({i * 2.0, 20 * std::sin(i / 15.0) + 0.2 * ((random() % 100) / 100.0)});
  const auto kept = thinned(line, 1.0);
  QVERIFY(kept.size() < line.size() / 3);
  for (const Point p : line) {
    double off = 1e9;
    for (size_t i = 0; i + 1 < kept.size(); ++i) {
      const Point d = kept[i + 1] - kept[i];
      const double t = std::clamp(dot(p - kept[i], d) / dot(d, d), 0.0, 1.0);
      off = std::min(off, norm(p - (kept[i] + t * d)));
    }
    QVERIFY(off <= 1.0 + 1e-9);
  }
}

// The area tells which way was replaced: a bump of 100 × 10 on a board of 1000 × 200, either way
// round.
void GeometryTest::stretchReplacesTheShorterWay() {
  const Outline outline = box(1000, 200);
  const auto from = nearestPlace(outline, {300, 1});
  const auto to = nearestPlace(outline, {400, -2});
  const std::vector<StretchPoint> bump{{{300, -10}, 0.4}, {{400, -10}, 0.4}};
  for (const bool swapped : {false, true}) {
    auto line = bump;
    if (swapped) std::reverse(line.begin(), line.end());
    const auto changed = swapped ? withStretch(outline, to, from, line, 0.4)
                                 : withStretch(outline, from, to, line, 0.4);
    QVERIFY(changed.ok());
    QVERIFY(std::abs(signedArea(changed->polygon()) - (1000 * 200 + 100 * 10)) < 1e-6);
    const auto drawn =
        std::count_if(changed->vertices.begin(), changed->vertices.end(),
                      [](const OutlineVertex& v) { return v.state == EdgeState::drawn; });
    QCOMPARE(drawn, 3);
  }
  // Across the corner at the right end.
  const auto corner = withStretch(outline, nearestPlace(outline, {950, 0}),
                                  nearestPlace(outline, {1000, 60}), {}, 0.4);
  QVERIFY(corner.ok());
  QVERIFY(std::abs(signedArea(corner->polygon()) - (1000 * 200 - 0.5 * 50 * 60)) < 1e-6);
}

void GeometryTest::stretchThatCrossesIsRefused() {
  const Outline outline = box(1000, 200);
  const auto changed =
      withStretch(outline, nearestPlace(outline, {300, 0}), nearestPlace(outline, {400, 0}),
                  {{{350, 300}, 0.4}, {{320, -20}, 0.4}}, 0.4);
  QVERIFY(!changed.ok());
  QVERIFY(!changed.error().message.empty());
}

void GeometryTest::tableTextKeepsInchMarks() {
  const auto rows = readTable(
      QStringLiteral("Leg\t4\t17 1/2\"\t2 3/8\"\t7/8\"\n\"Rail, long\"\t2\t38\t3\t7/8\n"));
  QCOMPARE(rows.size(), size_t{2});
  QCOMPARE(rows[0], QStringList({"Leg", "4", "17 1/2\"", "2 3/8\"", "7/8\""}));
  QCOMPARE(rows[1].first(), QStringLiteral("Rail, long"));
}

void GeometryTest::tableTextGoesThereAndBack() {
  const std::vector<QStringList> rows{{"a", "b \"c\"", "d,e"}, {"", "f\ng", "7/8\""}};
  for (const QChar separator : {QLatin1Char(','), QLatin1Char('\t')}) {
    const auto back = readTable(writeTable(rows, separator));
    QCOMPARE(back, rows);
  }
}

void GeometryTest::pyramidTilesAreThePicture() {
  QTemporaryDir dir;
  QImage image(1500, 700, QImage::Format_RGB32);
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x)
      image.setPixel(x, y, qRgb(x * 255 / 1500, y * 255 / 700, 128));
  const QString file = dir.filePath(QStringLiteral("face.png"));
  QVERIFY(image.save(file));
  RunControl control;
  const auto pyramid = TilePyramid::open(file, control);
  QVERIFY(pyramid.ok());
  const TilePyramid& p = **pyramid;
  QCOMPARE(p.size(0), image.size());
  QCOMPARE(p.levels(), 3);  // 1500, 750, 375 px wide
  const QImage tile = p.tile(0, 2, 1);
  QCOMPARE(tile.size(), QSize(1500 - 1024, 700 - 512));
  const QRgb there = tile.pixel(100, 100), truth = image.pixel(1124, 612);
  QVERIFY(std::abs(qRed(there) - qRed(truth)) < 8 && std::abs(qGreen(there) - qGreen(truth)) < 8);
  RunControl again;
  QVERIFY(TilePyramid::open(file, again).ok());
  QVERIFY(!TilePyramid::open(dir.filePath(QStringLiteral("none.jpg")), again).ok());
}

void GeometryTest::textsAreReadInOwnUnits() {
  const LengthStyle inches{UnitSystem::inches, 0, 16};
  const QString text = QStringLiteral("short by 941 mm in length; 12.7 mm wide, 40 mm² of it");
  QCOMPARE(inOwnUnits(text, inches),
           QStringLiteral("short by 37 1/16\" in length; 1/2\" wide, 40 mm² of it"));
  QCOMPARE(inOwnUnits(text, LengthStyle{}), text);
  // Never less than what is known: 0.5 mm lies between 1/64 and 2/64.
  QCOMPARE(plusMinusText(0.5, inches), QStringLiteral("± 1/32\""));
  QCOMPARE(plusMinusText(0.1, inches), QStringLiteral("± 1/64\""));
}

}  // namespace rackside
