// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/face/boundary_cost.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "vision/face/own_variation.h"
#include "vision/face/roughness.h"

namespace rackside {
namespace {

// Weights: a border with a clear step, wood inside and ground outside gains about 6.
constexpr double kStepWeight = 1.0, kWallStepWeight = 0.5, kSidesWeight = 0.6;
constexpr double kCrossingWeight = 1.6, kGroundInsideWeight = 0.05, kGroundInsideMost = 6;
constexpr double kHiddenGain = 0.4;     // under a card nothing speaks for or against
constexpr double kCoherentMm = 66;      // a faint side shows over such lengths
constexpr double kLineLengthMm = 240;   // a line that long is an edge, not grain
constexpr double kLineGapMm = 150;      // over which a line is taken to run on
constexpr double kLineFrom = 0.9;       // strength from which crossing a line costs
constexpr float kAsidePenalty = 0.12f;  // of a line's strength, for a step aside of one cell
constexpr double kWallTellsCells = 4;   // from that width its colour says as much as a side's
constexpr float kMostSideSays = 1.5F;
constexpr double kDarkWall = 1;         // what a wall far darker than the wood says, at least
constexpr double kWallSeenMm = 3;       // a narrower wall does not part into two edges here
constexpr double kStepCrossing = 0.35;  // a step to lighter wood may be sapwood
constexpr float kDarkerLab = 5;
// Off the place that the ends show: free within, then so much a millimetre, at most.
constexpr double kExpectedFreeMm = 12, kExpectedPerMm = 0.08, kExpectedMost = 8;
constexpr double kExpectedOwnMm = 8, kExpectedOwn = 0.9;  // see doubtAt()
// A rim far darker than the wood farther in is bark or shadow, not face.
constexpr double kCoreMm = 150, kRimMm = 4.5;
constexpr float kDarkRim = 0.8f, kDarkest = 0.6f, kRimCost = 3;
constexpr float kHueLight = 76, kHueWeight = 0.6F;
constexpr double kHueMm = 6, kHueNoise = 0.7;
// Logarithms of likelihood, times millimetres where summed.
constexpr double kRoughnessWeight = 0.2, kRoughnessMost = 1;
constexpr double kShortfallFree = 8, kShortfallMost = 15;
constexpr double kForbidden = 1e4;
constexpr float kSlopeShare = 0.3f, kSharpShare = 0.6f;  // of a step over 12 mm, within 4
constexpr double kOwnMm = 40;  // of wood over which its own variation is read

// Column sums of colour from the first row on, to take the mean of any band at once.
struct Bands {
  cv::Mat sum, count, evidence;  // CV_32FC3, CV_32F, CV_32F: (rows + 1) x columns
  explicit Bands(const BoundaryProblem& p) {
    sum = cv::Mat::zeros(p.lab.rows + 1, p.lab.cols, CV_32FC3);
    count = cv::Mat::zeros(p.lab.rows + 1, p.lab.cols, CV_32F);
    evidence = cv::Mat::zeros(p.lab.rows + 1, p.lab.cols, CV_32F);
    for (int y = 0; y < p.lab.rows; ++y)
      for (int x = 0; x < p.lab.cols; ++x) {
        const bool use = p.usable.at<uchar>(y, x) > 0;
        sum.at<cv::Vec3f>(y + 1, x) =
            sum.at<cv::Vec3f>(y, x) + (use ? p.lab.at<cv::Vec3f>(y, x) : cv::Vec3f(0, 0, 0));
        count.at<float>(y + 1, x) = count.at<float>(y, x) + float(use);
        evidence.at<float>(y + 1, x) =
            evidence.at<float>(y, x) + (use ? p.evidence.at<float>(y, x) : 0.0f);
      }
  }
  bool mean(int x, int from, int to, cv::Vec3f& colour) const {
    from = std::clamp(from, 0, count.rows - 1);
    to = std::clamp(to, 0, count.rows - 1);
    const float n = count.at<float>(to, x) - count.at<float>(from, x);
    if (n < 1) return false;
    colour = (sum.at<cv::Vec3f>(to, x) - sum.at<cv::Vec3f>(from, x)) * (1 / n);
    return true;
  }
  // For wood, of what lies between two rows; no more than either side of a border may say.
  double sideEvidence(int x, int from, int to) const {
    from = std::clamp(from, 0, count.rows - 1);
    to = std::clamp(to, 0, count.rows - 1);
    const float n = count.at<float>(to, x) - count.at<float>(from, x);
    const float met = evidence.at<float>(to, x) - evidence.at<float>(from, x);
    return n < 1 ? 0 : double(std::clamp(met / n, -kMostSideSays, kMostSideSays));
  }
};

int cells(const BoundaryProblem& p, double mm) {
  return std::max(1, int(std::lround(mm / p.acrossMm)));
}

// Steps of colour over bands of two widths, CV_32FC3; zero where either band is hidden.
cv::Mat steps(const BoundaryProblem& p, const Bands& bands, double insideMm, double outsideMm,
              double atMm) {
  cv::Mat out = cv::Mat::zeros(p.lab.size(), CV_32FC3);
  const int in = cells(p, insideMm), outward = cells(p, outsideMm);
  for (int y = 1; y < p.lab.rows; ++y)
    for (int x = 0; x < p.lab.cols; ++x) {
      const float wall = p.wallMm.at<float>(y, x);
      const int at = atMm > 0 && wall >= kWallSeenMm ? y + cells(p, wall) : y;
      if (atMm > 0 && at == y) continue;
      cv::Vec3f a, b;
      const int inside = atMm > 0 ? std::min(in, at - y) : in;
      const int outside =
          atMm <= 0 && wall >= kWallSeenMm ? std::min(outward, cells(p, wall)) : outward;
      if (bands.mean(x, at - inside, at, a) && bands.mean(x, at, at + outside, b))
        out.at<cv::Vec3f>(y, x) = b - a;
    }
  return out;
}

// A broad step counts as far as most of it happens within a few millimetres: the border of a shadow
// is a slope, an arris is not.
cv::Mat sharpPart(const cv::Mat& broad, const cv::Mat& narrow) {
  cv::Mat out = broad.clone();
  for (int y = 0; y < out.rows; ++y)
    for (int x = 0; x < out.cols; ++x) {
      cv::Vec3f& step = out.at<cv::Vec3f>(y, x);
      const float share = narrow.at<cv::Vec3f>(y, x).dot(step) / std::max(1e-6f, step.dot(step));
      step *= std::clamp((share - kSlopeShare) / (kSharpShare - kSlopeShare), 0.0f, 1.0f);
    }
  return out;
}

// Significance of steps against those near the first rows.
cv::Mat significantSteps(const BoundaryProblem& p, const cv::Mat& step, double floorLab) {
  std::vector<cv::Vec3f> seen;
  for (int x = 0; x < step.cols; ++x)
    for (int y = p.first[size_t(x)]; y < std::min(step.rows, p.first[size_t(x)] + cells(p, kOwnMm));
         ++y)
      if (y > 0 && p.usable.at<uchar>(y, x) && step.at<cv::Vec3f>(y, x) != cv::Vec3f(0, 0, 0))
        seen.push_back(step.at<cv::Vec3f>(y, x));
  const cv::Matx33f inverse = inverseOwnVariation(std::move(seen), floorLab);
  cv::Mat out(step.size(), CV_32F);
  for (int y = 0; y < step.rows; ++y)
    for (int x = 0; x < step.cols; ++x)
      out.at<float>(y, x) = significance(step.at<cv::Vec3f>(y, x), inverse);
  return out;
}

// Dark gaps, as between two boards: how far a narrow band is darker than both its sides.
cv::Mat valleys(const BoundaryProblem& p, const Bands& bands) {
  cv::Mat out = cv::Mat::zeros(p.lab.size(), CV_32FC3);
  const int side = cells(p, 6);
  for (int y = side + 2; y + side + 2 < p.lab.rows; ++y)
    for (int x = 0; x < p.lab.cols; ++x) {
      cv::Vec3f in, out2, gap;
      if (bands.mean(x, y - side - 1, y - 1, in) && bands.mean(x, y + 1, y + 1 + side, out2) &&
          bands.mean(x, y - 1, y + 1, gap))
        out.at<cv::Vec3f>(y, x)[0] = std::max(0.0f, std::min(in[0], out2[0]) - gap[0]);
    }
  return out;
}

// Where it gets darker on the way out, as into shadow or onto the wall. Sapwood is lighter than
// heartwood, so a step to lighter wood may lie within the board.
cv::Mat darkerOutward(const BoundaryProblem& p, const Bands& bands) {
  cv::Mat out = cv::Mat::zeros(p.lab.size(), CV_8U);
  const int width = cells(p, 6);
  for (int y = 1; y < p.lab.rows; ++y)
    for (int x = 0; x < p.lab.cols; ++x) {
      cv::Vec3f in, beyond;
      if (bands.mean(x, y - width, y, in) && bands.mean(x, y, y + width, beyond) &&
          beyond[0] < in[0] - kDarkerLab)
        out.at<uchar>(y, x) = 255;
    }
  return out;
}

// Of the evidence met on the best path that comes to each cell from one end of the picture, the
// nearer part counting more.
cv::Mat pathStrength(const cv::Mat& evidence, float keep, bool fromRight) {
  cv::Mat out = evidence.clone();
  for (int i = 1; i < evidence.cols; ++i) {
    const int x = fromRight ? evidence.cols - 1 - i : i, before = fromRight ? x + 1 : x - 1;
    for (int y = 0; y < evidence.rows; ++y) {
      float best = out.at<float>(y, before);
      if (y > 0) best = std::max(best, out.at<float>(y - 1, before) - kAsidePenalty);
      if (y + 1 < evidence.rows)
        best = std::max(best, out.at<float>(y + 1, before) - kAsidePenalty);
      out.at<float>(y, x) = keep * best + (1 - keep) * evidence.at<float>(y, x);
    }
  }
  return out;
}

// How strongly a line runs along the board through each cell, be it straight or wavy, kept where it
// is greatest across.
cv::Mat lineStrength(const BoundaryProblem& p, const cv::Mat& evidence) {
  const float keep = float(1 - 2 * p.alongMm / kLineLengthMm);
  cv::Mat strength = pathStrength(evidence, keep, false) + pathStrength(evidence, keep, true);
  strength *= 0.5;
  cv::Mat greatest;
  cv::dilate(strength, greatest, cv::Mat::ones(2 * cells(p, 7.5) + 1, 1, CV_8U));
  strength.setTo(0, strength < greatest);
  // A line does not end where a parallel one outdoes it for a few cells.
  cv::dilate(strength, strength, cv::Mat::ones(3, int(kLineGapMm / p.alongMm) | 1, CV_8U));
  return strength;
}

// Steps that keep their sign and colour over a length count for more than their size: the same step
// taken of colours averaged along the side.
cv::Mat alongAveraged(const BoundaryProblem& p) {
  cv::Mat weight, sum, count;
  p.usable.convertTo(weight, CV_32F, 1 / 255.0);
  std::vector<cv::Mat> planes;
  cv::split(p.lab, planes);
  const int length = int(kCoherentMm / p.alongMm) | 1;
  cv::blur(weight, count, {length, 1}, {-1, -1}, cv::BORDER_REPLICATE);
  count = cv::max(count, 1e-3);
  for (cv::Mat& plane : planes) {
    plane = plane.mul(weight);
    cv::blur(plane, plane, {length, 1}, {-1, -1}, cv::BORDER_REPLICATE);
    plane /= count;
  }
  cv::merge(planes, sum);
  return sum;
}

// Light as the eye steps it: proportional to the cube root of linear light (CIE 1976).
float eyeLight(const cv::Vec3f& lab) {
  return lab[0] * 100 / 255 + 16;
}

// Shade leaves hue alone: with a* and b* scaled to one lightness (CIE 1976: all go by the cube root
// of light), steps of colour are where the wood ends.
cv::Mat hueSteps(const BoundaryProblem& coherent) {
  BoundaryProblem hue = coherent;
  hue.lab = coherent.lab.clone();
  for (int y = 0; y < hue.lab.rows; ++y)
    for (int x = 0; x < hue.lab.cols; ++x) {
      cv::Vec3f& v = hue.lab.at<cv::Vec3f>(y, x);
      const float scale = kHueLight / eyeLight(v);
      v = {0, (v[1] - 128) * scale, (v[2] - 128) * scale};
    }
  hue.wallMm =
      cv::Mat(hue.wallMm.size(), CV_32F, cv::Scalar(0));  // zeros() would write into the shared one
  return significantSteps(hue, steps(hue, Bands(hue), kHueMm, kHueMm, 0), kHueNoise);
}

bool hiddenAt(const BoundaryProblem& p, int y, int x) {
  const int a = std::max(0, y - 1), b = std::min(p.usable.rows - 1, y + 1);
  return (!p.usable.at<uchar>(a, x) && p.seen.at<uchar>(a, x)) ||
         (!p.usable.at<uchar>(b, x) && p.seen.at<uchar>(b, x));
}

// Between the middle and the place that the ends show, lines and strange colours (sapwood) are the
// board's own, as far as the ends are trusted.
float doubtAt(const BoundaryProblem& p, int x, int y) {
  if (p.expectedRow.empty() || y > p.expectedRow[size_t(x)] - kExpectedOwnMm / p.acrossMm) return 1;
  return float(1 - kExpectedOwn * p.expectedTrust[size_t(x)]);
}

// The costs of crossing: what has been met between the middle and each border.
void addCrossings(const BoundaryProblem& p, const cv::Mat& gaps, const cv::Mat& lines,
                  cv::Mat& total) {
  const int behind = cells(p, 4.5);  // a border's own flank is not a line crossed
  for (int x = 0; x < total.cols; ++x) {
    float strongest = 0, ground = 0;
    const int first = p.first[size_t(x)];
    for (int y = first; y < total.rows; ++y) {
      const int met = y - behind;
      if (met > first) {
        const float doubt = doubtAt(p, x, met);
        strongest = std::max(strongest, gaps.at<float>(met, x) - float(kLineFrom));
        strongest = std::max(strongest, doubt * (lines.at<float>(met, x) - float(kLineFrom)));
        if (p.usable.at<uchar>(met, x))
          ground += doubt * std::max(0.0f, -p.evidence.at<float>(met, x) - 0.5f);
      }
      total.at<float>(y, x) +=
          float(kCrossingWeight * strongest +
                std::min(kGroundInsideMost, kGroundInsideWeight * ground * p.acrossMm));
    }
  }
}

// By column, how light the wood is: the median over what is taken for wood at first, and beyond.
std::vector<float> coreLight(const BoundaryProblem& p) {
  std::vector<float> core;
  for (int x = 0; x < p.lab.cols; ++x) {
    std::vector<float> light;
    const int first = p.first[size_t(x)];
    for (int y = first; y < std::min(p.lab.rows, first + cells(p, kCoreMm)); ++y)
      if (p.usable.at<uchar>(y, x) && p.evidence.at<float>(y, x) > 0)
        light.push_back(eyeLight(p.lab.at<cv::Vec3f>(y, x)));
    const auto middle = light.begin() + std::ptrdiff_t(light.size() / 2);
    std::nth_element(light.begin(), middle, light.end());
    core.push_back(light.empty() ? 0 : *middle);
  }
  return core;
}

// From 0, nearly as light as the wood farther in, to 1, as dark as bark or deep shade.
float darkness(const cv::Vec3f& lab, float core) {
  return std::clamp((kDarkRim - eyeLight(lab) / core) / (kDarkRim - kDarkest), 0.0F, 1.0F);
}

// What a wall between two rows says: it is of the same wood or, as bark and shade are, far darker.
double wallEvidence(const Bands& bands, const Bands& coherent, float core, int x, int from,
                    int to) {
  const double wood = bands.sideEvidence(x, from, to);
  cv::Vec3f lab;
  if (core <= 0 || !coherent.mean(x, from, to, lab)) return wood;
  const double dark = double(darkness(lab, core));
  return (1 - dark) * wood + dark * std::max(kDarkWall, wood);
}

void addDarkRims(const BoundaryProblem& p, const Bands& coherent, const std::vector<float>& core,
                 cv::Mat& total) {
  const int rim = cells(p, kRimMm);
  for (int x = 0; x < total.cols; ++x)
    for (int y = p.first[size_t(x)] + 1; y < total.rows; ++y) {
      cv::Vec3f inside;
      if (core[size_t(x)] <= 0 || !coherent.mean(x, y - rim, y, inside)) continue;
      total.at<float>(y, x) += kRimCost * darkness(inside, core[size_t(x)]);
    }
}

// What each place falls short of the best one by roughness, no more than keeps a step of colour
// that speaks against it alive.
void addRoughness(const BoundaryProblem& p, cv::Mat& total) {
  const size_t rows = size_t(total.rows);
  for (int x = 0; x < total.cols; ++x) {
    std::vector<double> evidence(rows, 0.0);
    std::vector<int> wall(rows, 0);
    for (int y = 0; y < total.rows; ++y) {
      wall[size_t(y)] = int(std::lround(double(p.wallMm.at<float>(y, x)) / p.acrossMm));
      if (y >= p.first[size_t(x)] && p.usable.at<uchar>(y, x))
        evidence[size_t(y)] = p.acrossMm * std::clamp(double(p.roughness.at<float>(y, x)),
                                                      -kRoughnessMost, kRoughnessMost);
    }
    const std::vector<double> parted = partings(evidence, wall);
    const double best = *std::max_element(parted.begin(), parted.end());
    for (int y = 0; y < total.rows; ++y)
      total.at<float>(y, x) +=
          float(kRoughnessWeight *
                std::clamp(best - kShortfallFree - parted[size_t(y)], 0.0, kShortfallMost));
  }
}

void addExpectation(const BoundaryProblem& p, cv::Mat& total) {
  for (int x = 0; x < total.cols && !p.expectedRow.empty(); ++x)
    for (int y = 0; y < total.rows; ++y) {
      const double off = std::abs(y - p.expectedRow[size_t(x)]) * p.acrossMm - kExpectedFreeMm;
      if (off > 0)
        total.at<float>(y, x) +=
            float(p.expectedTrust[size_t(x)] * std::min(kExpectedMost, kExpectedPerMm * off));
    }
}

}  // namespace

BoundaryCost boundaryCost(const BoundaryProblem& p) {
  const Bands bands(p);
  BoundaryProblem smooth = p;
  smooth.lab = alongAveraged(p);
  const Bands coherent(smooth);
  const cv::Mat narrow = steps(p, bands, 4.5, 3, 0);
  const cv::Mat broad = significantSteps(p, sharpPart(steps(p, bands, 12, 12, 0), narrow), 1.0);
  const cv::Mat faint = significantSteps(p, steps(p, coherent, 4.5, 4.5, 0), 0.7);
  const cv::Mat fine = significantSteps(p, narrow, 1.2);
  const cv::Mat strong = cv::max(cv::max(fine, broad), faint);
  const cv::Mat hue = hueSteps(smooth);
  const std::vector<float> core = coreLight(p);
  const cv::Mat wallStep = significantSteps(p, steps(p, bands, 6, 9, 1), 1.2);
  BoundaryCost cost;
  cost.total.create(p.lab.size(), CV_32F);
  cost.ifSawn = cv::Mat::zeros(p.lab.size(), CV_32F);
  cost.hidden = cv::Mat::zeros(p.lab.size(), CV_8U);
  const int in = cells(p, 12), out = cells(p, 20);
  for (int y = 0; y < p.lab.rows; ++y)
    for (int x = 0; x < p.lab.cols; ++x) {
      float& total = cost.total.at<float>(y, x);
      if (y <= p.first[size_t(x)]) {
        total = float(kForbidden);
        continue;
      }
      if (hiddenAt(p, y, x)) {
        cost.hidden.at<uchar>(y, x) = 1;
        total = float(-kHiddenGain);
        continue;
      }
      const float wall = p.wallMm.at<float>(y, x);
      const int wallCells = int(double(wall) / p.acrossMm);
      // Where the wall must show there is no ground yet.
      const double sides = bands.sideEvidence(x, y - in, y) -
                           bands.sideEvidence(x, y + wallCells, y + wallCells + out) +
                           std::min(1.0, wallCells / kWallTellsCells) *
                               wallEvidence(bands, coherent, core[size_t(x)], x, y, y + wallCells);
      total =
          float(-kStepWeight * strong.at<float>(y, x) -
                kWallStepWeight * std::max(0.0f, wallStep.at<float>(y, x)) - kSidesWeight * sides);
      const int foot = y + int(std::lround(double(wall) / p.acrossMm));
      if (foot < hue.rows)
        cost.ifSawn.at<float>(y, x) = -kHueWeight * std::max(0.0F, hue.at<float>(foot, x));
      if (!p.seen.at<uchar>(y, x))
        total = y > 0 && p.seen.at<uchar>(y - 1, x) ? 0.0f : float(kForbidden);
    }
  const cv::Mat dark = valleys(p, coherent);
  cv::Mat gaps = lineStrength(p, significantSteps(p, dark, 1.5));
  const cv::Mat lines = lineStrength(p, strong);
  cv::Mat(cv::max(gaps, lines)).copyTo(gaps, darkerOutward(p, coherent));
  addCrossings(p, gaps, kStepCrossing * lines, cost.total);
  addDarkRims(p, coherent, core, cost.total);
  addExpectation(p, cost.total);
  addRoughness(p, cost.ifSawn);
  return cost;
}

}  // namespace rackside
