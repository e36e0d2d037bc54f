// SPDX-License-Identifier: GPL-3.0-or-later
// Reads strokes of lumber crayon or chalk on a face: a closed ring (avoid what is inside), a cross
// (a hole to fill), a long line along an edge (sapwood, from the line to that edge) and a tick
// (favour this spot), all in the one colour that the maker chose.
#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <string_view>
#include <vector>

#include "core/wood/mark.h"
#include "vision/wood/propose/propose.h"

namespace rackside {

enum class CrayonColour { white, yellow, red, blue };
std::string_view name(CrayonColour colour);
std::optional<CrayonColour> crayonColourFromName(std::string_view name);

enum class StrokeKind { ring, cross, line, tick };
std::string_view name(StrokeKind kind);

struct CrayonStroke {
  StrokeKind kind = StrokeKind::ring;
  double confidence = 0;  // 0..1
  // Pixels of the picture given. Ring: what it encloses, to the middle of the stroke. Cross: round
  // where it crosses. Line: its middle, with its width. Tick: round the whole tick.
  MarkShape shape;
};

struct CrayonReading {
  std::vector<CrayonStroke> strokes;
  // CV_8U of the picture's size, 255 on every stroke and scrawl of that colour, read or not, with a
  // little round it: not to be taken for a mark of the wood.
  cv::Mat covered;
};

CrayonReading readCrayon(const FaceToRead& face, CrayonColour colour);

}  // namespace rackside
