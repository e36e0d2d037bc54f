// SPDX-License-Identifier: GPL-3.0-or-later
// The rack's half of desk.h: boards looked up, their fields, marks and cuts.
#include <QBuffer>
#include <QImageReader>
#include <cmath>

#include "app/serve/desk.h"
#include "app/serve/keep.h"
#include "app/serve/rack_json.h"
#include "app/serve/words_read.h"
#include "core/document/edits.h"
#include "core/plan/made_cuts.h"
#include "core/storage/rack_folder.h"
#include "core/wood/mark_traits.h"

namespace rackside::serve {
namespace {

using nlohmann::json;

constexpr int kWidest = 4000;  // pixels of a face as the phone shows it
constexpr int kDaySeconds = 86400;
constexpr double kTapMm = 10;      // half of a mark that was tapped and not drawn
constexpr double kLeastMm = 2;     // half of the smallest mark a finger means
constexpr double kLineMm = 2;      // how wide a check is drawn
constexpr double kBesideMm = 100;  // a finger may slip off the board so far
const char* const kGone = "This board is not on the rack any more.";

Answer outcome(const Status& done, const char* words) {
  return done ? said(200, words) : said(409, done.error().message);
}

Result<Point> pointOf(const json& body, const char* x, const char* y, const Board& board) {
  const auto px = body.find(x), py = body.find(y);
  if (px == body.end() || py == body.end() || !px->is_number() || !py->is_number())
    return Error{"The mark came without its place. Draw it again."};
  const Point p{px->get<double>(), py->get<double>()};
  const double far = board.lengthMm.value + kBesideMm;
  if (std::abs(p.x) <= far && std::abs(p.y) <= far) return p;
  return Error{"The mark lies beside the board. Draw it on the wood."};
}

MarkShape shapeOf(MarkKind kind, Point from, Point to) {
  const Point drawn = to - from;
  const bool tapped = norm(drawn) < kLeastMm;
  if (traitsOf(kind).form == MarkForm::line && !tapped) return Stroke{{from, to}, kLineMm};
  if (tapped) return Ellipse{from, kTapMm, kTapMm, 0};
  return Ellipse{from, std::max(std::abs(drawn.x), kLeastMm), std::max(std::abs(drawn.y), kLeastMm),
                 0};
}

Result<Mark> markOf(const json& body, const Board& board) {
  const auto kind = markKindFromName(textOf(body, "kind"));
  if (!kind) return Error{"This kind of mark is not known."};
  const auto from = pointOf(body, "x0", "y0", board);
  const auto to = pointOf(body, "x1", "y1", board);
  if (!from) return from.error();
  if (!to) return to.error();
  Mark mark;
  mark.id.text = newIdText("mark");
  mark.kind = *kind;
  mark.on(textOf(body, "face") == "B" ? Face::B : Face::A) = shapeOf(*kind, *from, *to);
  return mark;
}

}  // namespace

Answer Desk::board(const Question& q) {
  const auto rack = rack_.rack();
  if (!rack) return said(503, rack.error().message);
  const Board* board = (*rack)->findBoard(BoardId{q.get("id")});
  return board ? told(boardSheet(**rack, *board)) : said(404, kGone);
}

Answer Desk::face(const Question& q) {
  const auto rack = rack_.rack();
  if (!rack) return said(503, rack.error().message);
  const Board* board = (*rack)->findBoard(BoardId{q.get("board")});
  const std::string id = q.get("picture");
  const int wide = QString::fromStdString(q.get("wide")).toInt();
  if (!board || wide < 16 || wide > kWidest) return said(404, kGone);
  for (const Picture& picture : board->pictures) {
    if (picture.id.text != id) continue;
    QImageReader reader(
        QString::fromStdString(pictureFile(rack_.folder(), *board, picture).string()));
    const QSize full = reader.size();
    if (full.width() > wide)
      reader.setScaledSize({wide, std::max(1, full.height() * wide / full.width())});
    const QImage image = reader.read();
    Answer answer;
    QBuffer buffer(&answer.body);
    buffer.open(QIODevice::WriteOnly);
    if (image.isNull() || !image.save(&buffer, "JPG", 80)) break;
    answer.type = "image/jpeg";
    answer.keepSeconds = kDaySeconds;  // a new picture has a new id
    return answer;
  }
  return said(404, "The picture of this face cannot be read. Photograph that face again.");
}

Answer Desk::fields(const Question& q) {
  const json body = objectOf(q.body);
  return outcome(rack_.perform([&](const Rack& rack) -> Result<std::unique_ptr<Edit>> {
    const Board* board = rack.findBoard(BoardId{textOf(body, "board")});
    if (!board) return Error{kGone};
    const auto words = readWords(body.value("words", json::object()), rack.shop.show.system);
    if (!words) return words.error();
    Board changed = *board;
    putWords(changed, *words);
    return changeBoard(std::move(changed));
  }),
                 "Saved.");
}

Answer Desk::mark(const Question& q) {
  const json body = objectOf(q.body);
  std::string id;
  const Status done = rack_.perform([&](const Rack& rack) -> Result<std::unique_ptr<Edit>> {
    const Board* board = rack.findBoard(BoardId{textOf(body, "board")});
    if (!board) return Error{kGone};
    auto mark = markOf(body, *board);
    if (!mark) return mark.error();
    id = mark->id.text;
    return addMark(board->id, std::move(mark).value());
  });
  if (!done) return said(409, done.error().message);
  return told({{"say", "Added."}, {"mark", id}});
}

Answer Desk::unmark(const Question& q) {
  const json body = objectOf(q.body);
  return outcome(rack_.perform([&](const Rack& rack) -> Result<std::unique_ptr<Edit>> {
    const Board* board = rack.findBoard(BoardId{textOf(body, "board")});
    const MarkId mark{textOf(body, "mark")};
    if (!board || !board->findMark(mark)) return Error{"This mark is not on the board any more."};
    return removeMark(board->id, mark);
  }),
                 "Removed.");
}

Answer Desk::tick(const Question& q) {
  const json body = objectOf(q.body);
  const auto cut = body.find("cut"), made = body.find("made");
  if (!body.is_object() || cut == body.end() || !cut->is_number_integer() || made == body.end() ||
      !made->is_boolean())
    return said(400, "The tick came without its cut. Load the page again.");
  if (rack_.planning()) return said(409, "The computer is making a new plan. Wait for it.");
  return outcome(rack_.perform([&](const Rack& rack) -> Result<std::unique_ptr<Edit>> {
    const Board* board = rack.findBoard(BoardId{textOf(body, "board")});
    if (!board || !rack.plan) return Error{"Nothing is planned from this board any more."};
    const std::vector<int> numbers{cut->get<int>()};
    auto plan = made->get<bool>() ? withCutsMade(*rack.plan, *board, numbers)
                                  : withCutsTakenBack(*rack.plan, *board, numbers);
    if (!plan) return plan.error();
    return setPlan(std::move(plan).value());
  }),
                 *made ? "Ticked." : "Taken back.");
}

}  // namespace rackside::serve
