// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/card_model.h"

#include <opencv2/aruco.hpp>
#include <stdexcept>

namespace rackside {
namespace {

// Sizes in mm. The module of 4 mm is 5 px at 0.8 mm a pixel, and still 4.3 px at 30° tilt. A quiet
// module of white on every side of a code keeps its contour apart from the fields around it. Three
// strips of 64 mm take 192 mm, which fits the short side of A4 (210) and of Letter (215.9).
constexpr double kModuleMm = 4;
constexpr double kCodeMm = kModuleMm * (kCardCodeBits + 2);
constexpr double kCodeFieldMm = kCodeMm + 2 * kModuleMm;  // the white square a code stands in
constexpr double kPlainColumnMm = 13;
constexpr double kOuterRowMm = 9;
constexpr double kEndBorderMm = 6;   // white, left and right
constexpr double kSideBorderMm = 7;  // white, above and below; holds the bars and the text
constexpr int kCodesPerCard = 5;

constexpr double kTagModuleMm = 4;
constexpr double kTagCodeMm = kTagModuleMm * (kTagCodeBits + 2);
constexpr double kTagTextMm = 10;

// The library's predefined sets. 4×4: distance 3 bits over all turns between the 200 codes in use,
// and a card is only believed when its whole pattern agrees (card_finder). 6×6 for the tags, which
// have nothing but their code to be checked by: distance 9 bits.
const cv::aruco::Dictionary& cardDictionary() {
  static const auto held = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_250);
  return *held;
}
const cv::aruco::Dictionary& tagDictionary() {
  static const auto held = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_6X6_1000);
  return *held;
}

cv::Mat modulesOf(const cv::aruco::Dictionary& dictionary, int id, int bits) {
  cv::Mat modules;
  dictionary.drawMarker(id, bits + 2, modules, 1);
  return modules;
}

// Runs of black modules along each row, as rectangles; `left`, `top` is the code's upper left.
void addCodeInk(const cv::Mat& modules, double left, double top, double moduleMm,
                std::vector<Rect>& ink) {
  for (int r = 0; r < modules.rows; ++r) {
    const double y1 = top - r * moduleMm;
    for (int c = 0; c < modules.cols;) {
      const int start = c;
      while (c < modules.cols && modules.at<uchar>(r, c) == 0) ++c;
      if (c > start)
        ink.push_back({left + start * moduleMm, y1 - moduleMm, left + c * moduleMm, y1});
      else
        ++c;
    }
  }
}

PrintedCode codeAt(int id, double left, double top, double sizeMm) {
  return {id,
          {{left, top}, {left + sizeMm, top}, {left + sizeMm, top - sizeMm}, {left, top - sizeMm}}};
}

void addFields(CardModel& card) {
  card.columnsAt = {kEndBorderMm};
  for (int i = 0; i < kCodesPerCard; ++i) {
    card.columnsAt.push_back(card.columnsAt.back() + kPlainColumnMm);
    card.columnsAt.push_back(card.columnsAt.back() + kCodeFieldMm);
  }
  card.columnsAt.push_back(card.columnsAt.back() + kPlainColumnMm);
  const double y0 = kSideBorderMm;
  card.rowsAt = {y0, y0 + kOuterRowMm, y0 + kOuterRowMm + kCodeFieldMm,
                 y0 + 2 * kOuterRowMm + kCodeFieldMm};
  card.lengthMm = card.columnsAt.back() + kEndBorderMm;
  card.heightMm = card.rowsAt.back() + kSideBorderMm;
  for (size_t r = 0; r + 1 < card.rowsAt.size(); ++r)
    for (size_t c = 0; c + 1 < card.columnsAt.size(); ++c)
      if ((r + c) % 2 == 1)
        card.ink.push_back(
            {card.columnsAt[c], card.rowsAt[r], card.columnsAt[c + 1], card.rowsAt[r + 1]});
  for (size_t r = 1; r + 1 < card.rowsAt.size(); ++r)
    for (size_t c = 1; c + 1 < card.columnsAt.size(); ++c)
      card.saddles.push_back({card.columnsAt[c], card.rowsAt[r]});
}

void addCodes(CardModel& card) {
  for (int i = 0; i < kCodesPerCard; ++i) {
    const int id = (card.number - 1) * kCodesPerCard + i;
    const double left = card.columnsAt[1 + 2 * static_cast<size_t>(i)] + kModuleMm;
    const double top = card.rowsAt[2] - kModuleMm;
    card.codes.push_back(codeAt(id, left, top, kCodeMm));
    addCodeInk(cardCodeModules(id), left, top, kModuleMm, card.ink);
  }
}

// A millimetre bar below, an inch bar above, both in the white border, and the number at both ends.
void addPrint(CardModel& card) {
  const double middle = card.lengthMm / 2, top = card.heightMm;
  const std::string number = std::to_string(card.number);
  const double eightInches = 8 * 25.4;
  card.bars.push_back({{{middle - 100, 1.4}, {middle + 100, 1.4}}, 50, 1.8, 0.3});
  card.bars.push_back(
      {{{middle - eightInches / 2, top - 1.4}, {middle + eightInches / 2, top - 1.4}},
       2 * 25.4,
       -1.8,
       0.3});
  card.texts.push_back({"card " + number + "   250 x 64 mm   check: the bar below is 200 mm long",
                        {middle - 100, 3.7, middle + 100, 6.1}});
  card.texts.push_back({"card " + number + "   9.84 x 2.52 in   check: the bar above is 8 in long",
                        {middle - 100, top - 6.1, middle + 100, top - 3.7}});
  card.texts.push_back({number, {2.5, top - 11.5, 16, top - 2.5}});
  card.texts.push_back({number, {card.lengthMm - 16, top - 11.5, card.lengthMm - 2.5, top - 2.5}});
}

void require(int number, int largest, const char* what) {
  if (number < 1 || number > largest)
    throw std::logic_error(std::string(what) + " number out of range: " + std::to_string(number));
}

}  // namespace

std::vector<Rect> CheckBar::ink() const {
  const double half = thicknessMm / 2;
  std::vector<Rect> rects = {
      {line.from.x - half, line.from.y - half, line.to.x + half, line.from.y + half}};
  const double low = tickMm > 0 ? line.from.y + half : line.from.y + tickMm;
  const double high = tickMm > 0 ? line.from.y + tickMm : line.from.y - half;
  const int steps = static_cast<int>(line.length() / stepMm + 0.5);
  for (int i = 0; i <= steps; ++i) {
    const double x = line.from.x + line.length() * i / steps;
    rects.push_back({x - half, low, x + half, high});
  }
  return rects;
}

cv::Mat cardCodeModules(int id) {
  return modulesOf(cardDictionary(), id, kCardCodeBits);
}
cv::Mat tagCodeModules(int id) {
  return modulesOf(tagDictionary(), id, kTagCodeBits);
}
int cardCodeCount() {
  return kLargestCardNumber * kCodesPerCard;
}
int tagCodeCount() {
  return kLargestTagNumber + 1;  // the id is the number; 0 is not printed
}
CodeOwner cardOfCode(int id) {
  return {id / kCodesPerCard + 1, id % kCodesPerCard};
}

CardModel cardModel(int number) {
  require(number, kLargestCardNumber, "card");
  CardModel card;
  card.number = number;
  card.moduleMm = kModuleMm;
  addFields(card);
  addCodes(card);
  addPrint(card);
  return card;
}

TagModel tagModel(int number) {
  require(number, kLargestTagNumber, "tag");
  TagModel tag;
  tag.number = number;
  tag.moduleMm = kTagModuleMm;
  tag.sizeMm = kTagCodeMm + 2 * kTagModuleMm;
  tag.heightMm = tag.sizeMm + kTagTextMm;
  const double left = kTagModuleMm, top = tag.heightMm - kTagModuleMm;
  tag.code = codeAt(number, left, top, kTagCodeMm);
  addCodeInk(tagCodeModules(number), left, top, kTagModuleMm, tag.ink);
  tag.texts.push_back({std::to_string(number), {4, 2, tag.sizeMm - 4, kTagTextMm}});
  return tag;
}

}  // namespace rackside
