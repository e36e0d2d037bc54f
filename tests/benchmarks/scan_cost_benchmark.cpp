// SPDX-License-Identifier: GPL-3.0-or-later
// What one scan costs, as a whole process with its start and its writing, beside a reference that
// only decodes the photograph, detects the markers and warps once to a picture of the same size:
//
//   scan_cost_benchmark PHOTO… [--runs N]
//
// PHOTO… are the photographs of one board. Prints medians of N (7) runs in turn, their ratio and
// the greatest memory; then the same photographs with twice the pixels each way, once.
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <opencv2/aruco.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "tests/core/support/temporary_folder.h"

namespace {

using rackside::tests::TemporaryFolder;
namespace fs = std::filesystem;
using Words = std::vector<std::string>;

struct Cost {
  double seconds = 0, memoryMb = 0;
  bool done = false;
};

Cost costOf(const Words& command) {
  std::vector<char*> words;
  words.reserve(command.size() + 1);
  for (const std::string& w : command) words.push_back(const_cast<char*>(w.c_str()));
  words.push_back(nullptr);
  const auto begin = std::chrono::steady_clock::now();
  std::fflush(stdout);  // or the child would print it again
  const pid_t child = fork();
  if (child == 0) {
    if (!std::freopen("/dev/null", "w", stdout) || !std::freopen("/dev/null", "w", stderr))
      _exit(126);
    execv(words[0], words.data());
    _exit(127);
  }
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
  return {took.count(), double(used.ru_maxrss) / 1024, WIFEXITED(status) && !WEXITSTATUS(status)};
}

Cost median(std::vector<Cost> costs) {
  std::sort(costs.begin(), costs.end(),
            [](const Cost& a, const Cost& b) { return a.seconds < b.seconds; });
  Cost c = costs[costs.size() / 2];
  for (const Cost& each : costs)
    c.memoryMb = std::max(c.memoryMb, each.memoryMb), c.done &= each.done;
  return c;
}

Words scanOf(const Words& photos, const fs::path& rack) {
  fs::remove_all(rack);
  Words command{RACKSIDE_PROGRAM, "scan"};
  command.insert(command.end(), photos.begin(), photos.end());
  for (const std::string& w :
       Words{"--rack", rack.string(), "--thickness", "27mm", "--name", "one"})
    command.push_back(w);
  return command;
}

// The largest picture that the scan wrote.
cv::Size facePicture(const fs::path& rack) {
  cv::Size largest;
  for (const auto& e : fs::recursive_directory_iterator(rack)) {
    if (!e.is_regular_file() || !cv::haveImageReader(e.path().string())) continue;
    const cv::Size size = cv::imread(e.path().string(), cv::IMREAD_REDUCED_COLOR_8).size() * 8;
    if (size.area() > largest.area()) largest = size;
  }
  return largest;
}

// The reference. Markers of the cards' own dictionary, searched for in windows of few sizes.
int decodeDetectWarp(const std::string& photo, cv::Size size, const std::string& to) {
  const cv::Mat picture = cv::imread(photo);
  auto parameters = cv::aruco::DetectorParameters::create();
  parameters->adaptiveThreshWinSizeMin = parameters->adaptiveThreshWinSizeMax = 23;
  parameters->minMarkerPerimeterRate = 0.01;
  std::vector<std::vector<cv::Point2f>> corners;
  std::vector<int> ids;
  cv::aruco::detectMarkers(picture, cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_250),
                           corners, ids, parameters);
  if (ids.empty()) return 1;
  // A slight perspective; which one makes no difference to the time.
  const float w = float(picture.cols), h = float(picture.rows);
  const std::vector<cv::Point2f> from{{0.02F * w, 0}, {w, 0}, {0.98F * w, h}, {0, h}};
  const std::vector<cv::Point2f> onto{{0, 0},
                                      {float(size.width), 0},
                                      {float(size.width), float(size.height)},
                                      {0, float(size.height)}};
  cv::Mat face;
  cv::warpPerspective(picture, face, cv::getPerspectiveTransform(from, onto), size);
  return cv::imwrite(to, face) ? 0 : 1;
}

Words enlarged(const Words& photos, const fs::path& folder) {
  Words files;
  files.reserve(photos.size());
  for (const std::string& photo : photos) {
    cv::Mat picture = cv::imread(photo);
    cv::resize(picture, picture, {}, 2, 2, cv::INTER_CUBIC);
    files.push_back((folder / fs::path(photo).filename()).string());
    cv::imwrite(files.back(), picture);
  }
  return files;
}

void print(const char* what, const Cost& c) {
  std::printf("%-42s %6.2f s %6.0f MB%s\n", what, c.seconds, c.memoryMb, c.done ? "" : "  FAILED");
}

}  // namespace

int main(int argc, char** argv) {
  Words photos;
  int runs = 7;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word == "--only-warp" && i + 4 < argc)
      return decodeDetectWarp(argv[i + 1], {std::stoi(argv[i + 2]), std::stoi(argv[i + 3])},
                              argv[i + 4]);
    if (word == "--runs" && i + 1 < argc)
      runs = std::max(1, std::stoi(argv[++i]));
    else
      photos.push_back(word);
  }
  if (photos.empty()) {
    std::puts("scan_cost_benchmark PHOTO… [--runs N]");
    return 2;
  }
  const TemporaryFolder folder;
  const fs::path rack = folder.path() / "rack";
  std::vector<Cost> scans, references;
  for (int i = 0; i < runs; ++i) {
    scans.push_back(costOf(scanOf(photos, rack)));
    const cv::Size size = facePicture(rack);
    references.push_back(
        costOf({fs::canonical("/proc/self/exe").string(), "--only-warp", photos.front(),
                std::to_string(size.width), std::to_string(size.height),
                (folder.path() / "face.jpg").string()}));
  }
  const Cost scan = median(scans), reference = median(references);
  std::printf("%zu photograph(s), medians of %d runs, greatest memory\n", photos.size(), runs);
  print("scan", scan);
  print("decode, detect markers, warp once (one)", reference);
  std::printf("%-42s %6.2f\n", "ratio", scan.seconds / std::max(1e-9, reference.seconds));
  print("scan, twice the pixels each way, once",
        costOf(scanOf(enlarged(photos, folder.path()), rack)));
}
