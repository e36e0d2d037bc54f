// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/wood_model.h"

#include <opencv2/imgproc.hpp>

namespace rackside {
namespace {

constexpr int kClusters = 4;
constexpr size_t kFewest = 60;       // samples below which nothing is learned
constexpr size_t kMost = 3000;       // samples beyond which nothing is gained
constexpr double kNoiseVar = 9;      // (3 Lab steps)²: a floor, so that no cluster is a spike
constexpr double kUnknownLog = -17;  // log density of a colour that nobody knows
// Much darker than the darker parts of the wood is bark or deep shadow, whatever its hue.
constexpr double kBarkShare = 0.72, kBarkPerLight = 0.15;
constexpr float kUsualLight = 76, kLightSay = 0.3f;
// Light in a shadow, as the eye steps it: 0.8 is half of the linear light, 0.6 a fifth.
constexpr float kShadowLights[] = {0.8f, 0.6f};
constexpr double kShadowLog = -1.5;            // a shadow is a guess
constexpr double kPalest = 225, kPaleHue = 6;  // Lab, 8-bit
constexpr double kPaleLog = -2;                // sapwood is a guess too
constexpr float kLimit = 3, kTextureLimit = 1;
// Wood and its surroundings are never gaudy: the table spends its steps on ±48 about neutral.
constexpr double kChromaFirst = 80, kChromaStep = 3, kLightStep = 8;

// Light scales L* + 16, a* and b* alike (by its cube root, CIE 1976), so their ratio stays when a
// shadow falls on a surface; lightness itself keeps a small say.
cv::Vec3f shadeless(const cv::Vec3f& lab) {
  const float scale = kUsualLight / (lab[0] * 100 / 255 + 16);
  return {kLightSay * lab[0], 128 + (lab[1] - 128) * scale, 128 + (lab[2] - 128) * scale};
}

struct Cluster {
  cv::Vec3d mean;
  cv::Matx33d inverse;
  double logScale = 0;
};

std::vector<cv::Vec3f> thinned(const std::vector<WoodSample>& all) {
  std::vector<cv::Vec3f> some;
  const size_t wanted = std::min(all.size(), kMost);
  some.reserve(wanted);
  for (size_t i = 0; i < wanted; ++i) some.push_back(shadeless(all[i * all.size() / wanted].lab));
  return some;
}

Cluster describe(const std::vector<cv::Vec3f>& samples, const cv::Mat& labels, int which,
                 size_t total) {
  Cluster c;
  cv::Matx33d spread = cv::Matx33d::zeros();
  double n = 0;
  for (size_t i = 0; i < samples.size(); ++i)
    if (labels.at<int>(int(i)) == which) c.mean += cv::Vec3d(samples[i]), ++n;
  n = std::max(1.0, n);
  c.mean /= n;
  for (size_t i = 0; i < samples.size(); ++i)
    if (labels.at<int>(int(i)) == which) {
      const cv::Vec3d d = cv::Vec3d(samples[i]) - c.mean;
      spread += d * d.t();
    }
  spread = spread * (1 / n) + cv::Matx33d::eye() * kNoiseVar;
  c.inverse = spread.inv();
  c.logScale = std::log(n / double(total)) - 0.5 * std::log(cv::determinant(spread)) - 2.757;
  return c;
}

// The lightness (8-bit) below which an eighth of the samples lies.
double lowLight(const std::vector<WoodSample>& all) {
  std::vector<float> light;
  light.reserve(all.size());
  for (const WoodSample& s : all) light.push_back(s.lab[0]);
  const auto low = light.begin() + std::ptrdiff_t(light.size() / 8);
  std::nth_element(light.begin(), low, light.end());
  return *low;
}

// The same ground in the board's shadow, as it may lie anywhere about it.
std::vector<WoodSample> shadowed(const std::vector<WoodSample>& all) {
  std::vector<WoodSample> out;
  for (const float share : kShadowLights)
    for (WoodSample s : all) {
      const float from = s.lab[0] * 100 / 255 + 16, to = share * from;
      s.lab = {std::max(0.0f, (to - 16) * 2.55f), 128 + (s.lab[1] - 128) * share,
               128 + (s.lab[2] - 128) * share};
      out.push_back(s);
    }
  return out;
}

std::vector<Cluster> mixture(const std::vector<WoodSample>& all) {
  const std::vector<cv::Vec3f> samples = thinned(all);
  cv::Mat labels;
  cv::theRNG().state = 12345;  // the same photographs give the same board
  cv::kmeans(cv::Mat(int(samples.size()), 3, CV_32F, const_cast<cv::Vec3f*>(samples.data())),
             kClusters, labels, {cv::TermCriteria::COUNT, 8, 0}, 1, cv::KMEANS_PP_CENTERS);
  std::vector<Cluster> clusters;
  clusters.reserve(kClusters + 1);
  for (int k = 0; k < kClusters; ++k)
    clusters.push_back(describe(samples, labels, k, samples.size()));
  return clusters;
}

// Sapwood that no sample shows: lighter than the wood known, of about its hue (which shadeless()
// keeps alike for heart and sap of one species; from rendered and photographed walnut and cherry).
Cluster paleWood(const std::vector<WoodSample>& wood) {
  const std::vector<cv::Vec3f> samples = thinned(wood);
  Cluster c;
  for (const cv::Vec3f& s : samples) c.mean += cv::Vec3d(s) * (1.0 / double(samples.size()));
  c.mean[0] = (c.mean[0] + kLightSay * kPalest) / 2;
  const double light = kLightSay * kPalest - c.mean[0];
  const cv::Vec3d sigma{std::max(2.0, light), kPaleHue, kPaleHue};
  for (int i = 0; i < 3; ++i) {
    c.inverse(i, i) = 1 / (sigma[i] * sigma[i]);
    c.logScale -= std::log(sigma[i]);
  }
  c.logScale += kPaleLog - 2.757;
  return c;
}

double logDensity(const std::vector<Cluster>& clusters, const cv::Vec3d& lab) {
  double best = kUnknownLog;
  for (const Cluster& c : clusters) {
    const cv::Vec3d d = lab - c.mean;
    best = std::max(best, c.logScale - 0.5 * d.dot(c.inverse * d));
  }
  return best;
}

// A smoothed histogram of texture, as probabilities.
std::vector<double> textureHistogram(const std::vector<WoodSample>& all, int bits) {
  const int n = 1 << bits;
  cv::Mat bins = cv::Mat::zeros(n, n, CV_64F);
  for (const WoodSample& s : all)
    bins.at<double>(s.texture[0] >> (8 - bits), s.texture[1] >> (8 - bits)) +=
        1.0 / double(all.size());
  cv::GaussianBlur(bins, bins, {5, 5}, 1.0, 1.0, cv::BORDER_REPLICATE);
  std::vector<double> out;
  out.reserve(size_t(n) * size_t(n));
  for (int i = 0; i < n * n; ++i) out.push_back(bins.at<double>(i / n, i % n) + 2e-3);
  return out;
}

}  // namespace

cv::Mat textureOf(const cv::Mat& lab, int windowPx) {
  cv::Mat light, gx, gy, out(lab.size(), CV_8UC2);
  cv::extractChannel(lab, light, 0);
  light.convertTo(light, CV_32F);
  cv::Sobel(light, gx, CV_32F, 1, 0);
  cv::Sobel(light, gy, CV_32F, 0, 1);
  cv::boxFilter(gx.mul(gx), gx, CV_32F, {windowPx, windowPx});
  cv::boxFilter(gy.mul(gy), gy, CV_32F, {windowPx, windowPx});
  for (int y = 0; y < lab.rows; ++y)
    for (int x = 0; x < lab.cols; ++x) {
      const float a = gx.at<float>(y, x), b = gy.at<float>(y, x);
      out.at<cv::Vec2b>(y, x) = {cv::saturate_cast<uchar>(255 * a / (a + b + 40)),
                                 cv::saturate_cast<uchar>(25 * std::log2(1 + (a + b) / 20))};
    }
  return out;
}

WoodModel::WoodModel(const std::vector<WoodSample>& wood, const std::vector<WoodSample>& ground)
    : colour_(size_t(1) << (3 * kBits), 0.0f), texture_(size_t(1) << (2 * kTextureBits), 0.0f) {
  if (wood.size() < kFewest || ground.size() < kFewest) return;
  auto a = mixture(wood);
  a.push_back(paleWood(wood));
  const auto b = mixture(ground), shadow = mixture(shadowed(ground));
  const double darkest = kBarkShare * lowLight(wood);
  const int n = 1 << kBits;
  cv::parallel_for_({0, n}, [&](const cv::Range& range) {
    for (int l = range.start; l < range.end; ++l)
      for (int i = 0; i < n; ++i)
        for (int j = 0; j < n; ++j) {
          const cv::Vec3d lab(shadeless({float((l + 0.5) * kLightStep),
                                         float(kChromaFirst + (i + 0.5) * kChromaStep),
                                         float(kChromaFirst + (j + 0.5) * kChromaStep)}));
          const double dark = darkest - (l + 0.5) * kLightStep;
          const double other = std::max(
              logDensity(b, lab), std::max(kUnknownLog, logDensity(shadow, lab) + kShadowLog));
          const double e = logDensity(a, lab) - other - std::max(0.0, kBarkPerLight * dark);
          colour_[colourIndex(l, i, j)] = std::clamp(float(e), -kLimit, kLimit);
        }
  });
  const auto c = textureHistogram(wood, kTextureBits), d = textureHistogram(ground, kTextureBits);
  for (size_t i = 0; i < texture_.size(); ++i)
    texture_[i] = std::clamp(float(std::log(c[i] / d[i])), -kTextureLimit, kTextureLimit);
}

float WoodModel::evidence(const WoodSample& sample) const {
  const int n = 1 << kBits, shift = 8 - kTextureBits;
  const auto chroma = [&](float v) {
    return std::clamp(int((v - kChromaFirst) / kChromaStep), 0, n - 1);
  };
  const int light = std::clamp(int(sample.lab[0] / kLightStep), 0, n - 1);
  const int texture = ((sample.texture[0] >> shift) << kTextureBits) + (sample.texture[1] >> shift);
  return colour_[colourIndex(light, chroma(sample.lab[1]), chroma(sample.lab[2]))] +
         texture_[size_t(texture)];
}

cv::Mat WoodModel::evidence(const cv::Mat& lab, const cv::Mat& texture) const {
  cv::Mat out(lab.size(), CV_32F);
  for (int y = 0; y < lab.rows; ++y)
    for (int x = 0; x < lab.cols; ++x)
      out.at<float>(y, x) = evidence({lab.at<cv::Vec3f>(y, x), texture.at<cv::Vec2b>(y, x)});
  return out;
}

}  // namespace rackside
