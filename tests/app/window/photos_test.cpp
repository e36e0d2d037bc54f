// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/photos_test.h"

#include <QApplication>
#include <QDropEvent>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QMimeData>
#include <QPushButton>
#include <QSignalSpy>
#include <QUrl>
#include <cmath>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "app/window/document/photo_session.h"
#include "app/window/look/text.h"
#include "tests/app/window/loop_watchdog.h"
#include "tests/app/window/window_fixture.h"
#include "vision/cards/card_model.h"

namespace rackside {

namespace {

using State = BoardPhotos::State;

QString sample(const char* file) {
  return QStringLiteral(RACKSIDE_SOURCE_DIR "/samples/photos/") + QLatin1String(file);
}

made::RackWish bare() {
  made::RackWish wish;
  wish.boards = 0;
  return wish;
}

// Lets go of files over the window, as from a folder's window.
void drop(MainWindow& window, const QStringList& files) {
  QMimeData data;
  QList<QUrl> urls;
  for (const QString& file : files) urls << QUrl::fromLocalFile(file);
  data.setUrls(urls);
  QDragEnterEvent enter(QPoint(50, 200), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(&window, &enter);
  QVERIFY(enter.isAccepted());
  QDropEvent event(QPointF(50, 200), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  QApplication::sendEvent(&window, &event);
}

const BoardPhotos* groupOf(const PhotoSession& session, int tag) {
  for (const BoardPhotos& group : session.groups())
    if (group.tag == tag) return &group;
  return nullptr;
}

double trueLength(const char* file) {
  QFile in(QStringLiteral(RACKSIDE_SOURCE_DIR "/samples/truth/") + QLatin1String(file));
  if (!in.open(QIODevice::ReadOnly)) return 0;
  return QJsonDocument::fromJson(in.readAll())["board"]["faces"]["A"]["length_mm"].toDouble();
}

// Two cards and tag 7 flat on grey ground, each at its place in mm from the picture's upper left.
QString flatPicture(const QTemporaryDir& dir, const char* file, int card, cv::Point2d firstAt,
                    cv::Point2d secondAt, cv::Point2d tagAt) {
  constexpr double kPxPerMm = 3;
  cv::Mat picture(1000, 2400, CV_8UC1, cv::Scalar(120));
  const auto lay = [&](const cv::Mat& drawn, cv::Point2d at) {
    drawn.copyTo(picture(
        cv::Rect(cvRound(at.x * kPxPerMm), cvRound(at.y * kPxPerMm), drawn.cols, drawn.rows)));
  };
  lay(drawCard(cardModel(card), kPxPerMm), firstAt);
  lay(drawCard(cardModel(card + 2), kPxPerMm), secondAt);
  lay(drawTag(tagModel(7), kPxPerMm), tagAt);
  const QString path = dir.filePath(QLatin1String(file));
  cv::imwrite(plain(path), picture);
  return path;
}

}  // namespace

void PhotosTest::dropsAreSortedByTagAndWhatMustBeRetakenIsSaid() {
  WindowFixture fixture(bare());
  QTemporaryDir dir;
  QImage bench(800, 600, QImage::Format_RGB32);
  bench.fill(Qt::darkGray);
  const QString noCard = dir.filePath(QStringLiteral("bench.jpg"));
  QVERIFY(bench.save(noCard));
  const QString noPicture = dir.filePath(QStringLiteral("list.jpg"));
  QFile file(noPicture);
  QVERIFY(file.open(QIODevice::WriteOnly));
  file.write("Leg;4;440");
  file.close();

  drop(fixture.window(), {sample("board-11-1.jpg"), noCard, sample("board-04.jpg"), noPicture,
                          sample("board-11-2.jpg")});
  QCOMPARE(fixture.window().station(), MainWindow::Station::photographs);
  const PhotoSession& session = fixture.window().photoSession();
  QTRY_VERIFY_WITH_TIMEOUT(!session.busy(), 60000);
  QCOMPARE(session.groups().size(), size_t{4});
  const BoardPhotos* eleven = groupOf(session, 11);
  const BoardPhotos* four = groupOf(session, 4);
  QVERIFY(eleven && four);
  QCOMPARE(eleven->photos.size(), 2);
  QCOMPARE(four->photos.size(), 1);
  QCOMPARE(four->state, State::ready);
  QVERIFY(four->cards > 0 && !four->small.isNull());
  int toRetake = 0;
  for (const BoardPhotos& group : session.groups())
    if (group.state == State::retake || group.state == State::noPhotograph) {
      QVERIFY(!group.tag && !group.found.isEmpty());
      ++toRetake;
    }
  QCOMPARE(toRetake, 2);
}

void PhotosTest::measuresInTheBackground() {
  WindowFixture fixture(bare());
  drop(fixture.window(), {sample("board-04.jpg")});
  PhotoSession& session = fixture.window().photoSession();
  LoopWatchdog watchdog;
  watchdog.start();
  QTRY_VERIFY_WITH_TIMEOUT(!session.busy(), 60000);
  QSignalSpy done(&session, &PhotoSession::allDone);
  QSignalSpy progress(&session, &PhotoSession::progress);
  QTest::mouseClick(fixture.find<QPushButton>("scanStart"), Qt::LeftButton);
  QVERIFY(session.scanning());
  QVERIFY(!done.isEmpty() || done.wait(120000));
  qInfo("longest stall while scanning %.1f ms (%.1f ms of wall time)", watchdog.longestStallMs(),
        watchdog.longestWallMs());
  QVERIFY(watchdog.longestStallMs() <= 50);
  QVERIFY(!progress.isEmpty());
  QCOMPARE(groupOf(session, 4)->state, State::done);
  QCOMPARE(fixture.document().rack().boards.size(), size_t{1});
  const Board& board = fixture.document().rack().boards.front();
  QCOMPARE(board.tag, std::optional<int>(4));
  // The rendered scene's own length; the stated ± covers 95 % of boards, twice it nearly all.
  const double truth = trueLength("board-04.truth.json");
  QVERIFY(truth > 1000);
  QVERIFY(std::abs(board.lengthMm.value - truth) < 2 * board.lengthMm.u95Total);
  fixture.document().undo();
  QVERIFY(fixture.document().rack().boards.empty());
}

void PhotosTest::stopLeavesTheRackAsItWas() {
  WindowFixture fixture(bare());
  drop(fixture.window(), {sample("board-04.jpg"), sample("board-06.jpg")});
  PhotoSession& session = fixture.window().photoSession();
  QTRY_VERIFY_WITH_TIMEOUT(!session.busy(), 60000);
  auto* button = fixture.find<QPushButton>("scanStart");
  QSignalSpy done(&session, &PhotoSession::allDone);
  QTest::mouseClick(button, Qt::LeftButton);
  QTest::mouseClick(button, Qt::LeftButton);  // it says Stop now
  QVERIFY(!done.isEmpty() || done.wait(120000));
  QVERIFY(!session.scanning());
  QVERIFY(fixture.document().rack().boards.empty());
  const BoardPhotos* first = groupOf(session, 4);
  const BoardPhotos* second = groupOf(session, 6);
  QVERIFY(first && second);
  QVERIFY(first->state == State::stopped || second->state == State::stopped);
  QVERIFY(first->state != State::done && second->state != State::done);
  QVERIFY(button->isEnabled());  // to go on
}

void PhotosTest::dropNeverAsksTheSenderToMove() {
  WindowFixture fixture(bare());
  QMimeData data;
  data.setUrls({QUrl::fromLocalFile(sample("board-04.jpg"))});
  QDragEnterEvent enter(QPoint(50, 200), Qt::MoveAction | Qt::CopyAction, &data, Qt::LeftButton,
                        Qt::NoModifier);
  QApplication::sendEvent(&fixture.window(), &enter);
  QVERIFY(enter.isAccepted());
  QCOMPARE(enter.dropAction(), Qt::CopyAction);
  QDropEvent event(QPointF(50, 200), Qt::MoveAction | Qt::CopyAction, &data, Qt::LeftButton,
                   Qt::NoModifier);
  QApplication::sendEvent(&fixture.window(), &event);
  QVERIFY(event.isAccepted());
  QCOMPARE(event.dropAction(), Qt::CopyAction);
}

void PhotosTest::dropWithNoRackOpenBeginsOne() {
  QTemporaryDir home;
  const QByteArray before = qgetenv("HOME");
  qputenv("HOME", home.path().toLocal8Bit());
  {
    MainWindow window;
    window.show();
    drop(window, {sample("board-04.jpg")});
    QTRY_VERIFY_WITH_TIMEOUT(window.document().isOpen(), 20000);
    QVERIFY(qtPath(window.document().folder()).startsWith(home.path()));
    QCOMPARE(window.station(), MainWindow::Station::photographs);
    QTRY_VERIFY_WITH_TIMEOUT(!window.photoSession().busy(), 60000);
    QCOMPARE(window.photoSession().groups().size(), size_t{1});
  }
  qputenv("HOME", before);
}

void PhotosTest::facesAreToldApartOrAskedAbout() {
  WindowFixture fixture(bare());
  QTemporaryDir dir;
  const QString front = flatPicture(dir, "a1.png", 1, {20, 20}, {320, 150}, {700, 60});
  const QString frontAgain = flatPicture(dir, "a2.png", 1, {50, 40}, {350, 170}, {640, 40});
  const QString back = flatPicture(dir, "b.png", 1, {330, 20}, {40, 200}, {700, 150});
  const QString doubtful = flatPicture(dir, "c.png", 2, {20, 20}, {320, 150}, {700, 60});
  drop(fixture.window(), {front, frontAgain, back, doubtful});
  PhotoSession& session = fixture.window().photoSession();
  QTRY_VERIFY_WITH_TIMEOUT(!session.busy(), 60000);
  QCOMPARE(session.groups().size(), size_t{3});
  const auto& groups = session.groups();
  QCOMPARE(groups[0].photos, (QStringList{front, frontAgain}));
  QVERIFY(!groups[0].asFaceB && groups[0].state == State::ready);
  QCOMPARE(groups[1].photos, QStringList{back});
  QVERIFY(groups[1].asFaceB && groups[1].state == State::ready);
  QCOMPARE(groups[2].photos, QStringList{doubtful});
  QVERIFY(groups[2].state == State::asks);  // measured with neither until it is answered
  session.join(groups[2].id);
  QCOMPARE(session.groups().size(), size_t{2});
  QCOMPARE(session.groups()[0].photos, (QStringList{front, frontAgain, doubtful}));
  session.setFaceB(session.groups()[0].id, true);
  QVERIFY(session.groups()[0].asFaceB && !session.groups()[1].asFaceB);
}

}  // namespace rackside
