// SPDX-License-Identifier: GPL-3.0-or-later
// Reads rendered faces of five species, worn as photographs wear them, and prints how saw marks,
// grain, colour and ranking come out against the truth. Usage: figure_benchmark [CASES]
#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "tests/support/figure_score.h"
#include "vision/wood/tone.h"

using namespace rackside;
using namespace rackside::synthetic;

namespace {

double secondsSince(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void line(const char* what, const char* bar, const std::string& got) {
  std::printf("%-62s %-18s %s\n", what, bar, got.c_str());
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
  return {10 * std::log10(bandEnergy(rough, 0.5, pitch) / bandEnergy(planed, 0.5, pitch)),
          correlation(rough, truth), correlation(planed, truth)};
}

void sawMarks(int cases) {
  std::vector<double> dropped, after, curlLost, hardAfter;
  int found = 0;
  for (int k = 0; k < cases; ++k) {
    const SawResult r = sawOff(sawnCase(k, k % 2 ? "band" : "circular", false), k);
    dropped.push_back(r.droppedDb);
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
  RunControl control;
  const FigureMaps maps = figureMaps(raster, {}, control);
  line("all maps of a face of 3000 x 220 mm at 0.5 mm/px", "<= 3 s",
       text("%.2f s", secondsSince(start)));
}

}  // namespace

int main(int argc, char** argv) {
  const int cases = argc > 1 ? std::atoi(argv[1]) : 60;
  std::printf("%-62s %-18s %s\n", "rendered faces", "bar", "measured");
  sawMarks(cases);
  grain(cases);
  timeOfMaps();
  return 0;
}
