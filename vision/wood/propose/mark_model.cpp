// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/mark_model.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <fstream>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string_view>

#include "core/base/json_reader.h"
#include "core/storage/json_text.h"

// The built-in model is a file beside this one, taken into the program as it is built.
asm(".section .rodata\n"
    ".balign 16\n"
    ".global racksideMarkModel, racksideMarkModelEnd\n"
    "racksideMarkModel:\n"
    ".incbin \"" RACKSIDE_MARK_MODEL
    "\"\n"
    "racksideMarkModelEnd:\n"
    ".previous\n");
extern "C" {
extern const unsigned char racksideMarkModel[];     // NOLINT
extern const unsigned char racksideMarkModelEnd[];  // NOLINT
}

namespace rackside {
namespace {

constexpr char kMagic[] = "RSMARKS\n";
constexpr size_t kMagicBytes = 8;
constexpr uint32_t kVersion = 1;
constexpr size_t kMostBytes = size_t(1) << 28;

constexpr std::array<const char*, kRegionFamilies> kFamilyNames{"round", "crack",  "gum",
                                                                "pith",  "streak", "stain"};

// Reads little-endian numbers; past the end nothing more is read and ok() is false.
class Reader {
 public:
  explicit Reader(const std::vector<uint8_t>& bytes) : bytes_(bytes) {}
  bool ok() const { return ok_; }
  bool atEnd() const { return at_ == bytes_.size(); }
  size_t left() const { return bytes_.size() - at_; }
  const uint8_t* take(size_t n) {
    if (!ok_ || n > left()) {
      ok_ = false;
      return nullptr;
    }
    at_ += n;
    return bytes_.data() + (at_ - n);
  }
  uint32_t number() {
    const uint8_t* p = take(4);
    return p ? uint32_t(p[0]) | uint32_t(p[1]) << 8 | uint32_t(p[2]) << 16 | uint32_t(p[3]) << 24
             : 0;
  }

 private:
  const std::vector<uint8_t>& bytes_;
  size_t at_ = 0;
  bool ok_ = true;
};

uint32_t fnv1a(const uint8_t* from, size_t count) {
  uint32_t h = 2166136261U;
  for (size_t i = 0; i < count; ++i) h = (h ^ from[i]) * 16777619U;
  return h;
}

// Weights in rows of bytes, each row with its own scale, become the floats that they stood for.
bool addWeights(Reader& in, std::vector<uint8_t>& out) {
  const size_t rows = in.number(), length = in.number();
  if (!in.ok() || rows == 0 || length == 0 || rows * length > kMostBytes) return false;
  const uint8_t* scales = in.take(4 * rows);
  const uint8_t* codes = in.take(rows * length);
  if (!codes) return false;
  for (size_t r = 0; r < rows; ++r) {
    float scale = 0;
    std::memcpy(&scale, scales + 4 * r, 4);
    for (size_t i = 0; i < length; ++i) {
      const float v = scale * static_cast<float>(static_cast<int8_t>(codes[r * length + i]));
      uint8_t raw[4];
      std::memcpy(raw, &v, 4);
      out.insert(out.end(), raw, raw + 4);
    }
  }
  return true;
}

// Pieces as they are (0) and pieces of weights (1), one after the other.
bool unpack(Reader& in, std::vector<uint8_t>& onnx) {
  while (in.ok() && !in.atEnd()) {
    const uint8_t* type = in.take(1);
    if (*type == 1) {
      if (!addWeights(in, onnx)) return false;
      continue;
    }
    const size_t count = in.number();
    const uint8_t* piece = in.take(count);
    if (*type != 0 || !piece) return false;
    onnx.insert(onnx.end(), piece, piece + count);
  }
  return in.ok();
}

std::optional<MarkModel> modelOf(std::string_view said) {
  const Result<nlohmann::json> document = parseJson(said);
  if (!document) return std::nullopt;
  std::string fault;
  JsonReader reader(*document, "model", fault);
  reader.integer("kinds", kRegionKinds, kRegionKinds);
  MarkModel model;
  model.evenedMedian = reader.number("median");
  for (size_t f = 0; f < kRegionFamilies; ++f) {
    JsonReader& family = reader.object(kFamilyNames[f]);
    const std::vector<double> law = family.numbers("trust");
    if (law.size() != 4) return std::nullopt;
    model.trust[f] = {law[0], law[1], law[2], law[3]};
    model.level[f] = family.number("level", 0.4);
    model.least[f] = family.number("least", 0.5);
  }
  if (reader.failed() || !(model.evenedMedian > 0)) return std::nullopt;
  return model;
}

Error cutShort(const std::string& file) {
  return {"The model of marks " + file +
          " is cut short or damaged: put a whole copy in its place, or make it again (see "
          "vision/wood/propose/training). All else works without it."};
}

double logOdds(double p) {
  const double q = std::clamp(p, 1e-4, 1 - 1e-4);
  return std::log(q / (1 - q));
}

}  // namespace

RegionFamily familyOf(RegionKind kind) {
  switch (kind) {
    case RegionKind::crack:
      return RegionFamily::crack;
    case RegionKind::gum:
      return RegionFamily::gum;
    case RegionKind::pith:
      return RegionFamily::pith;
    case RegionKind::streak:
      return RegionFamily::streak;
    case RegionKind::stain:
      return RegionFamily::stain;
    default:
      return RegionFamily::round;
  }
}

double RegionTrust::confidence(double meanP, double topP, double areaPx) const {
  const double z = constant + mean * logOdds(meanP) + top * logOdds(topP) +
                   logArea * std::log(std::max(areaPx, 1.0));
  return 1 / (1 + std::exp(-z));
}

Result<MarkModel> markModelFrom(const std::vector<uint8_t>& bytes, const std::string& file) {
  Reader head(bytes);
  const uint8_t* magic = head.take(kMagicBytes);
  if (!magic || std::memcmp(magic, kMagic, kMagicBytes) != 0)
    return Error{file + " is no model of marks."};
  const uint32_t version = head.number();
  if (head.ok() && version != kVersion)
    return Error{"The model of marks " + file + " is of version " + std::to_string(version) +
                 "; this program reads version " + std::to_string(kVersion) +
                 ". Make it again (see vision/wood/propose/training)."};
  const uint32_t length = head.number(), sum = head.number();
  if (!head.ok() || head.left() != length) return cutShort(file);
  const std::vector<uint8_t> body(bytes.end() - static_cast<std::ptrdiff_t>(length), bytes.end());
  if (fnv1a(body.data(), body.size()) != sum) return cutShort(file);
  Reader in(body);
  const size_t saidLength = in.number();
  const uint8_t* said = in.take(saidLength);
  if (!said) return cutShort(file);
  auto model = modelOf({reinterpret_cast<const char*>(said), saidLength});
  if (!model || !unpack(in, model->onnx)) return cutShort(file);
  return *std::move(model);
}

Result<MarkModel> readMarkModel(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in)
    return Error{"The model of marks " + file.string() +
                 " cannot be opened: name another, or none for the program's own."};
  const std::vector<uint8_t> bytes{std::istreambuf_iterator<char>(in), {}};
  return markModelFrom(bytes, file.string());
}

const MarkModel& builtInMarkModel() {
  static const MarkModel model = [] {
    auto read = markModelFrom({racksideMarkModel, racksideMarkModelEnd}, "built in");
    if (!read) throw std::logic_error(read.error().message);
    return std::move(read).value();
  }();
  return model;
}

}  // namespace rackside
