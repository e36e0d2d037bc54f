// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/crayon_faces.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"
#include "tests/support/wood_face.h"

namespace rackside::test {
namespace {

double real(std::mt19937_64& random, double from, double to) {
  return std::uniform_real_distribution<double>(from, to)(random);
}

synthetic::DefectSpec defectAt(const char* kind, double x, double y, double along, double across) {
  synthetic::DefectSpec d;
  d.kind = kind;
  d.x = x, d.y = y;
  d.alongMm = along, d.acrossMm = across;
  return d;
}

}  // namespace

FaceToRead renderedFace(std::mt19937_64& random) {
  static const char* const species[] = {"cherry", "ash", "walnut", "maple", "oak"};
  synthetic::WoodSpec spec;
  spec.species = species[random() % 5];
  spec.seed = static_cast<uint32_t>(random());
  spec.pithYMm = real(random, 20, 180);
  spec.pithZMm = real(random, -120, -40);
  spec.saw.kind = random() % 2 ? "band" : "circular";
  if (random() % 2) spec.sapRadiusMm = real(random, 110, 160);
  spec.defects = {defectAt("knot", real(random, 60, 840), real(random, 30, 170), 12, 12),
                  defectAt("hole", real(random, 60, 840), real(random, 30, 170), 3, 3),
                  defectAt("check", 0, real(random, 30, 170), 120, 1),
                  defectAt("stain", real(random, 60, 840), real(random, 30, 170), 40, 15)};
  synthetic::PaintOptions paint;
  paint.mmPerPx = 0.5;
  paint.grey = real(random, 0, 1);
  const synthetic::WoodLog log(spec, 27);
  FaceToRead face;
  face.bgr = synthetic::paintFace(log, {0, 0, 900, 200}, 27, paint).bgr;
  face.wood = cv::Mat(face.bgr.size(), CV_8U, cv::Scalar(255));
  face.mmPerPx = paint.mmPerPx;
  return face;
}

FaceToRead realFace(const LabelledWood& picture) {
  FaceToRead face;
  face.mmPerPx = 0.3;
  cv::Mat mirroredBgr, mirroredWood;
  cv::flip(picture.bgr, mirroredBgr, 1);
  cv::flip(picture.wood, mirroredWood, 1);
  std::vector<cv::Mat> bgr, wood;
  for (int i = 0; i < 10; ++i) {
    bgr.push_back(i % 2 ? mirroredBgr : picture.bgr);
    wood.push_back(i % 2 ? mirroredWood : picture.wood);
  }
  cv::hconcat(bgr, face.bgr);
  cv::hconcat(wood, face.wood);
  return face;
}

std::vector<BrushStroke> drawAllKinds(FaceToRead& face, BrushColour colour,
                                      std::mt19937_64& random) {
  using Kind = BrushStroke::Kind;
  const cv::Rect wood = cv::boundingRect(face.wood);
  const double mm = face.mmPerPx, length = wood.width * mm, x0 = wood.x * mm, y0 = wood.y * mm,
               width = wood.height * mm;
  // The line runs near one edge, the others share the rest of the width.
  std::vector<BrushStroke> strokes{{Kind::line,
                                    {x0 + length * real(random, 0.45, 0.55), y0 + 26},
                                    length * real(random, 0.45, 0.8)}};
  std::vector<Kind> kinds{Kind::ring, Kind::cross, Kind::tick};
  std::shuffle(kinds.begin(), kinds.end(), random);
  for (size_t i = 0; i < kinds.size(); ++i) {
    const double size = real(random, 45, std::min(90.0, width - 75));
    strokes.push_back({kinds[i],
                       {x0 + length * (double(i) + 0.5) / 3, y0 + 40 + (width - 40) / 2},
                       kinds[i] == Kind::tick ? 0.75 * size : size});
  }
  for (const BrushStroke& s : strokes) drawCrayon(face.bgr, mm, s, colour, random);
  return strokes;
}

void CrayonTally::add(const CrayonTally& o) {
  drawn += o.drawn, right += o.right, wrongKind += o.wrongKind, missed += o.missed;
  extra += o.extra;
  for (int i = 0; i < 4; ++i)
    for (int j = 0; j < 5; ++j) confusion[i][j] += o.confusion[i][j];
}

CrayonTally scoreCrayon(const std::vector<BrushStroke>& drawn,
                        const std::vector<CrayonStroke>& read, double mmPerPx) {
  CrayonTally t;
  std::vector<uint8_t> used(read.size());
  for (const BrushStroke& d : drawn) {
    const bool line = d.kind == BrushStroke::Kind::line;
    const double reachX = line ? d.sizeMm / 2 + 10 : d.sizeMm / 2 + 5,
                 reachY = line ? 15 : d.sizeMm / 2 + 5;
    int as = 4;
    for (size_t i = 0; i < read.size(); ++i) {
      Point at;
      if (const auto* e = std::get_if<Ellipse>(&read[i].shape)) {
        at = e->centre;
      } else {
        const Rect box = bounds(polygonsOf(read[i].shape).front());
        at = {(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2};
      }
      if (std::abs(at.x * mmPerPx - d.middleMm.x) > reachX ||
          std::abs(at.y * mmPerPx - d.middleMm.y) > reachY || used[i])
        continue;
      used[i] = 1;
      if (as == 4 || read[i].kind == static_cast<StrokeKind>(d.kind))
        as = static_cast<int>(read[i].kind);
    }
    ++t.drawn;
    ++t.confusion[static_cast<int>(d.kind)][as];
    if (as == 4) {
      ++t.missed;
    } else if (as == static_cast<int>(d.kind)) {
      ++t.right;
    } else {
      ++t.wrongKind;
    }
  }
  t.extra = static_cast<int>(std::count(used.begin(), used.end(), 0));
  return t;
}

}  // namespace rackside::test
