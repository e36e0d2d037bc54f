// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/marks_test.h"

#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QWheelEvent>
#include <algorithm>
#include <set>

#include "app/window/look/mark_look.h"
#include "app/window/tools/outline_stretch.h"
#include "core/geometry/polygon.h"
#include "core/wood/measure.h"
#include "tests/app/window/window_fixture.h"

namespace rackside {

namespace {

made::RackWish bare() {
  made::RackWish w;
  w.boards = 2;
  w.mmPerPx = 3;
  w.marksPerBoard = 0;
  return w;
}

Point middle(const Board& board) {
  const Rect b = bounds(board.outline.polygon());
  return {(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
}

// Draws a round knot 120 mm wide in the middle and leaves it chosen.
MarkId drawKnot(WindowFixture& fixture) {
  const Point m = middle(fixture.board());
  fixture.key(Qt::Key_3);
  fixture.drag({m.x - 60, m.y + 30}, {m.x + 60, m.y - 30});
  fixture.key(Qt::Key_1);
  return fixture.window().choice().mark();
}

}  // namespace

void MarksTest::drawsAnAreaByClicks() {
  WindowFixture fixture(bare());
  const Point m = middle(fixture.board());
  fixture.key(Qt::Key_2);
  for (const Point p : {Point{m.x - 100, m.y - 20}, {m.x + 100, m.y - 20}, {m.x + 100, m.y + 30}})
    fixture.click(p);
  QTest::mouseDClick(&fixture.view(), Qt::LeftButton, {}, fixture.at({m.x - 100, m.y + 30}));
  QCOMPARE(fixture.board().marks.size(), size_t{1});
  const auto& polygon = std::get<Polygon>(*fixture.board().marks[0].onA);
  QCOMPARE(polygon.size(), size_t{4});
  const double pixel = fixture.view().mmPerScreenPx();
  QVERIFY(std::abs(signedArea(polygon) - 200 * 50) < 2 * 250 * pixel);  // two half pixels a side
  QVERIFY(!fixture.window().choice().mark().empty());
}

void MarksTest::drawsARoundSpotByDragging() {
  WindowFixture fixture(bare());
  drawKnot(fixture);
  QCOMPARE(fixture.board().marks.size(), size_t{1});
  const auto& e = std::get<Ellipse>(*fixture.board().marks[0].onA);
  const double pixel = fixture.view().mmPerScreenPx();
  QVERIFY(std::abs(e.semiX - 60) <= pixel && std::abs(e.semiY - 30) <= pixel);
  QCOMPARE(fixture.board().marks[0].kind, MarkKind::knot);
}

void MarksTest::drawsALineInOneStroke() {
  WindowFixture fixture(bare());
  const Point m = middle(fixture.board());
  fixture.key(Qt::Key_4);
  fixture.drag({m.x - 200, m.y}, {m.x + 200, m.y + 10}, 20);
  QCOMPARE(fixture.board().marks.size(), size_t{1});
  const auto& stroke = std::get<Stroke>(*fixture.board().marks[0].onA);
  QVERIFY(stroke.points.size() >= 2 && stroke.points.size() < 20);  // thinned
}

void MarksTest::drawsByKeysAlone() {
  WindowFixture fixture(bare());
  fixture.key(Qt::Key_2);
  fixture.key(Qt::Key_Right);  // the cross appears in the middle
  fixture.key(Qt::Key_Return);
  for (int i = 0; i < 8; ++i) fixture.key(Qt::Key_Right);
  fixture.key(Qt::Key_Return);
  for (int i = 0; i < 4; ++i) fixture.key(Qt::Key_Up);
  fixture.key(Qt::Key_Return, Qt::ControlModifier);
  QCOMPARE(fixture.board().marks.size(), size_t{1});
  QCOMPARE(std::get<Polygon>(*fixture.board().marks[0].onA).size(), size_t{3});
}

void MarksTest::dragIsOneStepOfUndo() {
  WindowFixture fixture(bare());
  drawKnot(fixture);
  const Point before = std::get<Ellipse>(*fixture.board().marks[0].onA).centre;
  fixture.drag(before, {before.x + 150, before.y + 5}, 12);
  const Point after = std::get<Ellipse>(*fixture.board().marks[0].onA).centre;
  QVERIFY(std::abs(after.x - before.x - 150) < 3 * fixture.view().mmPerScreenPx());
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  QCOMPARE(std::get<Ellipse>(*fixture.board().marks[0].onA).centre, before);
  fixture.key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  QCOMPARE(std::get<Ellipse>(*fixture.board().marks[0].onA).centre, after);
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  QVERIFY(fixture.board().marks.empty());
  QVERIFY(!fixture.document().history().canUndo());
}

void MarksTest::reshapesByAHandle() {
  WindowFixture fixture(bare());
  drawKnot(fixture);
  const Ellipse e = std::get<Ellipse>(*fixture.board().marks[0].onA);
  fixture.drag({e.centre.x + e.semiX, e.centre.y}, {e.centre.x + 2 * e.semiX, e.centre.y});
  const Ellipse wider = std::get<Ellipse>(*fixture.board().marks[0].onA);
  QVERIFY(std::abs(wider.semiX - 2 * e.semiX) < 3 * fixture.view().mmPerScreenPx());
  QCOMPARE(wider.centre, e.centre);
}

void MarksTest::deleteAndUndoBringBackTheSame() {
  WindowFixture fixture(bare());
  const MarkId id = drawKnot(fixture);
  fixture.key(Qt::Key_Delete);
  QVERIFY(fixture.board().marks.empty());
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  QCOMPARE(fixture.board().marks.size(), size_t{1});
  QCOMPARE(fixture.board().marks[0].id, id);
}

void MarksTest::panelSetsKindDepthAndSoundness() {
  WindowFixture fixture(bare());
  drawKnot(fixture);
  auto* soundness = fixture.find<QComboBox>("markSoundness");
  soundness->setFocus();
  QTest::keyClick(soundness, Qt::Key_Down);  // sound
  QCOMPARE(fixture.board().marks[0].soundness, Soundness::sound);
  auto* depth = fixture.find<QLineEdit>("markDepth");
  depth->setFocus();
  QTest::keyClicks(depth, QStringLiteral("1/4\""));
  QTest::keyClick(depth, Qt::Key_Return);
  QCOMPARE(fixture.board().marks[0].depthMm.value_or(0), 6.35);
  auto* kind = fixture.find<QComboBox>("markKind");
  kind->setFocus();
  while (kind->currentText() != QLatin1String("Hole to fill") &&
         kind->currentIndex() + 1 < kind->count())
    QTest::keyClick(kind, Qt::Key_Down);
  QCOMPARE(fixture.board().marks[0].kind, MarkKind::holeToFill);
}

void MarksTest::mistakenDepthIsShownAndKept() {
  WindowFixture fixture(bare());
  drawKnot(fixture);
  auto* depth = fixture.find<QLineEdit>("markDepth");
  depth->setFocus();
  QTest::keyClicks(depth, QStringLiteral("deep"));
  QTest::keyClick(depth, Qt::Key_Return);
  QVERIFY(!fixture.board().marks[0].depthMm.has_value());
  QCOMPARE(depth->text(), QStringLiteral("deep"));
  QVERIFY(!depth->toolTip().isEmpty());
}

void MarksTest::tabWalksThroughMarks() {
  made::RackWish w = bare();
  w.marksPerBoard = 4;
  WindowFixture fixture(w);
  fixture.key(Qt::Key_1);
  std::set<MarkId> seen;
  double lastX = -1e9;
  for (int i = 0; i < 4; ++i) {
    fixture.key(Qt::Key_Tab);
    const Mark* mark = fixture.board().findMark(fixture.window().choice().mark());
    QVERIFY(mark != nullptr);
    seen.insert(mark->id);
    const double x = bounds(polygonsOf(*mark->onA).front()).x0;
    QVERIFY(x >= lastX - 1);
    lastX = x;
  }
  QCOMPARE(seen.size(), size_t{4});
}

void MarksTest::measuresWithItsUncertainty() {
  WindowFixture fixture(bare());
  const Point m = middle(fixture.board());
  fixture.key(Qt::Key_6);
  fixture.drag({m.x - 400, m.y}, {m.x + 400, m.y});
  const auto* tool = dynamic_cast<MeasureTool*>(fixture.view().tool());
  QVERIFY(tool != nullptr);
  const auto measured = tool->measured();
  QVERIFY(measured.has_value());
  const double pixel = fixture.view().mmPerScreenPx();
  QVERIFY(std::abs(measured->value - 800) <= pixel);
  // Two ends set to half a screen pixel each, and 0.4 mm a metre of the plane over 0.8 m (the rack
  // was made so); k = 1.96.
  const double expected =
      1.96 * std::sqrt(2 * 0.25 * std::max(pixel, 3.0) * std::max(pixel, 3.0) + 0.32 * 0.32);
  QVERIFY(std::abs(measured->u95Total - expected) < 0.15 * expected);
  QVERIFY(tool->text().contains(QStringLiteral("±")));
}

void MarksTest::redrawsAStretchOfTheOutline() {
  WindowFixture fixture(bare());
  const Outline before = fixture.board().outline;
  const Point m = middle(fixture.board());
  const auto edge = [&](double x) {  // the near edge
    double y = 1e9;
    for (const OutlineVertex& v : before.vertices)
      if (std::abs(v.at.x - x) < 25) y = std::min(y, v.at.y);
    return Point{x, y};
  };
  fixture.key(Qt::Key_5);
  fixture.click(edge(m.x - 200));
  fixture.click({m.x - 100, edge(m.x).y + 25}, Qt::ShiftModifier);  // straight from click to click
  fixture.click({m.x + 100, edge(m.x).y + 25}, Qt::ShiftModifier);
  fixture.click(edge(m.x + 200), Qt::ShiftModifier);
  const Outline after = fixture.board().outline;
  QVERIFY(area({after.polygon()}) < area({before.polygon()}) - 3000);
  QVERIFY(std::any_of(after.vertices.begin(), after.vertices.end(),
                      [](const OutlineVertex& v) { return v.state == EdgeState::drawn; }));
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  QCOMPARE(fixture.board().outline.vertices.size(), before.vertices.size());
  QVERIFY(!fixture.document().history().canUndo());
}

// The invented wood is painted with a straight near edge, 8 mm inside the outline's box; the stored
// outline waves about it.
void MarksTest::followsTheEdgeBetweenClicks() {
  made::RackWish w = bare();
  w.mmPerPx = 1;
  WindowFixture fixture(w);
  QTRY_VERIFY_WITH_TIMEOUT(fixture.view().tiles() != nullptr, 20000);
  const Outline before = fixture.board().outline;
  const double trueY = bounds(before.polygon()).y0 + 8;
  const Point m = middle(fixture.board());
  const auto nearEdge = [&](double x) { return nearestPlace(before, {x, trueY}).at; };
  const auto errors = [&](const Outline& outline) {
    std::vector<double> off;
    for (const OutlineVertex& v : outline.vertices)
      if (std::abs(v.at.x - m.x) < 350 && v.at.y < m.y) off.push_back(std::abs(v.at.y - trueY));
    std::sort(off.begin(), off.end());
    return off;
  };
  fixture.key(Qt::Key_5);
  fixture.click(nearEdge(m.x - 400));
  fixture.click(nearEdge(m.x + 400));
  const Outline after = fixture.board().outline;
  const auto was = errors(before), is = errors(after);
  QVERIFY(is.size() > 20);
  qInfo("off the painted edge, middle and worst: %.2f and %.2f mm, before %.2f and %.2f",
        is[is.size() / 2], is.back(), was[was.size() / 2], was.back());
  QVERIFY(is[is.size() / 2] < 1);  // a pixel
  QVERIFY(is.back() < 2);
  QVERIFY(was.back() > 2);
  fixture.key(Qt::Key_Z, Qt::ControlModifier);
  QCOMPARE(fixture.board().outline.vertices.size(), before.vertices.size());
}

void MarksTest::flipKeepsThePlace() {
  WindowFixture fixture(bare());
  const Point m = middle(fixture.board());
  const QPoint there = fixture.at(m);
  fixture.key(Qt::Key_F);
  QCOMPARE(fixture.window().choice().face(), Face::B);
  QCOMPARE(fixture.at(m), there);
  fixture.key(Qt::Key_F);
  QCOMPARE(fixture.window().choice().face(), Face::A);
  fixture.key(Qt::Key_T);
  QVERIFY(fixture.view().camera().turnedOver());
}

void MarksTest::zoomKeysAndWheel() {
  WindowFixture fixture(bare());
  const double before = fixture.view().camera().pxPerMm();
  fixture.key(Qt::Key_Plus);
  QVERIFY(fixture.view().camera().pxPerMm() > before);
  fixture.key(Qt::Key_0);
  QCOMPARE(fixture.view().camera().pxPerMm(), before);
  const QPointF at = fixture.at(middle(fixture.board())) + QPoint(40, 5);
  const Point under = fixture.view().camera().toBoard(at);
  QWheelEvent wheel(at, fixture.view().mapToGlobal(at), {}, {0, 240}, Qt::NoButton, Qt::NoModifier,
                    Qt::NoScrollPhase, false);
  QApplication::sendEvent(&fixture.view(), &wheel);
  QVERIFY(fixture.view().camera().pxPerMm() > before);
  QVERIFY(norm(fixture.view().camera().toBoard(at) - under) < 1e-6);
}

// Letters, and pattern with outline, are each a kind's own.
void MarksTest::everyKindIsToldWithoutColour() {
  std::set<QString> letters;
  std::set<std::pair<int, int>> strokes;
  for (const MarkKind kind : allMarkKinds()) {
    const MarkLook& look = markLook(kind);
    QCOMPARE(look.kind, kind);
    letters.insert(look.letters);
    strokes.insert({static_cast<int>(look.pattern), static_cast<int>(look.outline)});
    QVERIFY(!look.meaning.isEmpty());
  }
  QCOMPARE(letters.size(), allMarkKinds().size());
  QCOMPARE(strokes.size(), allMarkKinds().size());
}

}  // namespace rackside
