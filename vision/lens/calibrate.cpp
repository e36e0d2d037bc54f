// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/calibrate.h"

#include <cmath>
#include <cstdio>
#include <opencv2/imgproc.hpp>

#include "vision/lens/exif_prior.h"
#include "vision/lens/lens_adjustment.h"

namespace rackside {
namespace {

constexpr size_t kLeastPhotos = 3;
constexpr size_t kWantedPhotos = 8;
constexpr double kWantedFocal = 0.01;   // relative sigma above which a warning is due
constexpr double kUselessFocal = 0.05;  // and above which the result is worth nothing

size_t photosIn(const std::vector<PatternView>& views) {
  size_t count = 0;
  for (size_t i = 0; i < views.size(); ++i)
    if (i == 0 || views[i].name != views[i - 1].name) ++count;
  return count;
}

std::string percent(double share) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f %%", 100 * share);
  return text;
}

Error tooFew(size_t count) {
  return {
      "a pattern was found in " + std::to_string(count) +
      " photographs; at least 3 are needed and 8 to 15 are good: fill half the picture with the "
      "pattern, flat and sharp, from straight above and tilted to each side"};
}

void addAdvice(CalibrateResult& result) {
  const double relative = std::sqrt(result.lens.covariance[0]) / result.lens.focalPx;
  if (result.photos.size() < kWantedPhotos)
    result.warnings.push_back("only " + std::to_string(result.photos.size()) +
                              " photographs with a pattern; 8 to 15 are better");
  if (relative > kWantedFocal)
    result.warnings.push_back("the focal length is only known to ±" + percent(1.96 * relative) +
                              "; add photographs with the pattern tilted by 30° to 45°");
}

std::vector<PhotoFit> photoFits(const std::vector<PatternView>& views,
                                const LensAdjustment& adjustment) {
  std::vector<PhotoFit> fits;
  std::vector<double> squares;
  for (size_t v = 0; v < views.size(); ++v) {
    if (fits.empty() || fits.back().name != views[v].name) {
      fits.push_back({views[v].name, 0, 0});
      squares.push_back(0);
    }
    for (size_t i = 0; i < views[v].px.size(); ++i) {
      if (!adjustment.kept[v][i]) continue;
      ++fits.back().points;
      squares.back() += adjustment.residualPx[v][i].dot(adjustment.residualPx[v][i]);
    }
  }
  for (size_t k = 0; k < fits.size(); ++k)
    fits[k].rmsPx = fits[k].points ? std::sqrt(squares[k] / (2.0 * fits[k].points)) : 0;
  return fits;
}

// Reads the photographs one at a time: their number costs no memory.
struct Gathered {
  std::vector<PatternView> views;
  std::vector<std::string> warnings;
  std::optional<Exif> camera;
  cv::Size size;
};

Status addPhoto(const Photo& photo, const CalibrateOptions& options, Gathered& all) {
  const std::string name = photo.file.filename().string();
  if (!all.camera) {
    all.camera = photo.exif;
    all.size = photo.bgr.size();
  }
  if (photo.bgr.size() != all.size)
    return Error{name +
                 " has another size than the first photograph; use photographs of one camera "
                 "at one setting"};
  if (photo.exif.make != all.camera->make || photo.exif.model != all.camera->model ||
      photo.exif.focalMm != all.camera->focalMm)
    return Error{name +
                 " comes from another camera or another focal length than the first "
                 "photograph; use photographs of one camera at one setting"};
  cv::Mat grey;
  cv::cvtColor(photo.bgr, grey, cv::COLOR_BGR2GRAY);
  const auto views = patternViews(grey, name, options);
  if (views.empty()) all.warnings.push_back("no pattern found in " + name);
  all.views.insert(all.views.end(), views.begin(), views.end());
  return success();
}

}  // namespace

Result<CalibrateResult> calibrateFromViews(const std::vector<PatternView>& views,
                                           const Lens& start) {
  if (photosIn(views) < kLeastPhotos) return tooFew(photosIn(views));
  const auto adjusted = adjustLens(views, start);
  if (!adjusted) return adjusted.error();
  CalibrateResult result;
  result.lens = adjusted->lens;
  result.points = adjusted->points;
  result.strays = adjusted->strays;
  result.rmsPx = adjusted->rmsPx;
  result.photos = photoFits(views, *adjusted);
  const double relative = std::sqrt(result.lens.covariance[0]) / result.lens.focalPx;
  if (!(relative < kUselessFocal))
    return Error{"these photographs do not pin down the lens (focal length ±" +
                 percent(1.96 * relative) +
                 "); take some with the pattern tilted by 30° to 45° to each side"};
  char source[96];
  std::snprintf(source, sizeof source, "calibrated: %zu photographs, %.3f px", result.photos.size(),
                result.rmsPx);
  result.lens.source = source;
  addAdvice(result);
  return result;
}

Result<CalibrateResult> calibrateLens(const std::vector<std::filesystem::path>& photographs,
                                      const CalibrateOptions& options, RunControl& control) {
  if (options.chessboard)
    if (const Status valid = options.chessboard->validate(); !valid) return valid.error();
  Gathered all;
  for (size_t i = 0; i < photographs.size(); ++i) {
    if (control.shouldEnd()) return Error{"stopped before all photographs were read"};
    control.report(0.9 * double(i) / double(photographs.size()), "reading photographs");
    const auto photo = readPhoto(photographs[i]);
    if (!photo) return photo.error();
    if (const Status added = addPhoto(*photo, options, all); !added) return added.error();
  }
  if (!all.camera) return tooFew(0);
  auto result = calibrateFromViews(all.views, lensPrior(*all.camera, all.size));
  if (!result) return result;
  CalibrateResult& calibrated = result.value();
  calibrated.camera = *all.camera;
  calibrated.warnings.insert(calibrated.warnings.begin(), all.warnings.begin(), all.warnings.end());
  control.report(1, "done");
  return result;
}

}  // namespace rackside
