// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/scene_textures.h"

#include <algorithm>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/support/noise.h"
#include "vision/cards/card_model.h"

namespace rackside::synthetic {
namespace {

constexpr double kPrintPxPerMm = 8;
constexpr double kSoften = 0.33;  // sigma of the softening ÷ footprint
constexpr double kGroundMmPerPx = 1.25;

void writePng(const std::filesystem::path& file, const cv::Mat& bgr) {
  cv::imwrite(file.string(), bgr, {cv::IMWRITE_PNG_COMPRESSION, 1});
}

cv::Vec3b tint(float level, const cv::Vec3f& bgr) {
  return {cv::saturate_cast<uchar>(255 * level * bgr[0]),
          cv::saturate_cast<uchar>(255 * level * bgr[1]),
          cv::saturate_cast<uchar>(255 * level * bgr[2])};
}

// Trowelled concrete: clouds, aggregate, stains, hairline cracks and sawdust.
cv::Mat concrete(int w, int h) {
  cv::Mat m(h, w, CV_8UC3);
  for (int y = 0; y < h; ++y) {
    for (int x = 0; x < w; ++x) {
      const float u = static_cast<float>(x * kGroundMmPerPx);
      const float v = static_cast<float>(y * kGroundMmPerPx);
      float level = 0.56F + 0.055F * cloud2(901, u / 620, v / 540) +
                    0.035F * cloud2(902, u / 90, v / 80) + 0.035F * noise2(903, u / 3, v / 3) +
                    0.02F * cellSigned(904, x, y);
      level -= 0.10F * std::max(0.0F, cloud2(905, u / 300, v / 260) - 0.45F);
      const float crack =
          std::abs(cloud2(906, u / 900, v / 700) + 0.16F * noise2(908, u / 45, v / 45) - 0.35F);
      if (crack < 0.0025F && noise2(909, u / 500, v / 500) > 0.1F) level *= 0.80F;
      m.at<cv::Vec3b>(y, x) = tint(level, {0.95F, 0.99F, 1.02F});
      if (cellUnit(907, x / 2, y) > 0.9985F) m.at<cv::Vec3b>(y, x) = {120, 160, 190};
    }
  }
  return m;
}

// Worn softwood planks 145 mm wide with dark joints.
cv::Mat planks(int w, int h, const std::string& species, double plankMm, double grey) {
  cv::Mat m(h, w, CV_8UC3, cv::Scalar(30, 34, 40));
  const int rows = static_cast<int>(plankMm / kGroundMmPerPx);
  for (int top = 0, k = 0; top < h; top += rows, ++k) {
    WoodSpec s;
    s.species = species;
    s.seed = 3000 + static_cast<uint32_t>(k) * 37;
    Draw draw(s.seed);
    s.pithYMm = draw.between(-60, 200);
    s.pithZMm = draw.between(-160, -40);
    s.saw.kind = "none";
    const WoodLog log(s, 25);
    PaintOptions o;
    o.mmPerPx = kGroundMmPerPx;
    o.grey = grey;
    o.stickerBands = false;
    const double gap = 2;
    PaintedWood p = paintFace(log, {0, 0, w * kGroundMmPerPx, plankMm - gap}, 25, o);
    p.bgr.convertTo(p.bgr, -1, draw.between(0.82, 1.04), 0);
    const int take = std::min({p.bgr.rows, h - top, rows - 1});
    p.bgr(cv::Rect(0, 0, w, take)).copyTo(m(cv::Rect(0, top, w, take)));
  }
  return m;
}

cv::Mat plaster(int w, int h) {
  cv::Mat m(h, w, CV_8UC3);
  for (int y = 0; y < h; ++y) {
    for (int x = 0; x < w; ++x) {
      const float u = static_cast<float>(x * kGroundMmPerPx);
      const float v = static_cast<float>(y * kGroundMmPerPx);
      const float level = 0.80F + 0.03F * cloud2(911, u / 500, v / 420) +
                          0.02F * cloud2(912, u / 24, v / 20) + 0.012F * cellSigned(913, x, y);
      m.at<cv::Vec3b>(y, x) = tint(level, {0.93F, 0.98F, 1.0F});
    }
  }
  return m;
}

cv::Mat groundPicture(const std::string& kind) {
  const int w = static_cast<int>(2 * kGroundHalfLengthMm / kGroundMmPerPx);
  const int h = static_cast<int>(2 * kGroundHalfDepthMm / kGroundMmPerPx);
  if (kind == "concrete") return concrete(w, h);
  if (kind == "plaster") return plaster(w, h);
  if (kind == "planks") return planks(w, h, "oak", 145, 0.75);
  // A bench top glued of strips, named by its wood.
  return planks(w, h, kind, 95, 0.15);
}

}  // namespace

SceneTextures::SceneTextures(std::filesystem::path folder, std::filesystem::path kept,
                             double footprintMm)
    : folder_(std::move(folder)),
      kept_(std::move(kept)),
      footprintMm_(footprintMm),
      paintMmPerPx_(std::clamp(0.45 * footprintMm, 0.25, 0.6)) {}

TextureMap SceneTextures::save(cv::Mat bgr, double mmPerPx, double u0, double v1) {
  const double sigma = kSoften * footprintMm_ / mmPerPx;
  if (sigma > 0.3) cv::GaussianBlur(bgr, bgr, cv::Size(), sigma);
  const std::filesystem::path file = folder_ / ("t" + std::to_string(count_++) + ".png");
  writePng(file, bgr);
  return {file.string(), mmPerPx, u0, v1, bgr.cols, bgr.rows};
}

TextureMap SceneTextures::wood(const PaintedWood& p) {
  return save(p.bgr.clone(), p.mmPerPx, p.u0, p.v1);
}

TextureMap SceneTextures::bark(double lengthMm, double heightMm, uint32_t seed, double grey) {
  const double mm = 0.6;
  cv::Mat m(static_cast<int>(heightMm / mm) + 2, static_cast<int>(lengthMm / mm) + 2, CV_8UC3);
  const float g = static_cast<float>(grey);
  for (int y = 0; y < m.rows; ++y) {
    for (int x = 0; x < m.cols; ++x) {
      const float u = static_cast<float>(x * mm);
      const float v = static_cast<float>(y * mm);
      const float level = 0.30F + 0.12F * cloud2(seed + 7, u / 26, v / 9) +
                          0.08F * noise2(seed + 8, u / 4, v / 2) + 0.05F * g;
      m.at<cv::Vec3b>(y, x) = tint(level, {0.68F, 0.83F, 1.0F});
    }
  }
  return save(m, mm, 0, heightMm);
}

TextureMap SceneTextures::card(int number) {
  const CardModel card = cardModel(number);
  cv::Mat grey = drawCard(card, kPrintPxPerMm);
  cv::Mat bgr;
  grey.convertTo(grey, -1, (236.0 - 34.0) / 255, 34);  // toner is not black nor paper white
  cv::cvtColor(grey, bgr, cv::COLOR_GRAY2BGR);
  const double mm = 1 / kPrintPxPerMm;
  return save(bgr, mm, 0.5 * mm, card.heightMm - 0.5 * mm);
}

TextureMap SceneTextures::tag(int number) {
  const TagModel tag = tagModel(number);
  cv::Mat grey = drawTag(tag, kPrintPxPerMm);
  cv::Mat bgr;
  grey.convertTo(grey, -1, (236.0 - 34.0) / 255, 34);
  cv::cvtColor(grey, bgr, cv::COLOR_GRAY2BGR);
  const double mm = 1 / kPrintPxPerMm;
  return save(bgr, mm, 0.5 * mm, tag.heightMm - 0.5 * mm);
}

TextureMap SceneTextures::ground(const std::string& kind) {
  const std::filesystem::path file = kept_ / ("ground4-" + kind + ".png");
  if (!std::filesystem::exists(file)) {
    const std::filesystem::path aside = folder_ / ("aside-" + kind + ".png");
    writePng(aside, groundPicture(kind));
    std::filesystem::rename(aside, file);
  }
  const int w = static_cast<int>(2 * kGroundHalfLengthMm / kGroundMmPerPx);
  const int h = static_cast<int>(2 * kGroundHalfDepthMm / kGroundMmPerPx);
  return {file.string(), kGroundMmPerPx, -kGroundHalfLengthMm, kGroundHalfDepthMm, w, h};
}

}  // namespace rackside::synthetic
