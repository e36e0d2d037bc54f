// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/lens/lens_file.h"

#include <cmath>

#include "core/base/json_reader.h"
#include "core/storage/atomic_file.h"
#include "core/storage/file_format.h"
#include "core/storage/json_text.h"

namespace rackside {
namespace {

constexpr long long kLargestSidePx = 100000;

const FileFormat& lensFormat() {
  static const FileFormat format{"rackside lens", {}};
  return format;
}

// Symmetric, and no direction with a negative spread.
bool isCovariance(const std::array<double, 25>& c) {
  cv::Matx<double, 5, 5> scaled;
  for (size_t i = 0; i < 5; ++i)
    for (size_t j = 0; j < 5; ++j) {
      const double size = std::sqrt(c[6 * i] * c[6 * j]);
      if (!(size > 0)) return false;
      scaled(int(i), int(j)) = c[5 * i + j] / size;
      if (std::abs(c[5 * i + j] - c[5 * j + i]) > 1e-6 * size) return false;
    }
  cv::Vec<double, 5> eigenvalues;
  return cv::checkRange(scaled) && cv::eigen(scaled, eigenvalues) && eigenvalues[4] > -1e-6;
}

void readCovariance(JsonReader& reader, std::array<double, 25>& covariance) {
  const auto rows = reader.rows("covariance");
  bool square = rows.size() == 5;
  for (size_t i = 0; square && i < 5; ++i) {
    square = rows[i].size() == 5;
    for (size_t j = 0; square && j < 5; ++j) covariance[5 * i + j] = rows[i][j];
  }
  if (!square || !isCovariance(covariance))
    reader.fail("covariance", "five rows of five numbers, a covariance matrix");
}

}  // namespace

nlohmann::json toJson(const KeptLens& kept) {
  nlohmann::json j = newDocument(lensFormat());
  j["make"] = kept.make;
  j["model"] = kept.model;
  if (kept.focalMm) j["focal_mm"] = *kept.focalMm;
  j["width_px"] = kept.lens.size.width;
  j["height_px"] = kept.lens.size.height;
  j["focal_px"] = kept.lens.focalPx;
  j["cx_px"] = kept.lens.cx;
  j["cy_px"] = kept.lens.cy;
  j["k1"] = kept.lens.k1;
  j["k2"] = kept.lens.k2;
  for (size_t i = 0; i < 5; ++i)
    j["covariance"].push_back(std::vector<double>(kept.lens.covariance.begin() + long(5 * i),
                                                  kept.lens.covariance.begin() + long(5 * i + 5)));
  j["rms_px"] = kept.rmsPx;
  j["source"] = kept.lens.source;
  addExtra(j, *kept.extra);
  return j;
}

Result<KeptLens> keptLensFromJson(const nlohmann::json& document) {
  auto current = upToDate(document, lensFormat());
  if (!current) return current.error();
  std::string fault;
  JsonReader reader(**current, "lens", fault);
  reader.has("format");
  reader.has("version");
  KeptLens kept;
  kept.make = reader.text("make", "");
  kept.model = reader.text("model", "");
  kept.focalMm = reader.maybeNumber("focal_mm");
  kept.lens.size.width = int(reader.integer("width_px", 1, kLargestSidePx));
  kept.lens.size.height = int(reader.integer("height_px", 1, kLargestSidePx));
  kept.lens.focalPx = reader.number("focal_px");
  if (!(kept.lens.focalPx > 0)) reader.fail("focal_px", "above 0");
  kept.lens.cx = reader.number("cx_px");
  kept.lens.cy = reader.number("cy_px");
  kept.lens.k1 = reader.number("k1");
  kept.lens.k2 = reader.number("k2");
  readCovariance(reader, kept.lens.covariance);
  kept.rmsPx = reader.number("rms_px", 0);
  kept.lens.source = reader.text("source", "calibrated");
  if (reader.failed()) return Error{fault};
  if (const nlohmann::json extra = reader.extra(); extra.is_object()) kept.extra = extra;
  return kept;
}

Result<KeptLens> readLensFile(const std::filesystem::path& file) {
  const auto bytes = readFile(file);
  if (!bytes) return bytes.error();
  const auto document = parseJson(*bytes);
  if (!document) return Error{file.string() + ": " + document.error().message};
  auto kept = keptLensFromJson(*document);
  if (!kept) return Error{file.string() + ": " + kept.error().message};
  return kept;
}

Status writeLensFile(const KeptLens& kept, const std::filesystem::path& file) {
  const auto text = jsonText(toJson(kept));
  if (!text) return text.error();
  return writeFileAtomically(file, *text);
}

}  // namespace rackside
