// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/card_finder.h"

#include <algorithm>
#include <map>
#include <opencv2/calib3d.hpp>

#include "vision/cards/card_growth.h"
#include "vision/cards/code_reader.h"

namespace rackside {
namespace {

constexpr double kAgreeShare = 0.08;  // of a code's diagonal: how well corners are known when small

using CardCodes = std::vector<ReadCode>;

std::map<int, CardCodes> byCardNumber(const std::vector<ReadCode>& codes) {
  std::map<int, CardCodes> cards;
  for (const ReadCode& code : codes)
    if (code.kind == CodeKind::card) cards[cardOfCode(code.id).number].push_back(code);
  for (auto& [number, list] : cards)
    std::stable_sort(list.begin(), list.end(),
                     [](const auto& a, const auto& b) { return a.wrongBits < b.wrongBits; });
  return cards;
}

// One code alone must be read without a fault; of several, one bit in sixteen may be wrong.
bool believed(const CardGrowth& growth) {
  const auto agreement = growth.agreement();
  if (growth.count() < 4 || agreement.codes == 0) return false;
  return agreement.wrongBits <= agreement.codes - 1;
}

bool lieOn(const CardGrowth& growth, const CardModel& card, const ReadCode& code) {
  const PrintedCode& printed = card.codes[static_cast<size_t>(cardOfCode(code.id).codeIndex)];
  const double size = cv::norm(code.cornersPx[0] - code.cornersPx[2]);
  return cv::norm(growth.imageOf(printed.corners[0]) - code.cornersPx[0]) < 0.2 * size;
}

FoundCard foundFrom(const CardGrowth& growth, const CardModel& card) {
  FoundCard found;
  found.number = card.number;
  for (size_t i = 0; i < growth.saddles().size(); ++i)
    if (const auto& fit = growth.saddles()[i])
      found.saddles.push_back({static_cast<int>(i), fit->px, fit->sigmaPx});
  for (const Point& corner : {Point{0, card.heightMm}, Point{card.lengthMm, card.heightMm},
                              Point{card.lengthMm, 0}, Point{0, 0}})
    found.borderPx.push_back(growth.imageOf(corner));
  return found;
}

// The codes that lie on one card with `first`, as far as their corners agree on one picture of it.
CardCodes together(const CardModel& card, const CardCodes& codes, const std::vector<bool>& used,
                   size_t first) {
  std::vector<cv::Point2f> from, to;
  std::vector<size_t> owner;
  for (size_t k = first; k < codes.size(); ++k) {
    if (used[k]) continue;
    const PrintedCode& printed = card.codes[static_cast<size_t>(cardOfCode(codes[k].id).codeIndex)];
    for (size_t i = 0; i < 4; ++i) {
      from.emplace_back(float(printed.corners[i].x), float(printed.corners[i].y));
      to.emplace_back(codes[k].cornersPx[i]);
      owner.push_back(k);
    }
  }
  const double size = cv::norm(codes[first].cornersPx[0] - codes[first].cornersPx[2]);
  cv::Mat inliers;
  if (from.size() > 4) cv::findHomography(from, to, cv::RANSAC, kAgreeShare * size, inliers);
  std::map<size_t, int> agreeing;
  for (size_t i = 0; i < owner.size() && !inliers.empty(); ++i)
    agreeing[owner[i]] += inliers.at<uchar>(static_cast<int>(i)) != 0;
  if (agreeing[first] < 4) return {codes[first]};
  CardCodes out;
  for (const auto& [k, corners] : agreeing)
    if (corners == 4) out.push_back(codes[k]);
  return out;
}

// Each code not yet explained by a card of its number seeds one.
void growCards(const cv::Mat& grey, int number, const CardCodes& codes,
               std::vector<FoundCard>& cards) {
  const CardModel card = cardModel(number);
  std::vector<bool> used(codes.size(), false);
  for (size_t first = 0; first < codes.size(); ++first) {
    if (used[first]) continue;
    CardGrowth growth(grey, card);
    if (!growth.seed(together(card, codes, used, first))) continue;
    growth.grow();
    if (!believed(growth)) continue;
    for (size_t k = first; k < codes.size(); ++k)
      if (lieOn(growth, card, codes[k])) used[k] = true;
    cards.push_back(foundFrom(growth, card));
  }
}

std::vector<FoundTag> tagsOf(const std::vector<ReadCode>& codes) {
  std::vector<FoundTag> tags;
  for (const ReadCode& code : codes) {
    if (code.kind != CodeKind::tag || code.id < 1) continue;
    FoundTag tag;
    tag.number = code.id;
    std::copy(code.cornersPx.begin(), code.cornersPx.end(), tag.cornersPx);
    tags.push_back(tag);
  }
  std::stable_sort(tags.begin(), tags.end(),
                   [](const auto& a, const auto& b) { return a.number < b.number; });
  return tags;
}

}  // namespace

FoundMarkers findMarkers(const cv::Mat& grey) {
  CV_Assert(grey.type() == CV_8UC1);
  FoundMarkers found;
  if (std::min(grey.cols, grey.rows) < 32) return found;
  const std::vector<ReadCode> codes = readCodes(grey);
  for (const auto& [number, list] : byCardNumber(codes)) growCards(grey, number, list, found.cards);
  found.tags = tagsOf(codes);
  return found;
}

}  // namespace rackside
