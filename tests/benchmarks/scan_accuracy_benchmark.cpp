// SPDX-License-Identifier: GPL-3.0-or-later
// Scans every photograph of some folders that has a truth beside it (NAME.truth.json, see
// tests/support/scene_truth.h) and prints how far the board is from the truth:
//
//   scan_accuracy_benchmark FOLDER… [--only NAME-BEGINNING] [--strips DIR]
//
// --strips draws the surroundings of the true outline unrolled, five times
// finer across than along, with what was found, and
// its corners enlarged. Photographs of two end cards are scanned with a calibrated lens.
// The photographs are rendered; nothing here was measured with a tape.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <map>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/outline_score.h"

namespace {

using namespace rackside;
using namespace rackside::synthetic;
namespace fs = std::filesystem;

constexpr double kStripHalfMm = 30, kAlongMmPerPx = 1.6, kAcrossMmPerPx = 0.32;

struct Row {  // of the table of cases
  const char* beginning;
  double lengthBarMm, widthBarMm;  // 0: honest, no more
};
constexpr Row kRows[] = {
    {"three-cards-sawn", 2, 1},
    {"three-cards-rough", 3, 1.5},
    {"two-end-cards", 2.5, 1},
    {"bench-cards", 4, 1.5},
    {"walk-lying", 2, 0.7},
    {"walk-leaning", 2, 0.7},
    {"one-card", 0, 0},
    {"stock-cards", 2, 1},
    {"print-scale", 0, 0},
    {"same-wood-clutter", 2, 1},
    {"light-on-light", 2, 1},
    {"bowed", 0, 0},
    {"board", 2, 1},
};

struct Totals {
  int scenes = 0, failed = 0;
  std::vector<BoardScore> scores;
  int count(const std::function<bool(const BoardScore&)>& passes) const {
    return int(std::count_if(scores.begin(), scores.end(), passes));
  }
};

double percentile(std::vector<double> v, double share) {
  if (v.empty()) return 0;
  std::sort(v.begin(), v.end());
  return v[size_t(double(v.size() - 1) * share + 0.5)];
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

// That of the scene's case and that of all.
std::vector<Totals*> totalsOf(const std::string& scene, std::map<std::string, Totals>& cases) {
  std::vector<Totals*> totals{&cases["all"]};
  for (const Row& row : kRows)
    if (scene.starts_with(row.beginning)) totals.push_back(&cases[row.beginning]);
  return totals;
}

void scanOne(const fs::path& folder, const BoardTruth& truth, const fs::path& strips,
             std::map<std::string, Totals>& cases) {
  const auto begin = std::chrono::steady_clock::now();
  std::vector<Photo> photos;
  for (const std::string& f : truth.files)
    if (const auto photo = readPhoto(folder / f)) photos.push_back(*photo);
  RunControl control;
  ScanOptions options = scanOptionsFor(truth);
  if (truth.scene.starts_with("two-end-cards")) options.lens = calibratedLens(truth);
  auto result = photos.size() == truth.files.size()
                    ? scanFace(photos, options, control)
                    : Result<ScanResult>(Error{"A photograph cannot be read."});
  if (!result) {
    std::printf("%-24s FAILED: %s\n", truth.scene.c_str(), result.error().message.c_str());
    for (Totals* t : totalsOf(truth.scene, cases)) t->scenes += 1, t->failed += 1;
    return;
  }
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  const BoardScore s = scoreBoard(result->board, truth);
  for (Totals* t : totalsOf(truth.scene, cases)) t->scenes += 1, t->scores.push_back(s);
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
  const auto share = [&](const std::function<bool(const BoardScore&)>& passes) {
    return 100.0 * t.count(passes) / std::max(1, t.scenes);
  };
  double widths = 0, inside = 0;
  std::vector<double> lengthU, lengthOff, widthU, widthOff;
  for (const BoardScore& s : t.scores) {
    widths += s.widthCount, inside += s.widthsInside;
    lengthU.push_back(s.lengthU), lengthOff.push_back(std::abs(s.length));
    widthU.push_back(s.widthU), widthOff.push_back(s.width95);
  }
  std::printf(
      "%3d scenes, %d failed; length ≤ 2 mm %.0f %%, ≤ 4 mm %.0f %%, within ± %.0f %%; widths "
      "≤ 1 mm %.0f %%, ≤ 2 mm %.0f %%, within ± %.1f %%\n    outline ≤ 3 mm %.0f %%, any wrong "
      "stretch sure %.0f %%; unsure ≤ 5 %% in %.0f %%, ≤ 20 %% in %.0f %%\n    median ± ÷ 95 %% "
      "error: length %.2f, widths %.2f\n",
      t.scenes, t.failed, share([](const auto& s) { return std::abs(s.length) <= 2; }),
      share([](const auto& s) { return std::abs(s.length) <= 4; }),
      share([](const auto& s) { return std::abs(s.length) <= s.lengthU; }),
      share([](const auto& s) { return s.width95 <= 1; }),
      share([](const auto& s) { return s.width95 <= 2; }), 100 * inside / std::max(1.0, widths),
      share([](const auto& s) { return s.outlineWorst <= 3; }),
      share([](const auto& s) { return s.wrongSure > 0; }),
      share([](const auto& s) { return s.unsure <= 0.05; }),
      share([](const auto& s) { return s.unsure <= 0.2; }),
      percentile(lengthU, 0.5) / std::max(1e-9, percentile(lengthOff, 0.95)),
      percentile(widthU, 0.5) / std::max(1e-9, percentile(widthOff, 0.95)));
}

void printCases(const std::map<std::string, Totals>& cases) {
  std::printf("\n%-20s %3s %6s  %6s %5s %6s  %6s %5s %6s  %6s\n", "case (95 % of errors, mm)", "n",
              "failed", "length", "bar", "in ±", "width", "bar", "in ±", "w sur");
  for (const Row& row : kRows) {
    const auto found = cases.find(row.beginning);
    if (found == cases.end()) continue;
    const Totals& t = found->second;
    std::vector<double> lengths, widths;
    double all = 0, inside = 0;
    const bool total = std::string(row.beginning) == "print-scale";
    for (const BoardScore& s : t.scores) {
      lengths.push_back(std::abs(s.length)), widths.push_back(s.width95);
      all += s.widthCount, inside += s.widthsInside;
    }
    std::printf("%-25s %3d %6d  %6.2f %5.1f %4.0f %%  %6.2f %5.1f %4.0f %%  %6d\n", row.beginning,
                t.scenes, t.failed, percentile(lengths, 0.95), row.lengthBarMm,
                100.0 * t.count([total](const BoardScore& s) {
                  return std::abs(s.length) <= (total ? s.lengthUTotal : s.lengthU);
                }) / std::max(1, t.scenes),
                percentile(widths, 0.95), row.widthBarMm, 100 * inside / std::max(1.0, all),
                t.count([](const BoardScore& s) { return s.wrongSure > 0; }));
  }
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
  std::map<std::string, Totals> cases;
  for (const auto& t : truths) scanOne(t.parent_path(), readBoardTruth(t), strips, cases);
  printCases(cases);
  printTotals(cases["all"]);
}
