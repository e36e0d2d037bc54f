// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/serve/routes_test.h"

#include <QBuffer>
#include <QImage>
#include <QTest>
#include <cmath>
#include <vector>

#include "app/serve/secret.h"
#include "core/storage/folder_lock.h"
#include "core/storage/json_forms.h"
#include "tests/app/bench_rack.h"
#include "tests/app/serve/served.h"

namespace rackside::serve {

using nlohmann::json;

namespace {

QByteArray text(const json& value) {
  return QByteArray::fromStdString(value.get<std::string>());
}

}  // namespace

void RoutesTest::aPhotographBecomesABoardOnlyWhenKept() {
  Served served;
  const std::string id = served.upload(samplePhoto("photos/board-01.jpg"), "&species=cherry");
  QVERIFY(!id.empty());
  const json job = served.waitFor(id);
  QCOMPARE(job["state"].dump(), json("measured").dump());
  QCOMPARE(job["name"].dump(), json("1").dump());  // by its tag
  QCOMPARE(job["known"].dump(), json(false).dump());
  QVERIFY(served.stored().boards.empty());
  const Reply seen = served.phone().get("/seen?number=1&job=" + QByteArray::fromStdString(id));
  QCOMPARE(seen.status, 200);
  QVERIFY(seen.body.startsWith("\xFF\xD8\xFF"));
  QCOMPARE(served.phone().get("/seen?number=0&job=" + QByteArray::fromStdString(id)).status, 200);

  const json words{{"thickness", "27"}, {"moisture", "11.5"}, {"place", "bay 2"}};
  const Reply kept = served.phone().post("/keep", json{{"job", id}, {"words", words}});
  QCOMPARE(kept.status, 200);
  const Rack rack = served.stored();
  QCOMPARE(rack.boards.size(), size_t(1));
  const Board& board = rack.boards.front();
  QCOMPARE(board.id.text, kept.json()["board"].get<std::string>());
  QCOMPARE(board.name, std::string("1"));
  QVERIFY(board.tag == 1);
  // The truth of the rendered scene, within the uncertainty the measurement itself states.
  QVERIFY(std::abs(board.lengthMm.value - trueLengthMm("board-01.truth.json")) <=
          board.lengthMm.u95Total);
  QCOMPARE(board.thicknessMm, 27.0);
  QCOMPARE(board.place, std::string("bay 2"));
  QCOMPARE(board.moisture.size(), size_t(1));
  QVERIFY(std::filesystem::exists(served.folder() / "boards" / board.id.text /
                                  board.pictures.front().file));
  // The photograph itself is let go of; a second keep changes nothing.
  QVERIFY(
      served.server().desk().queue().photosOf(*served.server().desk().queue().find(id)).empty());
  QCOMPARE(served.phone().post("/keep", json{{"job", id}}).status, 200);
  QCOMPARE(served.stored().boards.size(), size_t(1));
}

void RoutesTest::aTakenBoardIsLookedUpMarkedAndWrittenOn() {
  Served served(tests::benchRack());
  const json state = served.phone().get("/state").json();
  QVERIFY(state["boards"].size() >= 3);
  QCOMPARE(served.phone().get("/state?since=" + text(state["version"])).json().dump(),
           json({{"same", true}}).dump());
  const Board before = served.stored().boards[1];
  const auto id = QByteArray::fromStdString(before.id.text);
  const json sheet = served.phone().get("/board?id=" + id).json();
  QCOMPARE(sheet["name"].dump(), json(before.name).dump());
  QCOMPARE(sheet["markList"].size(), before.marks.size());
  QVERIFY(!sheet["pieceList"].empty());

  const Reply marked = served.phone().post("/mark", json{{"board", before.id.text},
                                                         {"face", "B"},
                                                         {"kind", "knot"},
                                                         {"x0", 300.0},
                                                         {"y0", 60.0},
                                                         {"x1", 330.0},
                                                         {"y1", 45.0}});
  QCOMPARE(marked.status, 200);
  const Board after = *served.stored().findBoard(before.id);
  QCOMPARE(after.marks.size(), before.marks.size() + 1);
  const Mark* mark = after.findMark(MarkId{marked.json()["mark"].get<std::string>()});
  QVERIFY(mark && mark->kind == MarkKind::knot && !mark->onA && mark->onB);
  QVERIFY(std::get<Ellipse>(*mark->onB) == (Ellipse{{300, 60}, 30, 15, 0}));
  QCOMPARE(served.phone()
               .post("/unmark", json{{"board", before.id.text}, {"mark", mark->id.text}})
               .status,
           200);
  QVERIFY(toJson(*served.stored().findBoard(before.id)) == toJson(before));

  QCOMPARE(served.phone()
               .post("/fields", json{{"board", before.id.text},
                                     {"words", {{"moisture", "9"}, {"place", "loft"}}}})
               .status,
           200);
  const Board written = *served.stored().findBoard(before.id);
  QCOMPARE(written.place, std::string("loft"));
  QCOMPARE(written.moisture.back().percent, 9.0);
  QCOMPARE(written.species, before.species);
}

void RoutesTest::picturesThatWillNotDoSaySoAndStay() {
  Served served;
  const std::string id = newSecret();
  const auto target = "/photo?number=1&job=" + QByteArray::fromStdString(id);
  QCOMPARE(served.phone().post(target, QByteArray("#!/bin/sh\n")).status, 415);
  QCOMPARE(served.phone().post(target, QByteArray("<svg/>")).status, 415);
  QCOMPARE(served.phone().post(target, QByteArray()).status, 415);
  // A picture by its first bytes only.
  const QByteArray broken = samplePhoto("photos/board-01.jpg").left(20000);
  const json failed = served.waitFor(served.upload(broken));
  QCOMPARE(failed["state"].dump(), json("failed").dump());
  QVERIFY(failed["say"].get<std::string>().find("cannot be read") != std::string::npos);
  // No card in it.
  QImage plain(640, 480, QImage::Format_RGB888);
  plain.fill(QColor(120, 90, 60));
  QByteArray jpeg;
  QBuffer buffer(&jpeg);
  buffer.open(QIODevice::WriteOnly);
  plain.save(&buffer, "JPG");
  const std::string bare = served.upload(jpeg);
  const json cardless = served.waitFor(bare);
  QCOMPARE(cardless["state"].dump(), json("failed").dump());
  QVERIFY(cardless["say"].get<std::string>().find("card") != std::string::npos);
  // It stays until it is dropped by hand, and can be measured again meanwhile.
  QCOMPARE(served.phone().post("/again", json{{"job", bare}, {"words", json::object()}}).status,
           200);
  QCOMPARE(served.waitFor(bare)["state"].dump(), json("failed").dump());
  QCOMPARE(served.phone().post("/keep", json{{"job", bare}}).status, 404);
  QCOMPARE(served.phone().post("/drop", json{{"job", bare}}).status, 200);
  QVERIFY(served.job(bare).is_null());
  QVERIFY(!std::filesystem::exists(served.folder() / ".phone" / bare));
  QVERIFY(served.stored().boards.empty());
}

// Two phones photograph one new board: the second to be kept becomes a retake of the first.
void RoutesTest::aBoardTooMuchIsMeasuredAgainAsItself() {
  Served served;
  const QByteArray photo = samplePhoto("photos/board-01.jpg");
  const std::string first = served.upload(photo), second = served.upload(photo);
  QCOMPARE(served.waitFor(first)["state"].dump(), json("measured").dump());
  QCOMPARE(served.waitFor(second)["known"].dump(), json(false).dump());
  QCOMPARE(served.phone().post("/keep", json{{"job", first}}).status, 200);
  const Reply refused = served.phone().post("/keep", json{{"job", second}});
  QCOMPARE(refused.status, 409);
  QVERIFY(refused.say().find("measured again") != std::string::npos);
  const json again = served.waitFor(second);
  QCOMPARE(again["state"].dump(), json("measured").dump());
  QCOMPARE(again["known"].dump(), json(true).dump());
  QCOMPARE(served.phone().post("/keep", json{{"job", second}}).status, 200);
  const Rack rack = served.stored();
  QCOMPARE(rack.boards.size(), size_t(1));
  QCOMPARE(rack.boards.front().pictures.size(), size_t(2));
}

void RoutesTest::twoPhotographsMakeOneBoard() {
  Served served;
  const std::string id = served.upload(samplePhoto("photos/board-11-1.jpg"));
  const auto more = "/photo?job=" + QByteArray::fromStdString(id) + "&number=";
  QCOMPARE(served.phone().post(more + "3", samplePhoto("photos/board-11-3.jpg")).status, 507);
  QCOMPARE(served.phone().post(more + "2", samplePhoto("photos/board-11-2.jpg")).status, 200);
  QCOMPARE(served.phone().post(more + "3", samplePhoto("photos/board-11-3.jpg")).status, 200);
  // Sent twice, since the answer was lost: taken once.
  QCOMPARE(served.phone().post(more + "2", samplePhoto("photos/board-11-2.jpg")).status, 200);
  const json job = served.waitFor(id);
  QCOMPARE(job["state"].dump(), json("measured").dump());
  QCOMPARE(job["photos"].dump(), json(3).dump());
  QCOMPARE(job["seen"].dump(), json(3).dump());
  QCOMPARE(served.phone().post("/keep", json{{"job", id}}).status, 200);
  const Board board = served.stored().boards.front();
  QVERIFY(std::abs(board.lengthMm.value - trueLengthMm("board-11.truth.json")) <=
          board.lengthMm.u95Total);
}

void RoutesTest::aTagTellsTheBoard() {
  Rack rack = tests::benchRack();
  for (size_t i = 0; i < rack.boards.size(); ++i) rack.boards[i].tag = 100 + int(i);
  rack.boards[1].tag = 1;
  Served served(rack);
  const json job = served.waitFor(served.upload(samplePhoto("photos/board-01.jpg"), "&what=find"));
  QCOMPARE(job["state"].dump(), json("measured").dump());
  QCOMPARE(job["tags"].dump(), json::array({1}).dump());
  QCOMPARE(job["boards"].dump(), json::array({rack.boards[1].id.text}).dump());
}

void RoutesTest::cutsAreTicked() {
  Served served(tests::benchRack());
  const Board board = served.stored().boards[1];
  const auto cuts = [&] {
    return served.phone()
        .get("/board?id=" + QByteArray::fromStdString(board.id.text))
        .json()["cuts"];
  };
  const auto tick = [&](int cut, bool made) {
    return served.phone().post("/tick",
                               json{{"board", board.id.text}, {"cut", cut}, {"made", made}});
  };
  const json before = cuts();
  QVERIFY(before.size() > 2);
  const Reply early = tick(before.back()["number"], true);  // its turn has not come
  QCOMPARE(early.status, 409);
  QVERIFY(!early.say().empty());
  QCOMPARE(tick(1, true).status, 200);
  QCOMPARE(cuts()[0]["made"].dump(), json(true).dump());
  const std::vector<Cut> stored = served.stored().plan->cuts;
  QVERIFY(std::any_of(stored.begin(), stored.end(),
                      [&](const Cut& c) { return c.board == board.id && c.order == 1 && c.made; }));
  QCOMPARE(tick(1, false).status, 200);
  QVERIFY(cuts() == before);
  QCOMPARE(tick(999, true).status, 409);
}

void RoutesTest::whatIsWrongChangesNothing() {
  Served served(tests::benchRack());
  const Rack before = served.stored();
  const std::string board = before.boards[1].id.text;
  const auto post = [&](const char* target, const json& body) {
    return served.phone().post(target, body).status;
  };
  QCOMPARE(served.phone().post("/mark", QByteArray("not json")).status, 409);
  QCOMPARE(served.phone().post("/tick", QByteArray("[1,2]")).status, 400);
  QCOMPARE(served.phone().post("/keep", QByteArray("[[[[[[[[")).status, 404);
  const json mark{{"board", board}, {"kind", "knot"}, {"x0", 1}, {"y0", 1}, {"x1", 9}, {"y1", 9}};
  for (const auto& [key, value] : std::vector<std::pair<std::string, json>>{{"kind", "house"},
                                                                            {"kind", 7},
                                                                            {"x0", "far"},
                                                                            {"x1", 1e300},
                                                                            {"y0", -5000},
                                                                            {"board", "../../x"},
                                                                            {"board", nullptr}}) {
    json wrong = mark;
    wrong[key] = value;
    QCOMPARE(post("/mark", wrong), 409);
  }
  QCOMPARE(post("/fields", json{{"board", board}, {"words", {{"moisture", "wet"}}}}), 409);
  QCOMPARE(post("/fields", json{{"board", board}, {"words", {{"place", std::string(90, 'x')}}}}),
           409);
  QCOMPARE(post("/unmark", json{{"board", board}, {"mark", "mark-0"}}), 409);
  QCOMPARE(post("/tick", json{{"board", board}, {"cut", 1}, {"made", "yes"}}), 400);
  QCOMPARE(post("/drop", json{{"job", "../boards"}}), 404);
  const Rack after = served.stored();
  for (size_t i = 0; i < before.boards.size(); ++i)
    QVERIFY(toJson(after.boards[i]) == toJson(before.boards[i]));
  QVERIFY(toJson(*after.plan) == toJson(*before.plan));
}

void RoutesTest::aLockedRackIsSaid() {
  Served served(tests::benchRack());
  const Board before = served.stored().boards[1];
  const json wish{{"board", before.id.text}, {"words", {{"place", "loft"}}}};
  {
    QCOMPARE(served.phone().get("/state").status, 200);
    const auto lock = FolderLock::acquire(served.folder());
    QVERIFY(lock.ok());
    const Reply reply = served.phone().post("/fields", wish);
    QCOMPARE(reply.status, 409);
    QVERIFY(reply.say().find("is working on") != std::string::npos);
    QCOMPARE(served.phone().get("/board?id=" + QByteArray::fromStdString(before.id.text)).status,
             200);  // who only looks is not held up
  }
  QCOMPARE(served.stored().findBoard(before.id)->place, before.place);
  QCOMPARE(served.phone().post("/fields", wish).status, 200);
}

}  // namespace rackside::serve
