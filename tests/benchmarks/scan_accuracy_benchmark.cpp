// SPDX-License-Identifier: GPL-3.0-or-later
// Scans every photograph of some folders that has a truth beside it (NAME.truth.json, see
// tests/support/scene_truth.h) and prints how far the board is from the truth:
//
//   scan_accuracy_benchmark FOLDER… [--only NAME-BEGINNING] [--strips DIR]
//
// --strips draws the surroundings of the true outline unrolled, five times
// finer across than along, with what was found, and
// its corners enlarged.
// The photographs are rendered; nothing here was measured with a tape.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/outline_score.h"

namespace {

using namespace rackside;
using namespace rackside::synthetic;
namespace fs = std::filesystem;

constexpr double kStripHalfMm = 30, kAlongMmPerPx = 1.6, kAcrossMmPerPx = 0.32;

struct Totals {
  int scenes = 0, failed = 0, length2 = 0, length4 = 0, lengthIn = 0, width1 = 0, width2 = 0;
  int outline3 = 0, wrongSure = 0, unsure5 = 0, unsure20 = 0;
  double widths = 0, widthsIn = 0;
};

void add(Totals& t, const BoardScore& s) {
  t.scenes += 1;
  t.length2 += std::abs(s.length) <= 2;
  t.length4 += std::abs(s.length) <= 4;
  t.lengthIn += std::abs(s.length) <= s.lengthU;
  t.width1 += s.width95 <= 1;
  t.width2 += s.width95 <= 2;
  t.outline3 += s.outlineWorst <= 3;
  t.wrongSure += s.wrongSure > 0;
  t.unsure5 += s.unsure <= 0.05;
  t.unsure20 += s.unsure <= 0.2;
  t.widths += s.widthCount;
  t.widthsIn += s.widthsInside;
}

// Where a side of the true outline is seen in the face picture, unrolled: its pixel for each column
// and offset outward.
cv::Mat unrolled(const ScanResult& r, const BoardScore& score, Point from, Point to,
                 const Polygon& found, const std::vector<OutlineVertex>& v) {
  const auto& m = r.board.pictures.back().boardFromPicture;
  const double length = norm(to - from);
  const Point along = (1 / length) * (to - from), out{along.y, -along.x};
  const cv::Size size(int(length / kAlongMmPerPx), int(2 * kStripHalfMm / kAcrossMmPerPx));
  cv::Mat map(size, CV_32FC2), strip;
  const Pose& pose = score.truthFromBoard;
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const Point p = from + (x * kAlongMmPerPx) * along +
                      (kStripHalfMm - y * kAcrossMmPerPx) * out - pose.origin;
      const Point b = rackside::apply(Pose{{}, -pose.angleRad}, p);
      map.at<cv::Vec2f>(y, x) = {float((b.x - m[2]) / m[0]), float((b.y - m[5]) / m[4])};
    }
  cv::remap(r.facePicture, strip, map, cv::noArray(), cv::INTER_LINEAR);
  for (size_t i = 0; i < found.size(); ++i) {
    const Point a = found[i] - from, b = found[(i + 1) % found.size()] - from;
    const auto at = [&](Point p) {
      return cv::Point(int(dot(p, along) / kAlongMmPerPx),
                       int((kStripHalfMm - dot(p, out)) / kAcrossMmPerPx));
    };
    const cv::Scalar colour = v[i].state == EdgeState::sure     ? cv::Scalar(0, 255, 0)
                              : v[i].state == EdgeState::unsure ? cv::Scalar(255, 0, 255)
                                                                : cv::Scalar(255, 255, 0);
    cv::line(strip, at(a), at(b), colour, 2);
  }
  return strip;
}

void drawTruth(const Polygon& truth, Point from, Point to, cv::Mat& strip) {
  const double length = norm(to - from);
  const Point along = (1 / length) * (to - from), out{along.y, -along.x};
  for (const Point& p : truth) {
    const cv::Point at(int(dot(p - from, along) / kAlongMmPerPx),
                       int((kStripHalfMm - dot(p - from, out)) / kAcrossMmPerPx));
    if (cv::Rect({}, strip.size()).contains(at)) cv::circle(strip, at, 1, {255, 128, 0}, -1);
  }
}

// The corners of the true outline, four pixels a millimetre.
void drawCorners(const ScanResult& r, const BoardTruth& truth, const BoardScore& score,
                 const fs::path& file) {
  const auto& m = r.board.pictures.back().boardFromPicture;
  const auto& v = r.board.outline.vertices;
  const Rect box = bounds(truth.outline);
  const double scale = 4, half = 40;
  cv::Mat all;
  for (const Point wanted : {Point{box.x0, box.y0}, Point{box.x1, box.y0}, Point{box.x1, box.y1},
                             Point{box.x0, box.y1}}) {
    Point corner = truth.outline.front();
    for (const Point& p : truth.outline)
      if (norm(p - wanted) < norm(corner - wanted)) corner = p;
    const int size = int(2 * half * scale);
    cv::Mat map(size, size, CV_32FC2), part;
    const auto at = [&](Point p) {
      return cv::Point(int((p.x - corner.x + half) * scale), int((corner.y + half - p.y) * scale));
    };
    for (int y = 0; y < size; ++y)
      for (int x = 0; x < size; ++x) {
        const Point p = corner + Point{x / scale - half, half - y / scale};
        const Point b = rackside::apply(Pose{{}, -score.truthFromBoard.angleRad},
                                        p - score.truthFromBoard.origin);
        map.at<cv::Vec2f>(y, x) = {float((b.x - m[2]) / m[0]), float((b.y - m[5]) / m[4])};
      }
    cv::remap(r.facePicture, part, map, cv::noArray(), cv::INTER_LINEAR);
    for (size_t i = 0; i < truth.outline.size(); ++i)
      cv::line(part, at(truth.outline[i]), at(truth.outline[(i + 1) % truth.outline.size()]),
               {255, 128, 0});
    for (size_t i = 0; i < v.size(); ++i)
      cv::line(part, at(rackside::apply(score.truthFromBoard, v[i].at)),
               at(rackside::apply(score.truthFromBoard, v[(i + 1) % v.size()].at)),
               v[i].state == EdgeState::sure ? cv::Scalar(0, 255, 0) : cv::Scalar(255, 0, 255));
    if (all.empty())
      all = part;
    else
      cv::hconcat(all, part, all);
  }
  cv::imwrite(file.string(), all);
}

void drawStrips(const ScanResult& r, const BoardTruth& truth, const BoardScore& score,
                const fs::path& file) {
  const Rect box = bounds(truth.outline);
  const Polygon found = rackside::apply(score.truthFromBoard, r.board.outline.polygon());
  const Polygon sides{{box.x0, box.y0}, {box.x1, box.y0}, {box.x1, box.y1}, {box.x0, box.y1}};
  cv::Mat all;
  for (size_t i = 0; i < 4; ++i) {
    const Point a = sides[i], b = sides[(i + 1) % 4], d = (1 / norm(b - a)) * (b - a);
    cv::Mat strip = unrolled(r, score, a - 40 * d, b + 40 * d, found, r.board.outline.vertices);
    drawTruth(truth.outline, a - 40 * d, b + 40 * d, strip);
    const int width = int((box.width() + 80) / kAlongMmPerPx);
    cv::copyMakeBorder(strip, strip, 2, 2, 0, std::max(0, width - strip.cols), cv::BORDER_CONSTANT,
                       {255, 255, 255});
    all.push_back(strip(cv::Rect(0, 0, width, strip.rows)));
  }
  cv::imwrite(file.string(), all);
}

void scanOne(const fs::path& folder, const BoardTruth& truth, const fs::path& strips,
             Totals& totals) {
  const auto begin = std::chrono::steady_clock::now();
  std::vector<Photo> photos;
  for (const std::string& f : truth.files)
    if (const auto photo = readPhoto(folder / f)) photos.push_back(*photo);
  RunControl control;
  auto result = photos.size() == truth.files.size()
                    ? scanFace(photos, scanOptionsFor(truth), control)
                    : Result<ScanResult>(Error{"A photograph cannot be read."});
  if (!result) {
    std::printf("%-24s FAILED: %s\n", truth.scene.c_str(), result.error().message.c_str());
    totals.scenes += 1, totals.failed += 1;
    return;
  }
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  const BoardScore s = scoreBoard(result->board, truth);
  add(totals, s);
  std::printf(
      "%-24s %6.2f %5.2f  %5.2f %5.2f %5.2f %4.0f%%  %5.1f %5.1f %4.0f%%  %5.1f %5.1f %5.1f %5.1f  "
      "%5.2f\n",
      truth.scene.c_str(), s.length, s.lengthU, s.width95, s.widthWorst, s.widthU,
      100 * s.widthsInside / std::max(1.0, s.widthCount), s.shift, s.outlineWorst,
      100 * s.edgesInside, 100 * s.unsure, 100 * s.bridged, 100 * s.wrong, 100 * s.wrongSure,
      seconds);
  std::fflush(stdout);
  if (strips.empty()) return;
  drawStrips(*result, truth, s, strips / (truth.scene + ".png"));
  drawCorners(*result, truth, s, strips / (truth.scene + "-corners.png"));
}

void printTotals(const Totals& t) {
  const auto share = [&](int n) { return 100.0 * n / std::max(1, t.scenes); };
  std::printf(
      "\n%d scenes, %d failed; length ≤ 2 mm %.0f %%, ≤ 4 mm %.0f %%, within ± %.0f %%; widths "
      "≤ 1 mm %.0f %%, ≤ 2 mm %.0f %%, within ± %.1f %%\noutline ≤ 3 mm %.0f %%, any wrong "
      "stretch sure %.0f %%; unsure ≤ 5 %% in %.0f %%, ≤ 20 %% in %.0f %%\n",
      t.scenes, t.failed, share(t.length2), share(t.length4), share(t.lengthIn), share(t.width1),
      share(t.width2), 100 * t.widthsIn / std::max(1.0, t.widths), share(t.outline3),
      share(t.wrongSure), share(t.unsure5), share(t.unsure20));
}

}  // namespace

int main(int argc, char** argv) {
  std::vector<fs::path> folders;
  std::string beginning;
  fs::path strips;
  for (int i = 1; i < argc; ++i)
    if (std::string(argv[i]) == "--strips" && i + 1 < argc)
      strips = argv[++i];
    else if (std::string(argv[i]) == "--only" && i + 1 < argc)
      beginning = argv[++i];
    else
      folders.emplace_back(argv[i]);
  if (folders.empty()) {
    std::puts("scan_accuracy_benchmark FOLDER… [--only NAME-BEGINNING] [--strips DIR]");
    return 2;
  }
  std::vector<fs::path> truths;
  for (const fs::path& folder : folders)
    for (const auto& e : fs::directory_iterator(folder)) {
      const std::string f = e.path().filename().string();
      if (f.ends_with(".truth.json") && f.starts_with(beginning)) truths.push_back(e.path());
    }
  std::sort(truths.begin(), truths.end());
  std::printf("%-24s %6s %5s  %5s %5s %5s %5s  %5s %5s %5s  %5s %5s %5s %5s  %5s\n",
              "scene (mm, %)", "dL", "±L", "W 95", "W max", "±W", "in ±", "shift", "edge", "in ±",
              "unsur", "bridg", "wrong", "w sur", "s");
  Totals totals;
  for (const auto& t : truths) scanOne(t.parent_path(), readBoardTruth(t), strips, totals);
  printTotals(totals);
}
