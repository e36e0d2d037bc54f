// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_face.h"

#include <memory>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/rack_access.h"
#include "app/sheets/gui_session.h"
#include "app/sheets/side_by_side.h"
#include "vision/wood/figure_cache.h"
#include "vision/wood/figure_sums.h"
#include "vision/wood/rank/part_picture.h"
#include "vision/wood/sapwood.h"

namespace rackside::command {
namespace {

struct FaceVerb {
  CommonOptions common;
  std::string board, face = "A", picture;
};

double degrees(double rad) {
  return rad * 180 / std::numbers::pi;
}

struct FaceSeen {
  const Board* board = nullptr;
  Face face = Face::A;
  FigureMaps maps;
  FigureReading whole;
  FaceJudged judged;
};

nlohmann::json faceJson(const FaceSeen& f) {
  const SawMarks& saw = f.maps.saw;
  nlohmann::json j{{"board", f.board->name},
                   {"face", name(f.face)},
                   {"stage", name(f.board->newestPicture(f.face)->stage)},
                   {"colour_counts", f.judged.colour},
                   {"freshness", rounded(f.maps.colour.freshness)},
                   {"grain_deg", rounded(degrees(f.whole.grainRad))},
                   {"contrast", rounded(f.whole.contrast, 4)},
                   {"ripple", rounded(f.whole.ripple, 4)}};
  j["saw_marks"] = nullptr;
  if (saw.found())
    j["saw_marks"] = {{"kind", saw.kind == SawMarks::Kind::arced ? "arced" : "straight"},
                      {"pitch_mm", rounded(saw.pitchMm)},
                      {"slant_deg", rounded(degrees(saw.slantRad))},
                      {"radius_mm", rounded(saw.radiusMm(), 0)},
                      {"confidence", rounded(saw.confidence)},
                      {"taken_out", saw.sure()}};
  j["arches"] = j["sapwood"] = nlohmann::json::array();
  for (const ArchPoint& a : f.maps.arches)
    j["arches"].push_back(
        {{"x_mm", rounded(a.x)}, {"y_mm", rounded(a.y)}, {"sure", rounded(a.sure)}});
  for (const SapwoodEdge& e : f.maps.sapwood) {
    auto line = nlohmann::json::array();
    for (const Point p : e.line) line.push_back({rounded(p.x), rounded(p.y)});
    j["sapwood"].push_back({{"edge", e.lowSide ? "near" : "far"},
                            {"confidence", rounded(e.sure)},
                            {"line_mm", std::move(line)}});
  }
  return j;
}

std::vector<std::string> faceLines(const FaceSeen& f) {
  std::vector<std::string> lines;
  const std::string face = "Face " + std::string(name(f.face)) + " of board " + f.board->name;
  lines.push_back(face +
                  (f.judged.remark.empty() ? " shows its colour." : " " + f.judged.remark + "."));
  lines.push_back(describe(f.maps.saw));
  const double slope = 1000 * std::tan(f.whole.grainRad);
  lines.push_back("The grain runs " +
                  (std::abs(slope) < 5 ? std::string("along the board's axis")
                                       : "off by " + fixed(std::abs(slope), 0) + " mm a metre") +
                  "; rings " +
                  (f.whole.contrast > 0.06   ? "strong"
                   : f.whole.contrast > 0.03 ? "plain"
                                             : "quiet") +
                  (f.whole.ripple > 0.02 ? "; it ripples across the grain." : "."));
  if (f.maps.arches.empty()) {
    lines.emplace_back("No arches.");
  } else {
    double sure = 0, y = 0;
    for (const ArchPoint& a : f.maps.arches) sure += a.sure, y += a.sure * a.y;
    lines.push_back(
        "Arches over " +
        fixed(100 * double(f.maps.arches.size()) * kArchStepMm / f.maps.area.width(), 0) +
        " % of its length, their axis about " + fixed(y / sure, 0) + " mm from the near edge.");
  }
  lines.push_back(describeSapwood(f.maps, f.board->species));
  return lines;
}

// Grain strokes, arch axis and sapwood line over the picture.
cv::Mat3b mapped(const FaceRaster& raster, const cv::Mat3b& planed, const FigureMaps& maps) {
  cv::Mat3b out = planed.clone();
  const auto px = [&](Point p) {
    return cv::Point2d((p.x - raster.origin.x) / raster.mmPerPx,
                       (p.y - raster.origin.y) / raster.mmPerPx);
  };
  for (int r = 1; r < maps.rows; r += 4)
    for (int c = 1; c < maps.columns; c += 6) {
      const float coherence = maps.at(FigureLayer::coherence, c, r);
      if (maps.at(FigureLayer::wood, c, r) < 0.5F) continue;
      const double a = maps.grainRad(c, r), half = 3 + 6 * coherence;
      const Point p{maps.area.x0 + (c + 0.5) * maps.cellMm, maps.area.y0 + (r + 0.5) * maps.cellMm};
      const Point by{half * std::cos(a), half * std::sin(a)};
      cv::line(out, px(p - by), px(p + by), {40, 40, 230}, 1, cv::LINE_AA);
    }
  for (const ArchPoint& a : maps.arches)
    cv::circle(out, px({a.x, a.y}), 5, {230, 90, 20}, 2, cv::LINE_AA);
  for (const SapwoodEdge& e : maps.sapwood)
    for (size_t i = 0; i + 1 < e.line.size(); ++i)
      cv::line(out, px(e.line[i]), px(e.line[i + 1]), {30, 160, 30}, 3, cv::LINE_AA);
  return out;
}

Status writePicture(const FaceVerb& v, const FaceSeen& f) {
  const auto raster = readFaceRaster(*f.board, f.face, v.common.rack, kFigureMmPerPx);
  if (!raster) return raster.error();
  const sheets::GuiSession session;
  const double mmPerPx = std::max(1.0, f.maps.area.width() / 2400);
  const auto seen = [&](const cv::Mat3b& bgr) {
    cv::Mat out;
    const double scale = raster->mmPerPx / mmPerPx;
    cv::resize(bgr, out, {}, scale, scale, cv::INTER_AREA);
    // Face B is stored as seen through the board; it is shown from its own side.
    if (f.face == Face::A) cv::flip(out, out, 0);
    return cv::Mat3b(out);
  };
  const cv::Mat3b planed = asPlaned(*raster, f.maps);
  const std::vector<sheets::Shown> shown{
      {seen(raster->bgr), "As rough",
       f.judged.remark.empty() ? "" : "Face " + f.judged.remark + "."},
      {seen(planed), "As it might look planed", describe(f.maps.saw)},
      {seen(mapped(*raster, planed, f.maps)), "Read off it",
       "Red: the grain, longer where it is plainer. Blue: the axis of the arches. Green: where the "
       "sapwood begins. " +
           describeSapwood(f.maps, f.board->species)}};
  const std::string title = "Board " + f.board->name + ", face " + std::string(name(f.face));
  return sheets::writePng(sheets::sideBySide(title, shown, mmPerPx), v.picture);
}

int run(FaceVerb& v) {
  const auto opened = openToRead(v.common, Needs::boards);
  if (!opened) return inputAtFault(opened.error());
  const Rack* rack = &opened->rack;
  const auto board = findBoard(*rack, v.board);
  if (!board) return inputAtFault(board.error());
  FaceSeen f;
  f.board = *board;
  f.face = v.face == "B" ? Face::B : Face::A;
  RunControl control;
  auto maps = figureOf(*f.board, f.face, v.common.rack, defaultCacheFolder(), control);
  if (!maps) return inputAtFault(maps.error());
  f.maps = *maps;
  const Rect& all = f.maps.area;
  f.whole = readingOf(FigureSums(f.maps).over(all), all.width() * all.height());
  f.judged = judgedBy(*f.board->newestPicture(f.face), f.maps.colour);
  if (!v.picture.empty())
    if (const Status s = writePicture(v, f); !s) return inputAtFault(s.error());
  if (v.common.json) {
    printJson(faceJson(f));
  } else {
    for (const std::string& line : faceLines(f)) say(line);
  }
  return kDone;
}

}  // namespace

VerbRun setUpFace(CLI::App& app) {
  auto v = std::make_shared<FaceVerb>();
  app.add_option("BOARD", v->board, "Name or tag of the board")->required();
  addRack(app, v->common);
  app.add_option("--face", v->face, "Which face")->check(CLI::IsMember({"A", "B"}));
  app.add_option("--picture", v->picture,
                 "Write a picture: as rough, as it might look planed, and what was read off it");
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
