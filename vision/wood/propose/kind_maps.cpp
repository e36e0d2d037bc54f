// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/kind_maps.h"

#include <algorithm>
#include <opencv2/dnn.hpp>
#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr int kTileCols = 1536, kTileRows = 640;  // of the picture, without the overlap
constexpr int kReachPx = 64;                      // farther than this little is drawn from
constexpr int kFramePx = 16;                      // at least so much, both sides together
constexpr int kStep = 32;                         // the network's sizes are multiples of this
constexpr float kBrightest = 1.6F;                // as it was learned
constexpr double kDarkestMedian = 8;              // of 255

int raisedTo(int step, int n) {
  return (n + step - 1) / step * step;
}

// Even, so that the answer's half-size grid stays that of the picture.
int before(int length) {
  return (raisedTo(kStep, length + kFramePx) - length) / 4 * 2;
}

// One tile as the network takes it: in a frame of mirrored wood, each colour divided by its median.
cv::Mat blobOf(const cv::Mat& tile, const cv::Vec3d& median, double evened) {
  cv::Mat framed, scaled;
  const int top = before(tile.rows), left = before(tile.cols);
  cv::copyMakeBorder(tile, framed, top, raisedTo(kStep, tile.rows + kFramePx) - tile.rows - top,
                     left, raisedTo(kStep, tile.cols + kFramePx) - tile.cols - left,
                     cv::BORDER_REFLECT);
  framed.convertTo(scaled, CV_32F);
  cv::multiply(scaled, cv::Scalar(evened / median[0], evened / median[1], evened / median[2]),
               scaled);
  cv::min(scaled, cv::Scalar::all(kBrightest), scaled);
  scaled -= cv::Scalar::all(evened);
  return cv::dnn::blobFromImage(scaled);
}

// Odds of each kind to probabilities, in place.
void softmax(std::array<cv::Mat, kRegionKinds>& odds) {
  cv::Mat most = odds[0].clone(), sum;
  for (const cv::Mat& m : odds) cv::max(most, m, most);
  for (cv::Mat& m : odds) {
    cv::subtract(m, most, m);
    cv::exp(m, m);
    if (sum.empty()) {
      sum = m.clone();
    } else {
      sum += m;
    }
  }
  for (cv::Mat& m : odds) cv::divide(m, sum, m);
}

struct Span {
  int from = 0, to = 0;          // what the tile answers for
  int seenFrom = 0, seenTo = 0;  // what it looks at
};

std::vector<Span> spans(int length, int tile) {
  const int count = std::max(1, (length + tile - 1) / tile);
  const int each = raisedTo(2, (length + count - 1) / count);
  std::vector<Span> out;
  for (int from = 0; from < length; from += each) {
    const int to = std::min(length, from + each);
    out.push_back({from, to, std::max(0, from - kReachPx), std::min(length, to + kReachPx)});
  }
  return out;
}

}  // namespace

cv::Vec3d medianOfWood(const cv::Mat& bgr, const cv::Mat& wood) {
  int counts[3][256] = {}, all = 0;
  for (int y = 0; y < bgr.rows; y += 2) {
    const auto* row = bgr.ptr<cv::Vec3b>(y);
    const auto* on = wood.ptr<uint8_t>(y);
    for (int x = 0; x < bgr.cols; x += 2) {
      if (!on[x]) continue;
      ++all;
      for (int k = 0; k < 3; ++k) ++counts[k][row[x][k]];
    }
  }
  cv::Vec3d median(128, 128, 128);
  for (int k = 0; k < 3 && all > 0; ++k) {
    int sum = 0, v = 0;
    while (v < 255 && (sum += counts[k][v]) * 2 < all) ++v;
    median[k] = std::max<double>(v, kDarkestMedian);
  }
  return median;
}

KindMaps kindMaps(const MarkModel& model, const cv::Mat& bgr, const cv::Mat& wood,
                  RunControl& run) {
  const cv::Size half((bgr.cols + 1) / 2, (bgr.rows + 1) / 2);
  KindMaps maps;
  for (cv::Mat& m : maps) m = cv::Mat::zeros(half, CV_32F);
  const cv::Vec3d median = medianOfWood(bgr, wood);
  cv::dnn::Net net =
      cv::dnn::readNetFromONNX(reinterpret_cast<const char*>(model.onnx.data()), model.onnx.size());
  const std::vector<Span> across = spans(bgr.rows, kTileRows), along = spans(bgr.cols, kTileCols);
  const double tiles = double(across.size() * along.size());
  int seenTiles = 0;
  for (const Span& sx : along)
    for (const Span& sy : across) {
      if (run.shouldEnd()) return maps;
      run.report(seenTiles++ / tiles, "looking for marks");
      const cv::Rect seen(sx.seenFrom, sy.seenFrom, sx.seenTo - sx.seenFrom,
                          sy.seenTo - sy.seenFrom);
      if (cv::countNonZero(wood(seen)) == 0) continue;
      net.setInput(blobOf(bgr(seen), median, model.evenedMedian));
      const cv::Mat answer = net.forward();
      const int rows = answer.size[2], cols = answer.size[3];
      const cv::Rect kept(sx.from / 2, sy.from / 2, (sx.to + 1) / 2 - sx.from / 2,
                          (sy.to + 1) / 2 - sy.from / 2);
      const cv::Rect within(kept.x - (sx.seenFrom - before(seen.width)) / 2,
                            kept.y - (sy.seenFrom - before(seen.height)) / 2, kept.width,
                            kept.height);
      KindMaps tile;
      for (int k = 0; k < kRegionKinds; ++k)
        tile[size_t(k)] =
            cv::Mat(rows, cols, CV_32F, const_cast<float*>(answer.ptr<float>(0, k)))(within)
                .clone();
      softmax(tile);
      for (size_t k = 0; k < tile.size(); ++k) tile[k].copyTo(maps[k](kept));
    }
  cv::Mat bare;
  cv::resize(wood, bare, half, 0, 0, cv::INTER_AREA);
  for (cv::Mat& m : maps) m.setTo(0, bare < 128);
  return maps;
}

}  // namespace rackside
