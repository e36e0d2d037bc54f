// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/cards/code_reader.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <future>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "vision/cards/card_model.h"
#include "vision/cards/dark_quads.h"
#include "vision/cards/sample.h"

namespace rackside {
namespace {

// Candidates are sought twice: in a picture reduced to a long side of 2048 px, which shows the
// codes of most pictures without their noise, and at up to 4096 px for the smallest and the
// blurred. The least contrast keeps grain and noise from filling the picture with candidates; the
// finer one is smoothed besides, which takes two thirds of its time away and no code at 0.8 mm a
// pixel.
struct Search {
  double longSidePx;
  double leastContrast;  // grey levels
  int smoothPx;          // side of the box filter, 1: none
};
constexpr Search kSearches[] = {{2048, 6, 1}, {4096, 10, 3}};
constexpr double kLeastSidePx = 8;  // of a code in the searched picture

struct CodeSet {
  CodeKind kind;
  int bits;
  int mostWrong;                // bits put right
  std::vector<uint64_t> words;  // id·4 + turn
};

uint64_t wordOf(const cv::Mat& modules, int bits) {
  uint64_t word = 0;
  for (int r = 1; r <= bits; ++r)
    for (int c = 1; c <= bits; ++c) word = word << 1 | (modules.at<uchar>(r, c) != 0 ? 1u : 0u);
  return word;
}

// The word as read when the code's top left is the quadrilateral's corner `turn`.
template <class ModulesOf>
CodeSet codeSet(CodeKind kind, int bits, int mostWrong, int count, ModulesOf modulesOf) {
  CodeSet set{kind, bits, mostWrong, {}};
  for (int id = 0; id < count; ++id) {
    cv::Mat modules = modulesOf(id);
    for (int turn = 0; turn < 4; ++turn) {
      set.words.push_back(wordOf(modules, bits));
      cv::rotate(modules.clone(), modules, cv::ROTATE_90_CLOCKWISE);
    }
  }
  return set;
}

// One wrong bit is put right on cards, whose codes differ by three and whose pattern is checked
// afterwards; two on tags, whose codes differ by eight.
const CodeSet& cardCodes() {
  static const CodeSet set =
      codeSet(CodeKind::card, kCardCodeBits, 1, cardCodeCount(), cardCodeModules);
  return set;
}
const CodeSet& tagCodes() {
  static const CodeSet set =
      codeSet(CodeKind::tag, kTagCodeBits, 2, tagCodeCount(), tagCodeModules);
  return set;
}

cv::Matx33d gridToImage(const Quad& quad, int modules) {
  const float m = static_cast<float>(modules);
  const std::array<cv::Point2f, 4> from = {cv::Point2f(0, 0), {m, 0}, {m, m}, {0, m}};
  std::array<cv::Point2f, 4> to;
  std::copy(quad.begin(), quad.end(), to.begin());
  return cv::getPerspectiveTransform(from, to);
}

double moduleGrey(const cv::Mat& grey, const cv::Matx33d& h, int row, int column) {
  double sum = 0;
  for (double dy : {0.3, 0.5, 0.7})
    for (double dx : {0.3, 0.5, 0.7}) sum += sampleAt(grey, through(h, column + dx, row + dy));
  return sum / 9;
}

// Grey values of all modules and of the quiet ring around them: (bits + 4)².
cv::Mat1d readModules(const cv::Mat& grey, const cv::Matx33d& h, int bits) {
  cv::Mat1d values(bits + 4, bits + 4);
  for (int r = 0; r < bits + 4; ++r)
    for (int c = 0; c < bits + 4; ++c) values(r, c) = moduleGrey(grey, h, r - 1, c - 1);
  return values;
}

struct Frame {
  double black, white;
};

// The black border and the quiet ring must stand apart; a few modules may be spoilt by glare or
// dirt.
std::optional<Frame> frameOf(const cv::Mat1d& values) {
  const int n = values.rows;
  std::vector<double> border, quiet;
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < n; ++j) {
      const int ring = std::min({i, j, n - 1 - i, n - 1 - j});
      if (ring == 0) quiet.push_back(values(i, j));
      if (ring == 1) border.push_back(values(i, j));
    }
  std::sort(border.begin(), border.end());
  std::sort(quiet.begin(), quiet.end());
  const Frame frame{border[border.size() / 2], quiet[quiet.size() / 2]};
  if (frame.white - frame.black < 20) return std::nullopt;
  const double middle = (frame.black + frame.white) / 2;
  const auto light =
      std::count_if(border.begin(), border.end(), [&](double v) { return v > middle; });
  const auto dark = std::count_if(quiet.begin(), quiet.end(), [&](double v) { return v < middle; });
  if (light > 2 || dark > static_cast<long>(quiet.size()) / 5) return std::nullopt;
  return frame;
}

uint64_t wordRead(const cv::Mat1d& values, const Frame& frame, int bits) {
  const double middle = (frame.black + frame.white) / 2;
  uint64_t word = 0;
  for (int r = 0; r < bits; ++r)
    for (int c = 0; c < bits; ++c) word = word << 1 | (values(r + 2, c + 2) > middle ? 1u : 0u);
  return word;
}

std::optional<ReadCode> readAs(const CodeSet& set, const cv::Mat& grey, const Quad& quad) {
  const cv::Mat1d values = readModules(grey, gridToImage(quad, set.bits + 2), set.bits);
  const auto frame = frameOf(values);
  if (!frame) return std::nullopt;
  const uint64_t word = wordRead(values, *frame, set.bits);
  size_t best = 0;
  int wrong = 1000;
  for (size_t i = 0; i < set.words.size() && wrong > 0; ++i) {
    const int apart = __builtin_popcountll(word ^ set.words[i]);
    if (apart < wrong) {
      wrong = apart;
      best = i;
    }
  }
  if (wrong > set.mostWrong) return std::nullopt;
  ReadCode code{set.kind, static_cast<int>(best / 4), wrong, frame->white - frame->black, {}};
  // Turned clockwise `turn` times, the code's top left is the quadrilateral's corner `turn`.
  for (size_t i = 0; i < 4; ++i) code.cornersPx[i] = quad[(i + best % 4) % 4];
  return code;
}

std::optional<ReadCode> readQuad(const cv::Mat& grey, Quad quad, double reachPx) {
  if (!refineQuad(grey, reachPx, quad)) return std::nullopt;
  if (const auto code = readAs(tagCodes(), grey, quad)) return code;
  return readAs(cardCodes(), grey, quad);
}

cv::Point2d centreOf(const ReadCode& code) {
  const auto& c = code.cornersPx;
  return 0.25 * (c[0] + c[1] + c[2] + c[3]);
}

void keepBest(std::vector<ReadCode>& codes, const ReadCode& code) {
  const double size = cv::norm(code.cornersPx[0] - code.cornersPx[2]);
  for (ReadCode& held : codes)
    if (cv::norm(centreOf(held) - centreOf(code)) < 0.4 * size) {
      if (code.wrongBits < held.wrongBits) held = code;
      return;
    }
  codes.push_back(code);
}

std::vector<ReadCode> searchCodes(const cv::Mat& grey, const Search& search) {
  const double reduction = std::max(1.0, std::max(grey.cols, grey.rows) / search.longSidePx);
  cv::Mat searched = grey;
  if (reduction > 1) cv::resize(grey, searched, {}, 1 / reduction, 1 / reduction, cv::INTER_AREA);
  const double x = double(grey.cols) / searched.cols, y = double(grey.rows) / searched.rows;
  if (search.smoothPx > 1) {
    cv::Mat smooth;
    cv::blur(searched, smooth, {search.smoothPx, search.smoothPx});
    searched = smooth;
  }
  std::vector<ReadCode> codes;
  for (Quad quad : darkQuads(searched, kLeastSidePx, search.leastContrast)) {
    for (cv::Point2d& p : quad) p = {(p.x + 0.5) * x - 0.5, (p.y + 0.5) * y - 0.5};
    if (const auto code = readQuad(grey, quad, std::max(2.5, 1.7 * reduction)))
      keepBest(codes, *code);
  }
  return codes;
}

}  // namespace

std::optional<int> wrongBitsOfCardCode(const cv::Mat& grey, int id,
                                       const cv::Matx33d& imageFromGrid) {
  const cv::Mat1d values = readModules(grey, imageFromGrid, kCardCodeBits);
  const auto frame = frameOf(values);
  if (!frame) return std::nullopt;
  const uint64_t upright = cardCodes().words[4 * static_cast<size_t>(id)];
  return __builtin_popcountll(upright ^ wordRead(values, *frame, kCardCodeBits));
}

std::vector<ReadCode> readCodes(const cv::Mat& grey) {
  auto fine = std::async(std::launch::async, [&grey] { return searchCodes(grey, kSearches[1]); });
  std::vector<ReadCode> codes = searchCodes(grey, kSearches[0]);
  for (const ReadCode& code : fine.get()) keepBest(codes, code);
  return codes;
}

}  // namespace rackside
