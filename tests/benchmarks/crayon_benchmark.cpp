// SPDX-License-Identifier: GPL-3.0-or-later
// How well strokes of crayon are read on rendered faces, and on photographs of sawn wood where
// RACKSIDE_WOOD_SURFACE names their folder; the strokes are drawn over both by a brush model.
// Prints one table. Usage: crayon_benchmark [FACES [PICTURE-TO-WRITE]]
#include <cstdio>
#include <cstdlib>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/support/crayon_faces.h"

using namespace rackside;
using namespace rackside::test;

namespace {

constexpr const char* kColours[] = {"white", "yellow", "red", "blue"};
constexpr const char* kKinds[] = {"ring", "cross", "line", "tick"};

std::vector<cv::Mat> album;

void remember(const FaceToRead& face, const CrayonReading& reading) {
  cv::Mat shown = face.bgr.clone();
  for (const CrayonStroke& s : reading.strokes)
    for (const Polygon& p : polygonsOf(s.shape)) {
      std::vector<cv::Point> points;
      for (const Point q : p) points.emplace_back(cvRound(q.x), cvRound(q.y));
      cv::polylines(shown, points, true, {0, 0, 0}, 2);
      cv::putText(shown, kKinds[int(s.kind)], points.front(), 0, 0.9, {0, 0, 0}, 2);
    }
  cv::resize(shown, shown, {900, 900 * shown.rows / shown.cols}, 0, 0, cv::INTER_AREA);
  album.push_back(shown);
}

struct Row {
  CrayonTally drawn;
  int plainFaces = 0, falseOnPlain = 0;
};

void measure(FaceToRead face, int colour, std::mt19937_64& random, Row& row) {
  const auto wanted = static_cast<CrayonColour>(colour);
  ++row.plainFaces;
  row.falseOnPlain += int(readCrayon(face, wanted).strokes.size());
  const auto strokes = drawAllKinds(face, static_cast<BrushColour>(colour), random);
  const CrayonReading reading = readCrayon(face, wanted);
  const CrayonTally t = scoreCrayon(strokes, reading.strokes, face.mmPerPx);
  if (t.right < t.drawn || t.extra > 0) remember(face, reading);
  row.drawn.add(t);
}

void print(const char* faces, const char* colour, const Row& row) {
  std::printf("%-9s %-7s %6d %8.1f%% %6d %7d %7d %9d %12d\n", faces, colour, row.drawn.drawn,
              100.0 * row.drawn.right / std::max(1, row.drawn.drawn), row.drawn.wrongKind,
              row.drawn.missed, row.drawn.extra, row.plainFaces, row.falseOnPlain);
}

}  // namespace

int main(int argc, char** argv) {
  const int faces = argc > 1 ? std::atoi(argv[1]) : 20;
  const auto folder = woodSurfaceFolder();
  std::printf("%-9s %-7s %6s %9s %6s %7s %7s %9s %12s\n", "faces", "colour", "drawn", "right",
              "wrong", "missed", "extra", "plain", "false there");
  CrayonTally all;
  for (const bool photographs : {false, true}) {
    if (photographs && !folder) {
      std::printf("photographs: skipped, RACKSIDE_WOOD_SURFACE names no folder\n");
      continue;
    }
    const auto names = photographs ? woodSurfaceNames(*folder) : std::vector<std::string>{};
    for (int colour = 0; colour < 4; ++colour) {
      Row row;
      std::mt19937_64 random(uint64_t(100 + colour));
      for (int i = 0; i < faces; ++i) {
        FaceToRead face = photographs
                              ? realFace(loadLabelledWood(
                                    *folder, names[size_t(i * 29 + colour * 7) % names.size()]))
                              : renderedFace(random);
        measure(std::move(face), colour, random, row);
      }
      print(photographs ? "photo" : "rendered", kColours[colour], row);
      std::fflush(stdout);
      all.add(row.drawn);
    }
  }
  std::printf("\n%-8s", "drawn as");
  for (const char* k : {"ring", "cross", "line", "tick", "not read"}) std::printf(" %9s", k);
  for (int i = 0; i < 4; ++i) {
    std::printf("\n%-8s", kKinds[i]);
    for (int j = 0; j < 5; ++j) std::printf(" %9d", all.confusion[i][j]);
  }
  std::printf("\nall: %.1f %% of %d read as the right kind\n", 100.0 * all.right / all.drawn,
              all.drawn);
  if (argc > 2 && !album.empty()) {
    if (album.size() > 12) album.resize(12);
    int rows = 0;
    for (const cv::Mat& m : album) rows += m.rows;
    cv::Mat page;
    cv::vconcat(album, page);
    cv::imwrite(argv[2], page);
  }
  return 0;
}
