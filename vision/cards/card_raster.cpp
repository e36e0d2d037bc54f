// SPDX-License-Identifier: GPL-3.0-or-later
// Cards and tags as pictures.
#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "vision/cards/card_model.h"

namespace rackside {
namespace {

// Ink coverage in 0..1, one value a pixel.
class Sheet {
 public:
  Sheet(double widthMm, double heightMm, double pxPerMm)
      : heightMm_(heightMm),
        pxPerMm_(pxPerMm),
        ink_(std::max(1, cvRound(heightMm * pxPerMm)), std::max(1, cvRound(widthMm * pxPerMm)),
             CV_32F, cv::Scalar(0)) {}

  void fill(const Rect& mm) {
    const double x0 = mm.x0 * pxPerMm_, x1 = mm.x1 * pxPerMm_;
    const double y0 = (heightMm_ - mm.y1) * pxPerMm_, y1 = (heightMm_ - mm.y0) * pxPerMm_;
    const int rowEnd = std::min(ink_.rows, static_cast<int>(std::ceil(y1)));
    const int colEnd = std::min(ink_.cols, static_cast<int>(std::ceil(x1)));
    for (int r = std::max(0, static_cast<int>(y0)); r < rowEnd; ++r) {
      const double high = overlap(y0, y1, r);
      for (int c = std::max(0, static_cast<int>(x0)); c < colEnd; ++c)
        ink_.at<float>(r, c) += static_cast<float>(high * overlap(x0, x1, c));
    }
  }

  void write(const PrintedText& text) {
    const cv::Mat letters = lettersFor(text.box);
    cv::Mat mask(letters.size(), CV_8U, cv::Scalar(0));
    drawFitted(mask, text.text);
    cv::Rect target(cvRound(text.box.x0 * pxPerMm_), cvRound((heightMm_ - text.box.y1) * pxPerMm_),
                    std::max(1, cvRound(text.box.width() * pxPerMm_)),
                    std::max(1, cvRound(text.box.height() * pxPerMm_)));
    target &= cv::Rect(0, 0, ink_.cols, ink_.rows);
    if (target.empty()) return;
    cv::Mat small, coverage;
    cv::resize(mask, small, target.size(), 0, 0, cv::INTER_AREA);
    small.convertTo(coverage, CV_32F, 1 / 255.0);
    ink_(target) += coverage;
  }

  cv::Mat picture() const {
    cv::Mat grey;
    ink_.convertTo(grey, CV_8U, -255.0, 255.0);
    return grey;
  }

 private:
  static double overlap(double from, double to, int pixel) {
    return std::max(0.0, std::min(to, pixel + 1.0) - std::max(from, static_cast<double>(pixel)));
  }
  // A canvas fine enough to draw letters on: at least 20 px a mm.
  static cv::Mat lettersFor(const Rect& box) {
    const double fine = 20;
    return cv::Mat(cvRound(box.height() * fine), cvRound(box.width() * fine), CV_8U);
  }
  static void drawFitted(cv::Mat& mask, const std::string& text) {
    const int font = cv::FONT_HERSHEY_SIMPLEX;
    int baseline = 0;
    const int thickness = std::max(2, mask.rows / 8);
    const cv::Size unit = cv::getTextSize(text, font, 1.0, 1, &baseline);
    const bool digits = text.find_first_not_of("0123456789") == std::string::npos;
    const int below = digits ? 0 : baseline;  // digits have no descenders
    const double scale = std::min((mask.cols - 2.0 * thickness) / unit.width,
                                  (mask.rows - 2.0 * thickness) / (unit.height + below));
    const cv::Point at(cvRound((mask.cols - scale * unit.width) / 2),
                       cvRound((mask.rows + scale * (unit.height - below)) / 2));
    cv::putText(mask, text, at, font, scale, cv::Scalar(255), thickness, cv::LINE_AA);
  }

  double heightMm_, pxPerMm_;
  cv::Mat ink_;
};

}  // namespace

cv::Mat drawCard(const CardModel& card, double pxPerMm) {
  Sheet sheet(card.lengthMm, card.heightMm, pxPerMm);
  for (const Rect& r : card.ink) sheet.fill(r);
  for (const CheckBar& bar : card.bars)
    for (const Rect& r : bar.ink()) sheet.fill(r);
  for (const PrintedText& text : card.texts) sheet.write(text);
  return sheet.picture();
}

cv::Mat drawTag(const TagModel& tag, double pxPerMm) {
  Sheet sheet(tag.sizeMm, tag.heightMm, pxPerMm);
  for (const Rect& r : tag.ink) sheet.fill(r);
  for (const PrintedText& text : tag.texts) sheet.write(text);
  return sheet.picture();
}

}  // namespace rackside
