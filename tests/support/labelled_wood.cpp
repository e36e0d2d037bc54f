// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/labelled_wood.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

namespace rackside::test {
namespace {

constexpr int kRun = 6;         // so many bright pixels in a row begin the wood
constexpr int kBorderPx = 3;    // a bright run this close to the border: the wood goes on
constexpr double kInsetPx = 3;  // the arris itself is left out

std::string maskName(const std::string& name) {
  return name.substr(0, name.size() - 4) + "_l.png";
}

int firstRun(const cv::Mat& line) {
  int run = 0;
  for (int i = 0; i < line.cols; ++i) {
    run = line.at<uint8_t>(0, i) ? run + 1 : 0;
    if (run == kRun) return i - kRun + 1;
  }
  return -1;
}

// Blacks out what lies above the straight line through the first bright pixel of each column.
void cutAboveFirstRun(const cv::Mat& bright, cv::Mat& wood) {
  std::vector<cv::Point2f> edge;
  std::vector<int> firsts;
  for (int x = 0; x < bright.cols; ++x) {
    const int y = firstRun(bright.col(x).t());
    if (y < 0) continue;
    edge.emplace_back(static_cast<float>(x), static_cast<float>(y));
    firsts.push_back(y);
  }
  if (edge.size() < 20) return;
  std::nth_element(firsts.begin(), firsts.begin() + static_cast<long>(firsts.size() / 2),
                   firsts.end());
  if (firsts[firsts.size() / 2] <= kBorderPx) return;
  cv::Vec4f line;
  cv::fitLine(edge, line, cv::DIST_WELSCH, 3, 0.01, 0.01);
  for (int x = 0; x < wood.cols; ++x) {
    const double y = line[3] + (static_cast<double>(x) - line[2]) * line[1] / line[0] + kInsetPx;
    const int to = std::clamp(static_cast<int>(std::ceil(y)), 0, wood.rows);
    if (to > 0) wood.col(x).rowRange(0, to).setTo(0);
  }
}

cv::Mat woodMask(const cv::Mat& bgr) {
  cv::Mat channels[3], brightest, bright;
  cv::split(bgr, channels);
  brightest = cv::max(cv::max(channels[0], channels[1]), channels[2]);
  cv::GaussianBlur(brightest, brightest, {}, 1.5);
  cv::threshold(brightest, bright, 70, 255, cv::THRESH_BINARY);
  cv::Mat wood(bgr.size(), CV_8U, cv::Scalar(255));
  for (int turn = 0; turn < 4; ++turn) {
    cutAboveFirstRun(bright, wood);
    cv::rotate(bright.clone(), bright, cv::ROTATE_90_CLOCKWISE);
    cv::rotate(wood.clone(), wood, cv::ROTATE_90_CLOCKWISE);
  }
  return wood;
}

}  // namespace

std::optional<std::filesystem::path> woodSurfaceFolder() {
  const char* folder = std::getenv("RACKSIDE_WOOD_SURFACE");
  if (!folder || !std::filesystem::exists(std::filesystem::path(folder) / "index.csv"))
    return std::nullopt;
  return folder;
}

std::vector<std::string> woodSurfaceNames(const std::filesystem::path& folder) {
  std::ifstream in(folder / "index.csv");
  std::vector<std::string> names;
  for (std::string line; std::getline(in, line);)
    if (line.find(".jpg,") != std::string::npos) names.push_back(line.substr(0, line.find(',')));
  std::sort(names.begin(), names.end());
  return names;
}

LabelledWood loadLabelledWood(const std::filesystem::path& folder, const std::string& name) {
  LabelledWood out;
  out.name = name;
  const cv::Mat bgr = cv::imread((folder / "images" / name).string());
  const cv::Mat labels =
      cv::imread((folder / "masks" / maskName(name)).string(), cv::IMREAD_GRAYSCALE);
  if (bgr.empty() || labels.size() != bgr.size())
    throw std::runtime_error("No picture, or no mask of its size: " + name);
  cv::transpose(bgr, out.bgr);
  cv::transpose(labels, out.labels);
  out.wood = woodMask(out.bgr);
  return out;
}

std::vector<LabelRegion> labelRegions(const cv::Mat& labels, double leastPx) {
  std::vector<LabelRegion> out;
  double most = 0;
  cv::minMaxLoc(labels, nullptr, &most);
  for (int label = 1; label <= static_cast<int>(most); ++label) {
    cv::Mat pieces, stats, middles;
    const int count = cv::connectedComponentsWithStats(labels == label, pieces, stats, middles, 8);
    for (int i = 1; i < count; ++i) {
      LabelRegion r;
      r.label = label;
      r.areaPx = stats.at<int>(i, cv::CC_STAT_AREA);
      if (r.areaPx < leastPx) continue;
      r.box = {stats.at<int>(i, cv::CC_STAT_LEFT), stats.at<int>(i, cv::CC_STAT_TOP),
               stats.at<int>(i, cv::CC_STAT_WIDTH), stats.at<int>(i, cv::CC_STAT_HEIGHT)};
      r.mask = pieces(r.box) == i;
      r.middle = {middles.at<double>(i, 0), middles.at<double>(i, 1)};
      out.push_back(std::move(r));
    }
  }
  return out;
}

LabelledWood halved(const LabelledWood& full) {
  LabelledWood out;
  out.name = full.name;
  cv::resize(full.bgr, out.bgr, {}, 0.5, 0.5, cv::INTER_AREA);
  cv::resize(full.labels, out.labels, out.bgr.size(), 0, 0, cv::INTER_NEAREST);
  cv::resize(full.wood, out.wood, out.bgr.size(), 0, 0, cv::INTER_NEAREST);
  return out;
}

}  // namespace rackside::test
