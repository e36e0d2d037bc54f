// SPDX-License-Identifier: GPL-3.0-or-later
// Scans every photograph of a folder that has a truth beside it (NAME.truth.json, see
// tests/support/scene_truth.h) and prints how far the board is from the truth:
//
//   scan_accuracy_benchmark FOLDER [NAME-BEGINNING] [--faces DIR]
//
// The photographs are rendered; nothing here was measured with a tape.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "core/wood/measure.h"
#include "vision/scan/scan.h"

namespace {

using namespace rackside;
using nlohmann::json;

struct Truth {
  std::string scene;
  std::vector<std::string> files;
  Polygon outline;  // board frame
  double lengthMm = 0, thicknessMm = 0, cardThicknessMm = 0;
  bool onBench = false;
  std::vector<std::pair<double, double>> widths;
};

Polygon polygonOf(const json& j) {
  Polygon p;
  for (const auto& v : j) p.push_back({v[0].get<double>(), v[1].get<double>()});
  return p;
}

Truth readTruth(const std::filesystem::path& file) {
  const json j = json::parse(std::ifstream(file));
  Truth t;
  t.scene = j["scene"];
  for (const auto& p : j["photos"]) t.files.push_back(p["file"]);
  const json& face = j["board"]["faces"][j["seen_face"].get<std::string>()];
  t.outline = polygonOf(face["outline_mm"]);
  t.lengthMm = face["length_mm"];
  for (const auto& w : face["widths"]) t.widths.emplace_back(w["at_mm"], w["width_mm"]);
  t.thicknessMm = j["board"]["thickness_mm"];
  t.cardThicknessMm = j.value("card_thickness_mm", 0.0);
  for (const auto& c : j["cards"]) t.onBench |= c["on"] == "bench";
  return t;
}

struct Score {
  double length = 0, lengthU = 0, width95 = 0, widthWorst = 0, widthU = 0, covered = 0;
  double outlineWorst = 0, unsure = 0, bridged = 0, wrong = 0, wrongSure = 0, seconds = 0;
};

// Farthest the other way is asked too, so that a missed corner shows.
double farthestMiss(const Polygon& from, const Polygon& to) {
  double worst = 0;
  for (size_t i = 0; i < from.size(); ++i) worst = std::max(worst, distanceToBorder(to, from[i]));
  return worst;
}

Score scoreBoard(const Board& board, const Truth& truth) {
  Score s;
  s.length = board.lengthMm.value - truth.lengthMm;
  s.lengthU = board.lengthMm.u95;
  std::vector<double> errors;
  double inside = 0, n = 0, u = 0;
  for (const auto& [at, width] : truth.widths) {
    const auto w = widthAt(board.outline, at);
    if (!w || at > truth.lengthMm - 20) continue;
    errors.push_back(std::abs(w->value - width));
    inside += errors.back() <= w->u95;
    u += w->u95;
    n += 1;
  }
  std::sort(errors.begin(), errors.end());
  if (!errors.empty()) {
    s.width95 = errors[size_t(double(errors.size() - 1) * 0.95)];
    s.widthWorst = errors.back();
    s.covered = inside / n;
    s.widthU = u / n;
  }
  double all = 0;
  const auto& v = board.outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const Point a = v[i].at, b = v[(i + 1) % v.size()].at;
    const double l = norm(b - a);
    const double miss = distanceToBorder(truth.outline, 0.5 * (a + b));
    all += l;
    if (v[i].state == EdgeState::unsure) s.unsure += l;
    if (v[i].state == EdgeState::bridged) s.bridged += l;
    if (miss > 3) s.wrong += l;
    if (miss > 3 && v[i].state == EdgeState::sure) s.wrongSure += l;
  }
  s.outlineWorst = std::max(farthestMiss(board.outline.polygon(), truth.outline),
                            farthestMiss(truth.outline, board.outline.polygon()));
  if (std::getenv("RACKSIDE_WHERE"))
    for (const Point& p : truth.outline)
      if (const double d = distanceToBorder(board.outline.polygon(), p); d > 2.5)
        std::printf("    %.0f %.0f: %.1f\n", p.x, p.y, d);
  for (double* share : {&s.unsure, &s.bridged, &s.wrong, &s.wrongSure}) *share *= 100 / all;
  return s;
}

void drawFace(const ScanResult& r, const Truth& truth, const std::filesystem::path& file) {
  cv::Mat face = r.facePicture.clone();
  const auto& m = r.board.pictures.back().boardFromPicture;
  const auto at = [&](Point p) {
    return cv::Point(int((p.x - m[2]) / m[0]), int((p.y - m[5]) / m[4]));
  };
  std::vector<cv::Point> line;
  for (const Point& p : truth.outline) line.push_back(at(p));
  cv::polylines(face, line, true, {255, 128, 0});
  const auto& v = r.board.outline.vertices;
  for (size_t i = 0; i < v.size(); ++i) {
    const cv::Scalar colour = v[i].state == EdgeState::sure     ? cv::Scalar(0, 255, 0)
                              : v[i].state == EdgeState::unsure ? cv::Scalar(255, 0, 255)
                                                                : cv::Scalar(255, 255, 0);
    cv::line(face, at(v[i].at), at(v[(i + 1) % v.size()].at), colour);
  }
  cv::imwrite(file.string(), face);
}

void scanOne(const std::filesystem::path& folder, const Truth& truth,
             const std::filesystem::path& faces) {
  const auto begin = std::chrono::steady_clock::now();
  std::vector<Photo> photos;
  for (const std::string& f : truth.files) {
    auto photo = readPhoto(folder / f);
    if (!photo) {
      std::printf("%-24s %s\n", truth.scene.c_str(), photo.error().message.c_str());
      return;
    }
    photos.push_back(std::move(*photo));
  }
  ScanOptions options;
  options.name = truth.scene;
  options.thicknessMm = truth.thicknessMm;
  options.cardsOn = truth.onBench ? CardsOn::bench : CardsOn::board;
  options.cardThicknessMm = truth.cardThicknessMm;
  RunControl control;
  auto result = scanFace(photos, options, control);
  if (!result) {
    std::printf("%-24s FAILED: %s\n", truth.scene.c_str(), result.error().message.c_str());
    return;
  }
  Score s = scoreBoard(result->board, truth);
  s.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  std::printf(
      "%-24s %6.2f %5.2f  %5.2f %5.2f %5.2f %4.0f%%  %6.1f  %5.1f %5.1f %5.1f %5.1f  %5.2f\n",
      truth.scene.c_str(), s.length, s.lengthU, s.width95, s.widthWorst, s.widthU, 100 * s.covered,
      s.outlineWorst, s.unsure, s.bridged, s.wrong, s.wrongSure, s.seconds);
  std::fflush(stdout);
  if (!faces.empty()) {
    for (const auto& w : result->warnings) std::printf("    warning: %s\n", w.c_str());
    for (const auto& a : result->advice) std::printf("    advice: %s\n", a.c_str());
    drawFace(*result, truth, faces / (truth.scene + ".png"));
    cv::imwrite((faces / (truth.scene + "-plain.jpg")).string(), result->facePicture);
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::puts("scan_accuracy_benchmark FOLDER [NAME-BEGINNING] [--faces DIR]");
    return 2;
  }
  std::string beginning;
  std::filesystem::path faces;
  for (int i = 2; i < argc; ++i)
    if (std::string(argv[i]) == "--faces" && i + 1 < argc)
      faces = argv[++i];
    else
      beginning = argv[i];
  std::vector<std::filesystem::path> truths;
  for (const auto& e : std::filesystem::directory_iterator(argv[1])) {
    const std::string f = e.path().filename().string();
    if (f.ends_with(".truth.json") && f.starts_with(beginning)) truths.push_back(e.path());
  }
  std::sort(truths.begin(), truths.end());
  std::printf("%-24s %6s %5s  %5s %5s %5s %5s  %6s  %5s %5s %5s %5s  %5s\n", "scene (mm, %)", "dL",
              "±L", "W 95", "W max", "±W", "in ±", "edge", "unsur", "bridg", "wrong", "w sur", "s");
  for (const auto& t : truths) scanOne(argv[1], readTruth(t), faces);
}
