// SPDX-License-Identifier: GPL-3.0-or-later
// Reads rendered faces of five species, worn as photographs wear them, and prints how saw marks,
// grain, colour and ranking come out against the truth. Usage: figure_benchmark [CASES
// [SECTION]], sections saw grain sapwood rank order time
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>

#include "core/storage/rack_folder.h"
#include "tests/core/support/temporary_folder.h"
#include "tests/support/figure_score.h"
#include "tests/support/noise.h"
#include "tests/support/wood_rack.h"
#include "vision/wood/figure_cache.h"
#include "vision/wood/rank/rank.h"
#include "vision/wood/tone.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

double secondsSince(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void line(const char* what, const char* bar, const std::string& got) {
  std::printf("%-62s %-18s %s\n", what, bar, got.c_str());
  std::fflush(stdout);
}

std::string text(const char* format, double a, double b = 0, double c = 0) {
  char buffer[120];
  std::snprintf(buffer, sizeof buffer, format, a, b, c);
  return buffer;
}

cv::Mat1f toneOf(const PaintedWood& painted, const PhotoWear& wear) {
  const FaceRaster raster = rasterOf(painted, worn(painted.bgr, wear));
  return evenedTone(raster, lightField(raster));
}

struct SawResult {
  double droppedDb = 0, before = 0, after = 0;
  double marksDroppedDb = 0;  // of what the band holds beyond the face without marks
};

// The face with its marks against the same face painted without them, worn by the same photograph.
SawResult sawOff(const SawnCase& c, uint32_t seed) {
  const WoodLog log(c.wood, 27);
  PaintOptions clean = c.paint;
  clean.sawMarks = false;
  const PaintedWood sawn = paintFace(log, c.face, 27, c.paint);
  const cv::Mat1f truth = toneOf(paintFace(log, c.face, 27, clean), randomWear(seed));
  const cv::Mat1f rough = toneOf(sawn, randomWear(seed));
  const cv::Mat1b wood(rough.size(), uchar(255));
  const SawMarks marks = findSawMarks(rough, wood, sawn.mmPerPx);
  cv::Mat1f planed = rough.clone();
  if (marks.sure()) planed -= sawMarkTone(rough, wood, sawn.mmPerPx, marks);
  const double pitch = c.wood.saw.kind == "none" ? c.wood.curlPitchMm : c.wood.saw.pitchMm;
  const double energy = bandEnergy(rough, 0.5, pitch), left = bandEnergy(planed, 0.5, pitch),
               own = bandEnergy(truth, 0.5, pitch);
  return {10 * std::log10(energy / left), correlation(rough, truth), correlation(planed, truth),
          10 * std::log10((energy - own) / std::max(1e-3 * energy, std::abs(left - own)))};
}

void sawMarks(int cases) {
  std::vector<double> dropped, marksDropped, after, curlLost, hardAfter;
  int found = 0;
  for (int k = 0; k < cases; ++k) {
    const SawResult r = sawOff(sawnCase(k, k % 2 ? "band" : "circular", false), k);
    dropped.push_back(r.droppedDb);
    marksDropped.push_back(r.marksDroppedDb);
    if (r.before <= 0.85) hardAfter.push_back(r.after);
    after.push_back(r.after);
    found += r.droppedDb > 3;
  }
  for (int k = 0; k < cases; ++k) {
    const SawResult r = sawOff(sawnCase(100 + k, "none", true), k);
    curlLost.push_back(1 - std::pow(10.0, -r.droppedDb / 10));
  }
  line("saw marks: energy in their band down, median (least)", ">= 15 dB",
       text("%.1f (%.1f) dB; marks found on %.0f %%", quantile(dropped, 0.5), quantile(dropped, 0),
            100.0 * found / cases));
  line("  of what the wood itself does not hold there", "",
       text("%.1f (%.1f) dB", quantile(marksDropped, 0.5), quantile(marksDropped, 0)));
  line("  correlation with the face without marks, where <= 0.85", ">= 0.95",
       text("median %.3f, least %.3f, of %.0f faces", quantile(hardAfter, 0.5),
            quantile(hardAfter, 0), double(hardAfter.size())));
  line("  the same, all faces", "",
       text("median %.3f, least %.3f", quantile(after, 0.5), quantile(after, 0)));
  line("  curl lost where there are no marks: median, most", "<= 10 %",
       text("%.1f %%, %.1f %%", 100 * quantile(curlLost, 0.5), 100 * quantile(curlLost, 1)));
}

void grain(int cases) {
  std::vector<double> errors;
  for (int k = 0; k < cases; ++k) {
    const SawnCase c = sawnCase(200 + k, k % 2 ? "band" : "circular", k % 5 == 4);
    const WoodLog log(c.wood, 27);
    const PaintedWood painted = paintFace(log, c.face, 27, c.paint);
    RunControl control;
    const FigureMaps maps =
        figureMaps(rasterOf(painted, worn(painted.bgr, randomWear(k))), {}, control);
    const auto more = grainErrorsDeg(maps, log, 27);
    errors.insert(errors.end(), more.begin(), more.end());
  }
  line("grain direction, away from knots, marks on: median", "<= 1.5 deg",
       text("%.2f deg", quantile(errors, 0.5)));
  line("  95 %", "<= 6 deg", text("%.2f deg", quantile(errors, 0.95)));
}

void timeOfMaps() {
  SawnCase c = sawnCase(2, "band", false);
  c.face = {0, 0, 3000, 220};
  const PaintedWood painted = paintFace(WoodLog(c.wood, 27), c.face, 27, c.paint);
  const FaceRaster raster = rasterOf(painted, painted.bgr);
  const auto start = std::chrono::steady_clock::now();
  const std::clock_t spent = std::clock();
  RunControl control;
  const FigureMaps maps = figureMaps(raster, {}, control);
  line("all maps of a face of 3000 x 220 mm at 0.5 mm/px", "<= 3 s",
       text("%.2f s (%.2f s of processor)", secondsSince(start),
            double(std::clock() - spent) / CLOCKS_PER_SEC));
}

void sapwood() {
  for (const char* species : {"cherry", "walnut", "maple", "ash"}) {
    const SapwoodScore s = sapwoodScore(species, 16);
    const std::string bar = "<= 3, <= 10 mm";
    line(("sapwood line in " + std::string(species) + ": median, 95 %").c_str(), bar.c_str(),
         text("%.1f, %.1f mm", quantile(s.errorsMm, 0.5), quantile(s.errorsMm, 0.95)) +
             text("; not seen %.0f %%, seen where there is none %.0f of %.0f", 100 * s.missedShare,
                  s.falseBoards, s.plainBoards) +
             (s.saysUnsure ? "; says it is unsure" : ""));
  }
}

void ranking(int racks) {
  for (const std::string& wish : wishNames()) {
    int right = 0, near = 0, placed = 0;
    std::vector<double> off;
    for (int k = 0; k < racks; ++k) {
      const WoodRack rack = woodRack(wish, 10 + uint32_t(k), 8);
      RunControl control;
      const auto ranking = rankBoards(
          rack.boards, rack.part, Shop{}, *wishFromName(wish),
          [&](const Board& b, Face) { return Result<FigureMaps>(rack.figures.at(b.id.text)); },
          control);
      if (!ranking || ranking->places.empty()) continue;
      const Placement& first = ranking->places[0];
      if (first.board.text != rack.best) continue;
      ++right;
      const Rect box = bounds(first.outline);
      double miss = std::abs((box.x0 + box.x1) / 2 - *rack.middleX);
      if (rack.middleY) miss = std::max(miss, std::abs((box.y0 + box.y1) / 2 - *rack.middleY));
      off.push_back(miss);
      ++placed;
      near += miss <= 10;
    }
    line(("rank, " + wish + ": the first is the right board").c_str(), ">= 95 %",
         text("%.0f %% of %.0f racks of 8", 100.0 * right / racks, racks) +
             text("; placed within 10 mm %.0f %% (worst %.0f mm)",
                  100.0 * near / std::max(1, placed), quantile(off, 1)));
  }
}

// The same faces under another light each: do the scores keep their order?
void steadyOrder(int faces) {
  const char* const what[] = {"gain", "tint", "falloff 2:1"};
  for (int change = 0; change < 3; ++change) {
    double least = 1;
    std::string each;
    for (const std::string& wish : wishNames()) {
      std::vector<double> before, after;
      for (int k = 0; k < faces; ++k) {
        Draw draw(uint64_t(k) * 7 + 3);
        SawnCase c = sawnCase(300 + k, k % 2 ? "band" : "circular", k % 4 == 3);
        c.face = {0, 0, 900, 150};
        c.paint.grey = 0.1 * draw.unit();
        c.wood.sapRadiusMm =
            draw.chance(0.6) ? std::hypot(draw.between(40, 160), 27 - c.wood.pithZMm) : 0;
        PaintedWood painted = paintFace(WoodLog(c.wood, 27), c.face, 27, c.paint);
        layCard(painted, {20, 40});
        PhotoWear wear, plain;
        plain.gain = 0.7;  // so that nothing is clipped at white
        if (change == 0) wear.gain = draw.between(0.5, 1);
        if (change == 1) wear = {0.8, {draw.between(0.85, 1.1), 1, draw.between(0.9, 1.1)}};
        if (change == 2) wear = {0.65, {1, 1, 1}, 2, draw.between(-3.1, 3.1)};
        before.push_back(faceScore(painted, plain, c.wood.species, *wishFromName(wish)));
        after.push_back(faceScore(painted, wear, c.wood.species, *wishFromName(wish)));
      }
      const double tau = kendallTau(before, after);
      least = std::min(least, tau);
      each += text(" %.2f", tau);
    }
    line(("order of scores kept under " + std::string(what[change]) + ": least tau").c_str(),
         ">= 0.9", text("%.2f (by wish:", least) + each + ")");
  }
}

// Fifty boards of the sizes a rack holds, their maps in a cache folder.
void timeOfRank() {
  const tests::TemporaryFolder folder;
  std::vector<Board> boards;
  const WoodRack rack = woodRack("straight", 3, 5);
  for (int i = 0; i < 50; ++i) {
    Board b = rack.boards[size_t(i) % rack.boards.size()];
    const FigureMaps& figure = rack.figures.at(b.id.text);
    b.marks.clear();
    b.id = {"board-" + std::to_string(i)};
    b.pictures[0].id = {"picture-" + std::to_string(i)};
    const Status kept = writeFigure(
        figure, folder.path(), b.pictures[0],
        figureKey(b, b.pictures[0], boardFolder(folder.path(), b.id) / b.pictures[0].file));
    if (kept) boards.push_back(std::move(b));
  }
  const auto start = std::chrono::steady_clock::now();
  const std::clock_t spent = std::clock();
  RunControl control;
  const auto ranking = rankBoards(
      boards, rack.part, Shop{}, {},
      [&](const Board& b, Face face) {
        RunControl own;
        return figureOf(b, face, folder.path(), folder.path(), own);
      },
      control);
  line("rank of one part over 50 boards, maps cached", "<= 0.5 s",
       text("%.2f s (%.2f s of processor) for %.0f boards", secondsSince(start),
            double(std::clock() - spent) / CLOCKS_PER_SEC,
            ranking ? double(ranking->places.size()) : 0));
}

}  // namespace

int main(int argc, char** argv) {
  const int cases = argc > 1 ? std::atoi(argv[1]) : 60;
  const std::string only = argc > 2 ? argv[2] : "";
  const auto wanted = [&](const char* section) { return only.empty() || only == section; };
  std::printf("%-62s %-18s %s\n", "rendered faces", "bar", "measured");
  if (wanted("saw")) sawMarks(cases);
  if (wanted("grain")) grain(cases);
  if (wanted("sapwood")) sapwood();
  if (wanted("rank")) ranking(std::max(4, cases / 3));
  if (wanted("order")) steadyOrder(std::max(8, cases / 3));
  if (wanted("time")) timeOfMaps();
  if (wanted("time")) timeOfRank();
  return 0;
}
