// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/lens_shelf.h"

#include <cctype>
#include <cmath>
#include <cstdlib>

#include "vision/lens/exif_prior.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

std::string plain(const std::string& text) {
  std::string name;
  for (unsigned char c : text) {
    if (std::isalnum(c) && c < 128)
      name += char(std::tolower(c));
    else if (!name.empty() && name.back() != '-')
      name += '-';
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  return name.empty() ? "unknown" : name;
}

// Focal lengths are told apart to a tenth of a millimetre, pictures by their shape.
std::string fileName(const std::string& make, const std::string& model,
                     std::optional<double> focalMm, cv::Size size) {
  const double shape = double(size.width) / size.height;
  return plain(make) + "-" + plain(model) + "-" +
         (focalMm ? std::to_string(std::lround(*focalMm * 10)) : "unknown") + "-" +
         std::to_string(std::lround(shape * 100)) + ".json";
}

}  // namespace

fs::path lensShelf() {
  if (const char* own = std::getenv("RACKSIDE_LENSES"); own && *own) return own;
  if (const char* data = std::getenv("XDG_DATA_HOME"); data && *data)
    return fs::path(data) / "rackside" / "lenses";
  if (const char* home = std::getenv("HOME"); home && *home)
    return fs::path(home) / ".local" / "share" / "rackside" / "lenses";
  return {};
}

Result<fs::path> keepLens(const KeptLens& kept, const fs::path& shelf) {
  if (kept.make.empty() && kept.model.empty())
    return Error{
        "the photographs do not name their camera, so the lens cannot be kept for it; give "
        "the lens file by hand when scanning"};
  std::error_code error;
  fs::create_directories(shelf, error);
  if (shelf.empty() || error)
    return Error{"the folder " + shelf.string() +
                 " cannot be made; check that you may write there"};
  const fs::path file = shelf / fileName(kept.make, kept.model, kept.focalMm, kept.lens.size);
  if (const Status written = writeLensFile(kept, file); !written) return written.error();
  return file;
}

std::optional<KeptLens> keptLensFor(const Exif& exif, cv::Size size, const fs::path& shelf) {
  if (shelf.empty() || size.empty() || (exif.make.empty() && exif.model.empty()))
    return std::nullopt;
  const fs::path file = shelf / fileName(exif.make, exif.model, exif.focalMm, size);
  std::error_code error;
  if (!fs::exists(file, error)) return std::nullopt;
  auto kept = readLensFile(file);
  if (!kept) return std::nullopt;
  return std::move(kept).value();
}

std::optional<Lens> priorFromCalibration(const Lens& calibrated, cv::Size size) {
  const double x = double(size.width) / calibrated.size.width;
  const double y = double(size.height) / calibrated.size.height;
  if (std::abs(x / y - 1) > 0.005) return std::nullopt;
  Lens lens = calibrated;
  lens.size = size;
  lens.focalPx *= x;
  lens.cx = (calibrated.cx + 0.5) * x - 0.5;
  lens.cy = (calibrated.cy + 0.5) * y - 0.5;
  const double unit[5] = {x, x, y, 1, 1};
  for (size_t i = 0; i < 5; ++i)
    for (size_t j = 0; j < 5; ++j) lens.covariance[5 * i + j] *= unit[i] * unit[j];
  const double centre = 0.001 * std::hypot(size.width, size.height);
  const double change[5] = {0.002 * lens.focalPx, centre, centre, 0.001, 0.001};
  for (size_t i = 0; i < 5; ++i) lens.covariance[6 * i] += change[i] * change[i];
  return lens;
}

Lens lensFor(const Exif& exif, cv::Size size, const fs::path& shelf) {
  if (const auto kept = keptLensFor(exif, size, shelf))
    if (const auto prior = priorFromCalibration(kept->lens, size)) return *prior;
  return lensPrior(exif, size);
}

}  // namespace rackside
