// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/drive_test.h"

#include <QElapsedTimer>
#include <QFile>
#include <QImage>
#include <QStandardPaths>
#include <QTest>
#include <algorithm>

#include "app/serve/page.h"
#include "tests/app/bench_rack.h"
#include "tests/app/serve/remote_browser.h"
#include "tests/app/serve/served.h"

namespace rackside::serve {
namespace {

// Each control without a name, and each text whose contrast (WCAG 2.2, 1.4.3) is below 4.5.
const char* const kFaults = R"js((function () {
  function light(c) { return c.slice(0, 3).map(function (v) { v /= 255;
    return v <= .04045 ? v / 12.92 : Math.pow((v + .055) / 1.055, 2.4); })
    .reduce(function (s, v, i) { return s + v * [.2126, .7152, .0722][i]; }, 0); }
  function colour(t) { const m = t.match(/[\d.]+/g).map(Number); return m.length < 4 ? m.concat(1) : m; }
  function ground(e) { for (; e; e = e.parentElement) { const c = colour(getComputedStyle(e).backgroundColor);
    if (c[3] > 0) return c; } return [255, 255, 255, 1]; }
  const faults = [];
  document.querySelectorAll('button,input,select').forEach(function (e) {
    if (e.type === 'file' || e.offsetParent === null) return;
    const label = e.labels && e.labels[0] ? e.labels[0].innerText : '';
    if (!(e.innerText || e.getAttribute('aria-label') || label).trim()) faults.push('no name: ' + e.outerHTML);
    if (e.tabIndex < 0) faults.push('out of reach: ' + e.outerHTML);
    if (e.tagName === 'BUTTON' && e.getBoundingClientRect().height < 44) faults.push('small: ' + e.outerHTML);
  });
  document.querySelectorAll('body *').forEach(function (e) {
    if (!Array.from(e.childNodes).some(function (n) { return n.nodeType === 3 && n.data.trim(); })) return;
    if (e.offsetParent === null || e.closest('script,style,svg')) return;
    const a = light(colour(getComputedStyle(e).color)), b = light(ground(e));
    const contrast = (Math.max(a, b) + .05) / (Math.min(a, b) + .05);
    if (contrast < 4.5) faults.push('contrast ' + contrast.toFixed(1) + ': ' + e.outerHTML.slice(0, 120));
  });
  return faults;
})())js";

class Round {
 public:
  Round(Served& served, const QString& chromium, QString pictures)
      : served_(served), pictures_(std::move(pictures)), page_(chromium) {}

  void go() {
    arrive();
    takeAndKeep();
    takeAgain();
    goOutOfReach();
    lookUpMarkAndTick();
    page_.touch("Help");
    look("help");
  }

 private:
  static void expect(bool held, const std::string& what) {
    if (!held) throw std::runtime_error(what);
  }

  void look(const char* name) {
    const auto faults = page_.evaluate(kFaults);
    expect(faults.empty(), std::string(name) + ": " + faults.dump(1));
    if (!pictures_.isEmpty()) page_.screenshot(pictures_ + "/phone-" + name + ".png");
  }

  void arrive() {
    page_.open(served_.server().entrance());
    page_.waitFor("document.getElementById('link').textContent.indexOf('Rack:') === 0");
    const auto paints = page_.evaluate(
        "performance.getEntriesByType('paint').map(function (p) { return Math.round(p.startTime); "
        "})");
    qInfo("first paint %s ms, page %d bytes", paints.dump().c_str(), int(page().body.size()));
    // Neither the code nor the token is left where a script or a glance finds it.
    expect(page_.evaluate("location.hash + document.cookie") == "", "the code is still shown");
    look("take");
  }

  void takeAndKeep() {
    page_.type("f-species", "cherry");
    page_.type("f-thickness", "27");
    QElapsedTimer clock;
    clock.start();
    page_.touchAndGive("Take photograph", sample("photos/board-01.jpg"));
    page_.waitFor("document.querySelector('main .figure')");
    qInfo("photograph to answer %lld ms", clock.elapsed());
    page_.waitFor("document.querySelector('.seen') && document.querySelector('.seen').complete");
    look("measured");
    page_.touch("Keep");
    page_.waitFor("document.querySelector('h1').innerText.indexOf('is on the rack') > 0");
    look("kept");
    page_.touch("Next board");
  }

  void takeAgain() {
    page_.touchAndGive("Take photograph", plain());
    page_.waitFor("document.querySelector('h1').innerText === 'Retake this photograph'");
    look("again");
    page_.touchAndGive("Retake", sample("photos/board-05.jpg"));
    page_.waitFor("document.querySelector('main .figure')");
    page_.touch("Later");
  }

  void goOutOfReach() {
    page_.setOffline(true);
    page_.touchAndGive("Take photograph", sample("photos/board-04.jpg"));
    page_.waitFor(
        "document.getElementById('link').textContent.indexOf('1 photograph is held') > 0");
    page_.touch("Today");
    look("today");
    page_.setOffline(false);
    page_.open(served_.server().address());  // closed and opened again: still held, then sent
    page_.waitFor(
        "document.getElementById('link').textContent.indexOf('held') < 0 && "
        "document.getElementById('link').textContent.indexOf('Rack:') === 0");
    page_.touch("Today");
    page_.waitFor("document.querySelectorAll('main .line').length === 3");
  }

  void lookUpMarkAndTick() {
    const Board board = served_.stored().boards[1];
    page_.touch("Boards");
    page_.type("f-find", board.name);
    page_.touch("Board " + board.name);
    page_.waitFor("document.querySelector('#wood svg')");
    page_.touch("Add a mark");
    page_.evaluate("document.getElementById('wood').scrollIntoView({block: 'center'})");
    const auto box = page_.evaluate(
        "(function () { const b = document.getElementById('wood').getBoundingClientRect(); return "
        "[b.left, b.top, b.width, b.height]; })()");
    const double x = box[0].get<double>() + box[2].get<double>() / 2,
                 y = box[1].get<double>() + box[3].get<double>() / 2;
    page_.draw(x, y, x + 30, y + 15);
    page_.waitFor("document.getElementById('say').innerText.indexOf('added') > 0");
    expect(served_.stored().findBoard(board.id)->marks.size() == board.marks.size() + 1,
           "the mark is not on the rack");
    look("marking");
    page_.touch("Stop adding marks");
    page_.touch("1 ");
    expect(QTest::qWaitFor([&] { return hasMade(board.id); }, 10000), "the cut is not ticked");
    look("cuts");
  }

  bool hasMade(const BoardId& board) const {
    const Rack rack = served_.stored();
    return std::any_of(rack.plan->cuts.begin(), rack.plan->cuts.end(),
                       [&](const Cut& c) { return c.board == board && c.order == 1 && c.made; });
  }

  std::string sample(const char* file) const {
    const std::string copy = (served_.around() / std::filesystem::path(file).filename()).string();
    QFile out(QString::fromStdString(copy));
    if (out.open(QIODevice::WriteOnly)) out.write(samplePhoto(file));
    return copy;
  }

  std::string plain() const {
    QImage picture(1600, 1200, QImage::Format_RGB888);
    picture.fill(QColor(150, 110, 70));
    const std::string file = (served_.around() / "plain.jpg").string();
    picture.save(QString::fromStdString(file));
    return file;
  }

  Served& served_;
  const QString pictures_;
  RemoteBrowser page_;
};

}  // namespace

void DriveTest::aMakersRound() {
  const QString chromium = QStandardPaths::findExecutable(QStringLiteral("chromium"));
  if (chromium.isEmpty()) QSKIP("Chromium is not installed: the page is not driven.");
  tests::TemporaryFolder drawn;
  Served served(tests::benchRack(drawn.path()));
  std::filesystem::copy(
      drawn.path() / "boards", served.folder() / "boards",
      std::filesystem::copy_options::recursive | std::filesystem::copy_options::skip_existing);
  try {
    Round(served, chromium, qEnvironmentVariable("RACKSIDE_PAGE_PICTURES")).go();
  } catch (const std::exception& e) {
    QFAIL(e.what());
  }
}

}  // namespace rackside::serve
