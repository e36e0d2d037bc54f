// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/photo_layout.h"

#include <opencv2/calib3d.hpp>
#include <set>

namespace rackside {

namespace {

// How far the shared cards miss each other under the best view of one plane in the other
// photograph, in lengths of a card. Cards left lying miss by what the lens bends and the
// board bows; between the two it is asked.
constexpr double kSurelySame = 0.05, kSurelyAnew = 0.2;

double worstMiss(const std::vector<cv::Point2d>& from, const std::vector<cv::Point2d>& to) {
  const cv::Mat view = cv::findHomography(from, to);
  if (view.empty()) return 1e9;
  std::vector<cv::Point2d> seen;
  cv::perspectiveTransform(from, seen, view);
  double worst = 0;
  for (size_t i = 0; i < to.size(); ++i) worst = std::max(worst, cv::norm(seen[i] - to[i]));
  return worst;
}

}  // namespace

MarkerLayout layoutOf(const FoundMarkers& markers) {
  MarkerLayout layout;
  std::set<int> twice;
  for (const FoundCard& card : markers.cards) {
    if (card.borderPx.size() != 4) continue;
    std::array<cv::Point2d, 4> corners;
    std::copy(card.borderPx.begin(), card.borderPx.end(), corners.begin());
    if (!layout.cards.emplace(card.number, corners).second) twice.insert(card.number);
  }
  for (const int number : twice) layout.cards.erase(number);
  return layout;
}

// One shared card joins two stretches of a board that otherwise show different cards. (The tag
// tells nothing: along a board photographed in stretches it is moved with the camera.)
SameLayout sameLayout(const MarkerLayout& one, const MarkerLayout& other) {
  const auto& a = one.cards;
  const auto& b = other.cards;
  std::vector<cv::Point2d> from, to;
  double length = 1;
  size_t shared = 0;
  for (const auto& [number, corners] : a) {
    const auto found = b.find(number);
    if (found == b.end()) continue;
    ++shared;
    from.insert(from.end(), corners.begin(), corners.end());
    to.insert(to.end(), found->second.begin(), found->second.end());
    length = std::max(length, cv::norm(found->second[1] - found->second[0]));
  }
  if (shared == 0 || (shared == 1 && (a.size() == 1 || b.size() == 1))) return SameLayout::unknown;
  if (shared == 1) return SameLayout::yes;
  const double miss = worstMiss(from, to) / length;
  return miss < kSurelySame   ? SameLayout::yes
         : miss > kSurelyAnew ? SameLayout::no
                              : SameLayout::unknown;
}

}  // namespace rackside
