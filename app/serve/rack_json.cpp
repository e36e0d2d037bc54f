// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/rack_json.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "app/sheets/board_work.h"
#include "core/storage/json_forms.h"
#include "core/wood/mark_traits.h"
#include "core/wood/measure.h"

namespace rackside::serve {
namespace {

using nlohmann::json;

double tenth(double mm) {
  return std::round(mm * 10) / 10;
}

json pointsOf(const Polygon& polygon) {
  json points = json::array();
  for (const Point& p : polygon) points.push_back({tenth(p.x), tenth(p.y)});
  return points;
}

json pointsOf(const Polygons& polygons) {
  json all = json::array();
  for (const Polygon& p : polygons) all.push_back(pointsOf(p));
  return all;
}

std::string plusMinus(double mm, const LengthStyle& style) {
  char text[32];
  if (style.system == UnitSystem::inches)
    std::snprintf(text, sizeof text, "± %.2f in", mm / kMmPerInch);
  else
    std::snprintf(text, sizeof text, mm < 10 ? "± %.1f mm" : "± %.0f mm", mm);
  return text;
}

json measuredJson(const Measured& m, const LengthStyle& style) {
  json j{{"is", formatLength(m.value, style)}, {"by", plusMinus(m.u95, style)}};
  if (m.u95Total > m.u95 * 1.05) j["unchecked"] = plusMinus(m.u95Total, style);
  return j;
}

// The narrowest and the widest, and the middle: what a maker asks of a board.
json widthsJson(const Board& board, const LengthStyle& style) {
  json widths = json::array();
  const double length = board.lengthMm.value;
  for (const auto& [words, share] :
       {std::pair{"left end", 0.05}, std::pair{"middle", 0.5}, std::pair{"right end", 0.95}})
    if (const auto width = widthAt(board.outline, length * share)) {
      json one = measuredJson(*width, style);
      one["where"] = words;
      widths.push_back(std::move(one));
    }
  return widths;
}

json missingOf(const Board& board) {
  json missing = json::array();
  if (!board.seen(Face::A)) missing.push_back("face A");
  if (!board.seen(Face::B)) missing.push_back("face B");
  if (board.thicknessMm <= 0) missing.push_back("thickness");
  if (!board.tag) missing.push_back("no tag");
  return missing;
}

json pictureOf(const Board& board, Face face) {
  const Picture* picture = board.newestPicture(face);
  if (!picture) return nullptr;
  return {{"id", picture->id.text},
          {"wide", picture->widthPx},
          {"high", picture->heightPx},
          {"map", picture->boardFromPicture}};
}

json markJson(const Mark& mark) {
  json j{{"id", mark.id.text},
         {"kind", name(mark.kind)},
         {"taken", mark.confirmed},
         {"through", mark.through}};
  if (mark.onA) j["a"] = pointsOf(polygonsOf(*mark.onA));
  if (mark.onB) j["b"] = pointsOf(polygonsOf(*mark.onB));
  return j;
}

std::string colourText(unsigned rgb) {
  char text[8];
  std::snprintf(text, sizeof text, "#%06x", rgb);
  return text;
}

// All kinds of marks, as the page offers them.
json kindsJson() {
  json kinds = json::array();
  for (const MarkTraits& kind : allMarkTraits())
    kinds.push_back({{"name", kind.name},
                     {"label", kind.label},
                     {"line", kind.form == MarkForm::line},
                     {"colour", colourText(kind.rgb)}});
  return kinds;
}

json cutsJson(const sheets::BoardWork& work) {
  json cuts = json::array();
  for (const sheets::CutStep& step : work.steps) {
    if (!step.cut) continue;
    std::string frees;
    for (const std::string& code : step.freed) frees += (frees.empty() ? "" : ", ") + code;
    cuts.push_back({{"number", step.cut->order},
                    {"what", step.what},
                    {"where", step.where},
                    {"frees", frees},
                    {"made", step.cut->made},
                    {"line",
                     {{tenth(step.cut->line.from.x), tenth(step.cut->line.from.y)},
                      {tenth(step.cut->line.to.x), tenth(step.cut->line.to.y)}}}});
  }
  return cuts;
}

json piecesJson(const sheets::BoardWork& work) {
  json pieces = json::array();
  for (const sheets::PieceLine& line : work.pieces)
    pieces.push_back(
        {{"code", line.code}, {"title", line.title()}, {"outline", pointsOf(line.piece->outline)}});
  return pieces;
}

json wordsOf(const PhoneJob& job, const LengthStyle& style) {
  const BoardWords& w = job.words;
  return {{"board", w.board},
          {"species", w.species},
          {"place", w.place},
          {"thickness", w.thicknessMm > 0 ? formatLength(w.thicknessMm, style) : std::string()},
          {"moisture", w.moisturePercent > 0 ? json(w.moisturePercent) : json(nullptr)}};
}

void addMeasured(const Rack& rack, const PhoneJob& job, json& line) {
  const auto board = boardFromJson(job.result.value("board", json()));
  if (!board) return;
  const LengthStyle& style = rack.shop.show;
  line["length"] = measuredJson(board->lengthMm, style);
  line["widths"] = widthsJson(*board, style);
  line["known"] = job.result.value("known", false);
  line["tag"] = board->tag ? json(*board->tag) : json(nullptr);
  line["name"] = !job.words.board.empty()           ? job.words.board
                 : job.result.value("known", false) ? board->name
                 : board->tag                       ? std::to_string(*board->tag)
                                                    : std::string();
  json advice = json::array();
  for (const char* list : {"warnings", "advice"})
    for (const json& text : job.result.value(list, json::array()))
      if (text.is_string()) advice.push_back(text);
  line["advice"] = std::move(advice);
  line["seen"] = job.result.value("photos", 0);
}

// Boards of a find: by the tags in the picture.
json foundBoards(const Rack& rack, const PhoneJob& job) {
  json found = json::array();
  for (const json& tag : job.result.value("tags", json::array()))
    for (const Board& board : rack.boards)
      if (tag.is_number_integer() && board.tag == tag.get<int>()) found.push_back(board.id.text);
  return found;
}

}  // namespace

json boardLine(const Rack& rack, const Board& board) {
  const LengthStyle& style = rack.shop.show;
  const auto middle = widthAt(board.outline, board.lengthMm.value / 2);
  const Plan* plan = rack.plan ? &*rack.plan : nullptr;
  const auto pieces = !plan ? 0
                            : std::count_if(plan->pieces.begin(), plan->pieces.end(),
                                            [&](const Piece& p) { return p.board == board.id; });
  const auto marks = std::count_if(board.marks.begin(), board.marks.end(),
                                   [](const Mark& m) { return m.confirmed; });
  return {{"id", board.id.text},
          {"name", board.name},
          {"tag", board.tag ? json(*board.tag) : json(nullptr)},
          {"species", board.species},
          {"place", board.place},
          {"thickness", board.thicknessMm > 0 ? formatLength(board.thicknessMm, style) : ""},
          {"length", formatLength(board.lengthMm.value, style)},
          {"width", middle ? formatLength(middle->value, style) : ""},
          {"missing", missingOf(board)},
          {"marks", marks},
          {"pieces", pieces},
          {"cutUp", board.cutUp},
          {"a", pictureOf(board, Face::A)},
          {"b", pictureOf(board, Face::B)}};
}

json boardSheet(const Rack& rack, const Board& board) {
  json sheet = boardLine(rack, board);
  const LengthStyle& style = rack.shop.show;
  sheet["lengthBy"] = measuredJson(board.lengthMm, style);
  sheet["widths"] = widthsJson(board, style);
  sheet["outline"] = pointsOf(board.outline.polygon());
  json marks = json::array();
  for (const Mark& mark : board.marks) marks.push_back(markJson(mark));
  sheet["markList"] = std::move(marks);
  sheet["kinds"] = kindsJson();
  sheet["moisture"] = board.moisture.empty() ? json(nullptr) : json(board.moisture.back().percent);
  const sheets::BoardWork work =
      rack.plan ? sheets::boardWork(rack, board, style) : sheets::BoardWork();
  sheet["pieceList"] = piecesJson(work);
  sheet["cuts"] = cutsJson(work);
  return sheet;
}

json jobLine(const Rack& rack, const PhoneJob& job, bool measuring) {
  json line{{"id", job.id},
            {"what", job.what == PhoneJob::What::find ? "find" : "measure"},
            {"face", name(job.face)},
            {"photos", job.photos},
            {"state", measuring ? "measuring" : name(job.state)},
            {"say", job.said},
            {"board", job.keptBoard},
            {"words", wordsOf(job, rack.shop.show)},
            {"day", job.day}};
  if (job.state != PhoneJob::State::measured) return line;
  if (job.what == PhoneJob::What::find) {
    line["tags"] = job.result.value("tags", json::array());
    line["boards"] = foundBoards(rack, job);
  } else {
    addMeasured(rack, job, line);
  }
  return line;
}

}  // namespace rackside::serve
