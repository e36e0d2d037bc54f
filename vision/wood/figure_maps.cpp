// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/figure_maps.h"

#include <opencv2/imgproc.hpp>

#include "vision/wood/arch_axis.h"
#include "vision/wood/face_colour.h"
#include "vision/wood/grain_tensor.h"
#include "vision/wood/paper_on_face.h"
#include "vision/wood/sapwood.h"

namespace rackside {
namespace {

constexpr double kGrainAlongMm = 10, kGrainAcrossMm = 5;  // standard deviations
constexpr double kRingRasterMm = 1;  // rings and ripple are read at this sampling
constexpr double kRingAlongMm = 4, kRingAcrossMm = 0.8;  // smoothing before
constexpr double kRingBroadMm = 8;                       // slower changes across are not rings
constexpr double kRippleAcrossMm = 4;                    // half of what a ripple keeps together
constexpr double kRippleFineMm = 2.2, kRippleBroadMm = 6.5;
constexpr float kKnotDepth = 0.35F;  // ln: darker or paler than this is no grain

void put(FigureMaps& maps, FigureLayer layer, const cv::Mat1f& cells) {
  auto& values = maps.layers[size_t(layer)];
  values.resize(size_t(maps.columns) * maps.rows);
  for (int r = 0; r < maps.rows; ++r)
    std::copy_n(cells[r], maps.columns, values.begin() + std::ptrdiff_t(r) * maps.columns);
}

cv::Mat1f layerImage(FigureMaps& maps, FigureLayer layer) {
  return cv::Mat1f(maps.rows, maps.columns, maps.layers[size_t(layer)].data());
}

cv::Mat1f blurred(const cv::Mat1f& m, double sigmaX, double sigmaY) {
  cv::Mat1f out;
  cv::GaussianBlur(m, out, {0, 0}, sigmaX, sigmaY, cv::BORDER_REFLECT);
  return out;
}

// The direction over about a centimetre along the grain and half of it across.
void putGrain(FigureMaps& maps, const TensorImages& cells) {
  const double along = kGrainAlongMm / maps.cellMm, across = kGrainAcrossMm / maps.cellMm;
  const cv::Mat1f xx = blurred(cells.xx, along, across), yy = blurred(cells.yy, along, across),
                  xy = blurred(cells.xy, along, across);
  cv::Mat1f cos(xx.size(), 0.F), sin(xx.size(), 0.F), coherence(xx.size(), 0.F);
  for (int r = 0; r < xx.rows; ++r)
    for (int c = 0; c < xx.cols; ++c) {
      const float share = maps.at(FigureLayer::wood, c, r);
      const GrainTensor t{xx(r, c), yy(r, c), xy(r, c)};
      if (share <= 0 || t.xx + t.yy <= 0) continue;
      cos(r, c) = share * float(std::cos(2 * t.angleRad()));
      sin(r, c) = share * float(std::sin(2 * t.angleRad()));
      coherence(r, c) = share * float(t.coherence());
    }
  put(maps, FigureLayer::grainCos, cos);
  put(maps, FigureLayer::grainSin, sin);
  put(maps, FigureLayer::coherence, coherence);
}

void putTensor(FigureMaps& maps, FigureLayer first, const TensorImages& t) {
  put(maps, first, t.xx);
  put(maps, FigureLayer(int(first) + 1), t.yy);
  put(maps, FigureLayer(int(first) + 2), t.xy);
}

// Tone limited to plain wood, so that a knot's border counts for no more than a ring does.
cv::Mat1f limited(const cv::Mat1f& tone) {
  cv::Mat1f out;
  cv::min(tone, kKnotDepth, out);
  cv::max(out, -kKnotDepth, out);
  return out;
}

void putRings(FigureMaps& maps, const cv::Mat1f& tone, const cv::Mat1b& wood, double mmPerPx) {
  const cv::Size size(std::max(1, int(tone.cols * mmPerPx / kRingRasterMm)),
                      std::max(1, int(tone.rows * mmPerPx / kRingRasterMm)));
  cv::Mat1f small = overCells(limited(tone), size);
  cv::Mat smallWood;
  cv::resize(wood, smallWood, size, 0, 0, cv::INTER_AREA);
  const cv::Mat1b inside = smallWood > 250;
  const cv::Size cells(maps.columns, maps.rows);
  const cv::Mat1f rings =
      blurred(small, kRingAlongMm / kRingRasterMm, kRingAcrossMm / kRingRasterMm);
  putTensor(maps, FigureLayer::ringXx, gradientProducts(rings, inside, kRingRasterMm, cells));
  cv::Mat1f quick =
      rings - blurred(small, kRingAlongMm / kRingRasterMm, kRingBroadMm / kRingRasterMm);
  quick.setTo(0, inside == 0);
  put(maps, FigureLayer::contrast, overCells(quick.mul(quick), cells));
  const double across = kRippleAcrossMm / kRingRasterMm;
  cv::Mat1f wave = blurred(small, kRippleFineMm / kRingRasterMm, across) -
                   blurred(small, kRippleBroadMm / kRingRasterMm, across);
  wave.setTo(0, inside == 0);
  put(maps, FigureLayer::ripple, overCells(wave.mul(wave), cells));
}

void putTone(FigureMaps& maps, const cv::Mat1f& tone) {
  const cv::Mat1f share = layerImage(maps, FigureLayer::wood);
  const cv::Mat1f mean = overCells(tone, share.size());  // weighted: the tone is 0 off the wood
  const cv::Mat1f broad = broadMean(mean, share, maps.cellMm);
  put(maps, FigureLayer::tone, broad.mul(share));
  put(maps, FigureLayer::toneSquared, broad.mul(broad).mul(share));
}

std::array<double, 3> whiteInMeanLight(const PaperOnFace& paper, const LightField& light,
                                       cv::Size size) {
  std::array<double, 3> mean{};
  for (const PaperOnFace::White& w : paper.whites) {
    const double u = 2 * (w.at.x + 0.5) / size.width - 1, v = 2 * (w.at.y + 0.5) / size.height - 1;
    const double gain = std::exp(light.coefficient[0] - light.at(u, v));
    for (int k = 0; k < 3; ++k) mean[k] += gain * w.bgr[k] / double(paper.whites.size());
  }
  return mean;
}

}  // namespace

FigureMaps figureMaps(const FaceRaster& whole, const FigureOptions& options, RunControl& control,
                      cv::Mat1f* planed) {
  FigureMaps maps;
  const PaperOnFace paper = paperOnFace(whole);
  FaceRaster raster = whole;
  raster.wood = whole.wood.clone();
  raster.wood.setTo(0, paper.hidden);
  const double mm = raster.mmPerPx;
  maps.columns = std::max(1, cvRound(raster.bgr.cols * mm / options.cellMm));
  maps.rows = std::max(1, cvRound(raster.bgr.rows * mm / options.cellMm));
  maps.cellMm = options.cellMm;
  maps.area = {raster.origin.x - mm / 2, raster.origin.y - mm / 2,
               raster.origin.x + mm * (raster.bgr.cols - 0.5),
               raster.origin.y + mm * (raster.bgr.rows - 0.5)};
  const cv::Size cells(maps.columns, maps.rows);
  control.report(0.05, "evening out the light");
  cv::Mat1f wood;
  raster.wood.convertTo(wood, CV_32F, 1 / 255.0);
  put(maps, FigureLayer::wood, overCells(wood, cells));
  maps.light = lightField(raster);
  cv::Mat1f tone = evenedTone(raster, maps.light);
  control.report(0.2, "looking for saw marks");
  if (options.sawn) maps.saw = findSawMarks(tone, raster.wood, mm);
  cv::Mat1f withoutMarks = tone;
  if (maps.saw.found()) {
    withoutMarks = tone - sawMarkTone(tone, raster.wood, mm, maps.saw);
    if (maps.saw.sure()) tone = withoutMarks;
  }
  control.report(0.6, "reading the grain");
  // Waves square across hide the direction of the grain whether the saw made them or the wood.
  putGrain(maps, gradientProducts(limited(withoutMarks), raster.wood, mm, cells));
  putRings(maps, tone, raster.wood, mm);
  putTone(maps, tone);
  control.report(0.9, "reading the colour");
  maps.colour.white = whiteInMeanLight(paper, maps.light, raster.bgr.size());
  readColour(raster, options.species, maps);
  readSapwood(raster, maps.light, options.species, maps);
  maps.arches = archAxis(maps);
  if (planed) *planed = tone;
  return maps;
}

}  // namespace rackside
