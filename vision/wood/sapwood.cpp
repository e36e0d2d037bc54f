// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/sapwood.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "core/wood/species.h"

namespace rackside {
namespace {

constexpr double kAlongMm = 10, kAcrossMm = 2;  // cells the line is sought in
constexpr int kRounds = 5;
constexpr double kJumpCost = 0.02;  // per mm² the line moves from cell to cell
constexpr double kStrongest = 2.5;  // one cell tells this much for or against, at most
constexpr double kLeastBandMm = 3;  // narrower bands are the edge's own shade
constexpr double kLeastShare = 0.015, kGreatestShare = 0.97;  // of the face

using Features = cv::Mat_<cv::Vec3f>;  // lightness, warmth, greenness; all ln

Features featuresOf(const FaceRaster& raster, const LightField& light, cv::Size cells,
                    cv::Mat1f& share) {
  cv::Mat masked(raster.bgr.size(), CV_8UC3, cv::Scalar::all(0)), sum, wood;
  raster.bgr.copyTo(masked, raster.wood);
  cv::resize(masked, sum, cells, 0, 0, cv::INTER_AREA);
  cv::resize(raster.wood, wood, cells, 0, 0, cv::INTER_AREA);
  wood.convertTo(share, CV_32F, 1 / 255.0);
  Features f(cells, cv::Vec3f());
  for (int y = 0; y < cells.height; ++y)
    for (int x = 0; x < cells.width; ++x) {
      if (share(y, x) < 0.5F) {
        share(y, x) = 0;
        continue;
      }
      const auto& c = sum.at<cv::Vec3b>(y, x);
      const auto ln = [&](int k) { return std::log(std::max(4.F, c[k] / share(y, x))); };
      const float b = ln(0), g = ln(1), r = ln(2);
      const double u = 2 * (x + 0.5) / cells.width - 1, v = 2 * (y + 0.5) / cells.height - 1;
      f(y, x) = {(b + g + r) / 3 - float(light.at(u, v)), r - b, 2 * g - r - b};
    }
  return f;
}

struct TwoKinds {
  cv::Vec3d sap, heart;
  cv::Matx33d spread;  // within a kind
  // Log of the odds of sapwood against heartwood, by the line that parts them best (Fisher 1936).
  cv::Vec3d direction() const { return spread.inv() * (sap - heart); }
  double separation() const { return std::sqrt(std::max(0.0, (sap - heart).dot(direction()))); }
};

TwoKinds kindsOf(const Features& f, const cv::Mat1f& share, const cv::Mat1b& isSap) {
  TwoKinds k;
  double sapWeight = 1e-9, heartWeight = 1e-9;
  const auto each = [&](auto visit) {
    for (int y = 0; y < f.rows; ++y)
      for (int x = 0; x < f.cols; ++x)
        if (share(y, x) > 0) visit(cv::Vec3d(f(y, x)), isSap(y, x) != 0);
  };
  each([&](const cv::Vec3d& v, bool sap) {
    (sap ? k.sap : k.heart) += v;
    (sap ? sapWeight : heartWeight) += 1;
  });
  k.sap /= sapWeight;
  k.heart /= heartWeight;
  each([&](const cv::Vec3d& v, bool sap) {
    const cv::Vec3d off = v - (sap ? k.sap : k.heart);
    k.spread += off * off.t();
  });
  k.spread *= 1 / (sapWeight + heartWeight);
  for (int i = 0; i < 3; ++i) k.spread(i, i) += 1e-5;
  return k;
}

// Paler and less warm first: the half of the cells that looks most like sapwood.
cv::Mat1b firstGuess(const Features& f, const cv::Mat1f& share) {
  cv::Mat3f smooth;
  cv::GaussianBlur(f, smooth, {0, 0}, 1.5, 4);
  std::vector<float> values;
  cv::Mat1f score(f.size(), 0.F);
  for (int y = 0; y < f.rows; ++y)
    for (int x = 0; x < f.cols; ++x) {
      score(y, x) = smooth(y, x)[0] - smooth(y, x)[1];
      if (share(y, x) > 0) values.push_back(score(y, x));
    }
  if (values.empty()) return cv::Mat1b(f.size(), uchar(0));
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  // Otsu's threshold over 64 steps.
  const double from = *low, step = std::max(1e-9, double(*high - *low)) / 64;
  std::vector<double> count(65, 0);
  for (const float v : values) ++count[size_t((v - from) / step)];
  double total = 0, sum = 0, below = 0, belowSum = 0, best = -1, cut = from;
  for (size_t i = 0; i < count.size(); ++i) total += count[i], sum += count[i] * double(i);
  for (size_t i = 0; i + 1 < count.size(); ++i) {
    below += count[i], belowSum += count[i] * double(i);
    if (below <= 0 || below >= total) continue;
    const double gap = belowSum / below - (sum - belowSum) / (total - below);
    const double between = below * (total - below) * gap * gap;
    if (between > best) best = between, cut = from + step * double(i + 1);
  }
  return score > cut;
}

// For each column, how far the sapwood reaches from row 0 up, so that the evidence summed over the
// band is greatest and the line runs smoothly.
std::vector<int> bandFromBottom(const cv::Mat1d& odds) {
  const int rows = odds.rows, columns = odds.cols;
  cv::Mat1d sum(rows + 1, columns, 0.0);
  for (int x = 0; x < columns; ++x)
    for (int y = 0; y < rows; ++y) sum(y + 1, x) = sum(y, x) + odds(y, x);
  cv::Mat1i from(rows + 1, columns, 0);
  const int reach = int(24 / kAcrossMm);
  for (int x = 1; x < columns; ++x)
    for (int y = 0; y <= rows; ++y) {
      double best = -1e18;
      for (int q = std::max(0, y - reach); q <= std::min(rows, y + reach); ++q) {
        const double jump = (y - q) * kAcrossMm;
        const double value = sum(q, x - 1) - kJumpCost * jump * jump;
        if (value > best) best = value, from(y, x) = q;
      }
      sum(y, x) += best;
    }
  std::vector<int> path(columns, 0);
  double most = -1e18;
  for (int y = 0; y <= rows; ++y)
    if (sum(y, columns - 1) > most) most = sum(y, columns - 1), path[columns - 1] = y;
  for (int x = columns - 1; x > 0; --x) path[x - 1] = from(path[x], x);
  return path;
}

struct Bands {
  std::vector<int> low, high;  // cells of sapwood from row 0 up, and from the last row down
  double evidence = 0;         // odds summed over both
};

// The band along row 0 first, then what is left along the other edge.
Bands bandsFromBottom(const cv::Mat1d& odds) {
  Bands b;
  b.low = bandFromBottom(odds);
  cv::Mat1d rest = odds.clone();
  for (int x = 0; x < odds.cols; ++x)
    for (int y = 0; y < b.low[x]; ++y) {
      b.evidence += odds(y, x);
      rest(y, x) = -kStrongest * 4;
    }
  cv::flip(rest, rest, 0);
  b.high = bandFromBottom(rest);
  for (int x = 0; x < odds.cols; ++x) {
    b.high[x] = std::min(b.high[x], odds.rows - b.low[x]);
    for (int y = 0; y < b.high[x]; ++y) b.evidence += odds(odds.rows - 1 - y, x);
  }
  return b;
}

Bands bandsOf(const Features& f, const cv::Mat1f& share, const TwoKinds& kinds) {
  const cv::Vec3d w = kinds.direction(), middle = 0.5 * (kinds.sap + kinds.heart);
  cv::Mat1d odds(f.size(), 0.0), turned;
  for (int y = 0; y < f.rows; ++y)
    for (int x = 0; x < f.cols; ++x)
      if (share(y, x) > 0)
        odds(y, x) = std::clamp(w.dot(cv::Vec3d(f(y, x)) - middle), -kStrongest, kStrongest);
  cv::flip(odds, turned, 0);
  const Bands upright = bandsFromBottom(odds);
  Bands other = bandsFromBottom(turned);
  std::swap(other.low, other.high);
  return upright.evidence >= other.evidence ? upright : other;
}

cv::Mat1b insideOf(const Bands& b, cv::Size cells) {
  cv::Mat1b sap(cells, uchar(0));
  for (int x = 0; x < cells.width; ++x)
    for (int y = 0; y < cells.height; ++y)
      if (y < b.low[x] || y >= cells.height - b.high[x]) sap(y, x) = 1;
  return sap;
}

double ramp(double low, double high, double v) {
  return std::clamp((v - low) / (high - low), 0.0, 1.0);
}

// Sapwood is paler, not warmer, and stands clear of the heartwood's own variety.
double sureness(const TwoKinds& k, const std::string& species) {
  const double paler = k.sap[0] - k.heart[0], cooler = k.heart[1] - k.sap[1];
  const double sure =
      ramp(1.2, 2.6, k.separation()) * ramp(0.02, 0.08, paler) * ramp(-0.02, 0.06, cooler);
  return sapwoodIsFaint(species) ? 0.5 * sure : sure;
}

// Runs of columns whose band is wider than nothing, as one line each side (its longest run).
std::vector<Point> lineOf(const std::vector<int>& band, bool low, const FaceRaster& raster,
                          cv::Size cells) {
  const double height = raster.bgr.rows * raster.mmPerPx, width = raster.bgr.cols * raster.mmPerPx;
  const double cellX = width / cells.width, cellY = height / cells.height;
  size_t bestFrom = 0, bestTo = 0;
  for (size_t from = 0; from < band.size();) {
    size_t to = from;
    while (to < band.size() && band[to] * cellY >= kLeastBandMm) ++to;
    if (to - from > bestTo - bestFrom) bestFrom = from, bestTo = to;
    from = to + 1;
  }
  std::vector<Point> line;
  const Point corner = raster.at(-0.5, -0.5);
  for (size_t x = bestFrom; x < bestTo; ++x) {
    const double y = band[x] * cellY;
    line.push_back({corner.x + (double(x) + 0.5) * cellX, corner.y + (low ? y : height - y)});
  }
  return line;
}

}  // namespace

bool sapwoodIsFaint(const std::string& species) {
  const Species* wood = speciesNamed(species);
  return wood && wood->traits.faintSapwood;
}

void readSapwood(const FaceRaster& raster, const LightField& light, const std::string& species,
                 FigureMaps& maps) {
  auto& layer = maps.layers[size_t(FigureLayer::sapwood)];
  layer.assign(size_t(maps.columns) * maps.rows, 0.F);
  if (!maps.colour.shows()) return;
  const double width = raster.bgr.cols * raster.mmPerPx, height = raster.bgr.rows * raster.mmPerPx;
  const cv::Size cells(std::max(2, int(width / kAlongMm)), std::max(4, int(height / kAcrossMm)));
  cv::Mat1f share;
  const Features f = featuresOf(raster, light, cells, share);
  cv::Mat1b sap = firstGuess(f, share);
  Bands bands;
  TwoKinds kinds;
  for (int round = 0; round < kRounds; ++round) {
    kinds = kindsOf(f, share, sap);
    bands = bandsOf(f, share, kinds);
    sap = insideOf(bands, cells);
    const double part = cv::sum(sap)[0] / double(sap.total());
    if (part < kLeastShare || part > kGreatestShare) return;
  }
  const double sure = sureness(kindsOf(f, share, sap), species);
  if (sure <= 0.05) return;
  for (const bool low : {true, false}) {
    SapwoodEdge edge{low, lineOf(low ? bands.low : bands.high, low, raster, cells), sure};
    if (edge.line.size() * kAlongMm >= 60) maps.sapwood.push_back(std::move(edge));
  }
  cv::Mat wide;
  cv::resize(sap, wide, {maps.columns, maps.rows}, 0, 0, cv::INTER_NEAREST);
  for (int y = 0; y < maps.rows; ++y)
    for (int x = 0; x < maps.columns; ++x)
      layer[size_t(y) * maps.columns + x] =
          wide.at<uchar>(y, x) ? maps.at(FigureLayer::wood, x, y) : 0.F;
}

std::vector<Mark> sapwoodMarks(const Board& board, Face face, const FigureMaps& maps) {
  std::vector<Mark> marks;
  const Polygon outline = board.outline.polygon();
  for (const SapwoodEdge& edge : maps.sapwood) {
    // From the line to well past the outline on its side, cut off by the outline.
    Polygon region = edge.line;
    const double beyond = edge.lowSide ? maps.area.y0 - 50 : maps.area.y1 + 50;
    region.push_back({edge.line.back().x, beyond});
    region.push_back({edge.line.front().x, beyond});
    if (signedArea(region) < 0) std::reverse(region.begin(), region.end());
    for (Polygon& p : intersect({region}, {outline})) {
      if (signedArea(p) < 100) continue;
      Mark m;
      m.id = MarkId{newIdText("mk")};
      m.kind = MarkKind::sapwood;
      m.on(face) = std::move(p);
      m.author = MarkAuthor::proposal;
      m.confidence = edge.sure;
      m.confirmed = false;
      if (edge.sure < 0.5)
        m.note = "unsure: sapwood and heartwood are much alike here; check it on the wood";
      marks.push_back(std::move(m));
    }
  }
  return marks;
}

std::string describeSapwood(const FigureMaps& maps, const std::string& species) {
  if (!maps.colour.shows())
    return "Sapwood cannot be told on a grey face: plane a window or photograph it again after a "
           "skim pass.";
  if (maps.sapwood.empty())
    return sapwoodIsFaint(species)
               ? "No sapwood seen; in this wood it hardly differs from the heartwood, so that is "
                 "not sure."
               : "No sapwood seen.";
  double sure = 0;
  std::string where;
  for (const SapwoodEdge& edge : maps.sapwood) {
    sure = std::max(sure, edge.sure);
    where += std::string(where.empty() ? "" : " and ") + (edge.lowSide ? "near" : "far");
  }
  return "Sapwood along the " + where + (maps.sapwood.size() > 1 ? " edges" : " edge") +
         (sure < 0.5 ? ", but unsure: in this wood the two are much alike." : ".");
}

}  // namespace rackside
