// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_lens.h"

#include <cstdio>
#include <filesystem>
#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "vision/lens/calibrate.h"
#include "vision/lens/lens_file.h"
#include "vision/lens/lens_shelf.h"

namespace rackside::command {
namespace {

using Files = std::vector<std::filesystem::path>;

struct LensVerb {
  CommonOptions common;
  std::vector<std::string> photos;
  std::string chessboard, square, output;
  bool keep = true;
};

// "9x6" inner corners.
Result<Chessboard> chessboardFrom(const LensVerb& v) {
  Chessboard board;
  char times = 0, more = 0;
  if (std::sscanf(v.chessboard.c_str(), "%d%c%d%c", &board.columns, &times, &board.rows, &more) !=
          3 ||
      times != 'x')
    return Error{"--chessboard wants inner corners along and across, such as 9x6; got \"" +
                 v.chessboard + "\"."};
  if (v.square.empty()) return Error{"--chessboard needs --square, the side of a square."};
  board.squareMm = lengthMm(v.square, v.common);
  if (const Status s = board.validate(); !s) return s.error();
  return board;
}

nlohmann::json lensJson(const CalibrateResult& r, const KeptLens& kept, const Files& files) {
  auto photos = nlohmann::json::array();
  for (const PhotoFit& p : r.photos)
    photos.push_back({{"photo", p.name}, {"points", p.points}, {"rms_px", rounded(p.rmsPx)}});
  auto written = nlohmann::json::array();
  for (const auto& f : files) written.push_back(f.string());
  nlohmann::json j = toJson(kept);
  j["rms_px"] = rounded(r.rmsPx, 4);
  j["points"] = r.points;
  j["strays"] = r.strays;
  j["photos"] = photos;
  j["files"] = written;
  j["warnings"] = r.warnings;
  return j;
}

Result<Files> store(const LensVerb& v, const KeptLens& kept) {
  Files files;
  if (!v.output.empty()) {
    if (const Status s = writeLensFile(kept, v.output); !s) return s.error();
    files.emplace_back(v.output);
  }
  if (!v.keep || kept.make.empty() || lensShelf().empty()) return files;
  auto shelved = keepLens(kept, lensShelf());
  if (!shelved) return shelved.error();
  files.push_back(*shelved);
  return files;
}

int run(const LensVerb& v) {
  CalibrateOptions options;
  if (!v.chessboard.empty()) {
    auto board = chessboardFrom(v);
    if (!board) return usageAtFault(board.error().message);
    options.chessboard = *board;
  }
  RunControl control;
  auto result = calibrateLens({v.photos.begin(), v.photos.end()}, options, control);
  if (!result) return inputAtFault(result.error());
  const KeptLens kept{result->lens,           result->camera.make, result->camera.model,
                      result->camera.focalMm, result->rmsPx,       nlohmann::json::object()};
  auto files = store(v, kept);
  if (!files) return inputAtFault(files.error());
  for (const std::string& w : result->warnings) message("note: " + w);
  if (v.common.json) {
    printJson(lensJson(*result, kept, *files));
    return kDone;
  }
  say("focal length " + fixed(result->lens.focalPx, 1) + " px, k1 " + fixed(result->lens.k1, 4) +
      ", k2 " + fixed(result->lens.k2, 4) + ", fitted to " + fixed(result->rmsPx, 3) + " px over " +
      std::to_string(result->points) + " points in " + std::to_string(result->photos.size()) +
      " photographs");
  for (const auto& f : *files) say("kept in " + f.string());
  return kDone;
}

}  // namespace

VerbRun setUpLens(CLI::App& app) {
  auto v = std::make_shared<LensVerb>();
  app.add_option("PHOTO", v->photos,
                 "8 to 15 photographs of a card or a chessboard, tilted this "
                 "way and that")
      ->required();
  app.add_option("-o,--output", v->output, "Lens file to write");
  app.add_option("--chessboard", v->chessboard,
                 "A chessboard instead of our cards: inner corners along and across, such as 9x6");
  app.add_option("--square", v->square, "Side of one of its squares")->check(lengthText());
  app.add_flag("!--no-keep", v->keep,
               "Do not keep the lens for scans of the same camera to find by themselves");
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
