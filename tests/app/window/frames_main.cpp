// SPDX-License-Identifier: GPL-3.0-or-later
// window_frames: how long the face view takes to paint a frame of a 48-megapixel picture while it
// is panned and zoomed, with marks over it. Prints one table; the bar is 16 ms a frame (60 a
// second).
#include <QApplication>
#include <QElapsedTimer>
#include <QSettings>
#include <QSignalSpy>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>
#include <algorithm>
#include <cstdio>
#include <ctime>

#include "app/window/look/text.h"
#include "app/window/pages/board_page.h"
#include "app/window/window/main_window.h"
#include "core/geometry/polygon.h"
#include "tests/app/window/made_rack.h"

namespace rackside {

namespace {

constexpr int kFrames = 120;

struct Row {
  const char* what;
  std::vector<double> ms, processorMs;
};

// Of this thread: on a machine that is busy otherwise, what the frame would take on an idle one.
double processorMs() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_nsec) / 1e6;
}

void settle(FaceView& view) {
  QElapsedTimer timer;
  timer.start();
  while (timer.elapsed() < 20000 && (timer.elapsed() < 200 || !view.sharp()))
    QApplication::processEvents(QEventLoop::AllEvents, 20);
}

template <class Step>
Row measure(const char* what, FaceView& view, Step step) {
  settle(view);
  Row row{what, {}, {}};
  for (int i = 0; i < kFrames; ++i) {
    step(i);
    const double before = processorMs();
    view.repaint();
    row.processorMs.push_back(processorMs() - before);
    row.ms.push_back(view.lastFrameMs());
    QApplication::processEvents(QEventLoop::AllEvents, 2);
  }
  std::sort(row.ms.begin(), row.ms.end());
  std::sort(row.processorMs.begin(), row.processorMs.end());
  return row;
}

void print(const Row& row) {
  const auto at = [&](const std::vector<double>& sorted, double share) {
    return sorted[std::min(sorted.size() - 1, static_cast<size_t>(share * kFrames))];
  };
  std::printf("%-34s %8.1f %8.1f %8.1f %10.1f %8.1f\n", row.what, at(row.ms, 0.5), at(row.ms, 0.95),
              row.ms.back(), at(row.processorMs, 0.5), at(row.processorMs, 0.95));
}

int run() {
  QTemporaryDir dir;
  made::RackWish wish;
  wish.boards = 1;
  wish.seed = 3;
  wish.marksPerBoard = 40;
  Board probe = made::makeBoard(3000, 1, wish);
  const Rect b = bounds(probe.outline.polygon());
  wish.mmPerPx = std::sqrt((b.width() + 40) * (b.height() + 40) / 48e6);
  const Rack rack = made::writeRack(pathOf(dir.path()), wish);
  const Picture& picture = rack.boards[0].pictures[0];
  std::printf("picture %d × %d = %.1f megapixels, %zu marks\n", picture.widthPx, picture.heightPx,
              picture.widthPx * double(picture.heightPx) / 1e6, rack.boards[0].marks.size());

  MainWindow window;
  window.resize(1920, 1080);
  window.show();
  (void)QTest::qWaitForWindowExposed(&window);
  QSignalSpy opened(&window.document(), &Document::opened);
  QElapsedTimer timer;
  timer.start();
  window.openRack(dir.path());
  opened.wait(20000);
  FaceView& view = window.boardPage().view();
  settle(view);
  std::printf("sharp %.1f s after opening (tiles made for the first time)\n",
              static_cast<double>(timer.elapsed()) / 1000);
  std::printf("view %d × %d at scale %.1f\n\n%-34s %8s %8s %8s %19s\n", view.width(), view.height(),
              view.devicePixelRatioF(), "ms a frame", "median", "95 %", "worst",
              "of the processor, 95 %");
  print(measure("whole board, panning", view, [&](int i) { view.panBy({i % 2 ? 3.0 : -3.0, 1}); }));
  print(measure("zooming in from the whole", view, [&](int) { view.zoom(1.03); }));
  print(measure("deep in, panning along", view, [&](int) { view.panBy({-9, 0}); }));
  print(measure("deep in, panning turned over", view, [&](int i) {
    if (i == 0) view.turnOver(true);
    view.panBy({9, 0});
  }));
  view.turnOver(false);
  print(measure("zooming out to the whole", view, [&](int) { view.zoom(1 / 1.03); }));
  std::printf("\ntile cache %d of %d MB\n", int(TileStore::instance().tiles.totalCost() / 1024),
              TileStore::kCacheKilobytes / 1024);
  return 0;
}

}  // namespace

}  // namespace rackside

int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM") && qEnvironmentVariableIsEmpty("DISPLAY"))
    qputenv("QT_QPA_PLATFORM", "offscreen");
  QStandardPaths::setTestModeEnabled(true);
  QApplication app(argc, argv);
  QApplication::setApplicationName(QStringLiteral("rackside-window-frames"));
  QSettings().clear();
  return rackside::run();
}
