// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/propose/propose_board.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

#include "core/geometry/polygon.h"

namespace rackside {
namespace {

// What one face is not sure of the other may confirm: looked for down to this share of the bar.
constexpr double kShareForTwins = 0.6;
// A knot's axis leans at most about so far as it goes through (tangent): a branch may rise at 30°
// and more, but then its two ends are different knots to whoever cuts the board.
constexpr double kMostLean = 0.6;
constexpr double kMostSizes = 4;     // ratio of the areas of one knot's two ends
constexpr double kEndReachMm = 4;    // a check this near an end of the board is a split
constexpr double kTwinLineMm = 6;    // besides the registration, between a check's two lines

bool softOrGummy(const std::string& species) {
  static const char* const words[] = {"pine", "spruce", "fir", "larch", "cedar", "cherry",
                                      "softwood"};
  return species.empty() || std::any_of(std::begin(words), std::end(words), [&](const char* w) {
           return species.find(w) != std::string::npos;
         });
}

bool reachesEnd(const MarkShape& shape, const Board& board) {
  const auto* line = std::get_if<Stroke>(&shape);
  if (!line) return false;
  const Rect box = bounds(board.outline.polygon());
  return std::any_of(line->points.begin(), line->points.end(), [&](Point p) {
    return p.x < box.x0 + kEndReachMm || p.x > box.x1 - kEndReachMm;
  });
}

void name(Mark& m, RegionKind kind, const MarkShape& shape, const Board& board) {
  switch (kind) {
    case RegionKind::liveKnot:
      m.kind = MarkKind::knot;
      m.soundness = Soundness::sound;
      break;
    case RegionKind::deadKnot:
      m.kind = MarkKind::knot;
      m.soundness = Soundness::loose;
      break;
    case RegionKind::crackedKnot:
      m.kind = MarkKind::knot;
      m.note = "with a check in it";
      break;
    case RegionKind::crack:
      m.kind = reachesEnd(shape, board) ? MarkKind::split : MarkKind::check;
      break;
    case RegionKind::gum:
      m.kind = softOrGummy(board.species) ? MarkKind::gum : MarkKind::barkPocket;
      break;
    case RegionKind::pith:
      m.kind = MarkKind::pith;
      break;
    case RegionKind::hole:
      m.kind = MarkKind::holeToFill;
      break;
    case RegionKind::streak:
      m.kind = MarkKind::stain;
      m.note = "a brown streak";
      break;
    default:
      m.kind = MarkKind::stain;
  }
}

// The bar that a suggestion has to reach by itself.
double barOf(const Mark& m) {
  if (m.kind == MarkKind::check || m.kind == MarkKind::split)
    return leastConfidence(RegionKind::crack);
  if (m.kind == MarkKind::stain && !m.note.empty()) return leastConfidence(RegionKind::streak);
  return leastConfidence(RegionKind::liveKnot);
}

bool isLine(const Mark& m) {
  return m.kind == MarkKind::check || m.kind == MarkKind::split;
}
bool isRound(const Mark& m) {
  return m.kind == MarkKind::knot || m.kind == MarkKind::holeToFill ||
         m.kind == MarkKind::barkPocket || m.kind == MarkKind::pith;
}

Point middleOf(const MarkShape& shape) {
  if (const auto* e = std::get_if<Ellipse>(&shape)) return e->centre;
  const Polygons ps = polygonsOf(shape);
  const Rect b = ps.empty() ? Rect{} : bounds(ps.front());
  return {(b.x0 + b.x1) / 2, (b.y0 + b.y1) / 2};
}

bool roundTwins(const MarkShape& a, const MarkShape& b, double slackMm, double thicknessMm) {
  const double areaA = area(polygonsOf(a)), areaB = area(polygonsOf(b));
  if (areaA > kMostSizes * areaB || areaB > kMostSizes * areaA) return false;
  const double own = std::sqrt(std::min(areaA, areaB) / CV_PI);
  // A small knot's neighbour is not its other end: it may lean by its own size at most.
  const double lean = std::min(kMostLean * thicknessMm, 2 * own);
  return norm(middleOf(a) - middleOf(b)) <= slackMm + lean;
}

bool lineTwins(const MarkShape& a, const MarkShape& b, double slackMm) {
  const auto* la = std::get_if<Stroke>(&a);
  const auto* lb = std::get_if<Stroke>(&b);
  if (!la || !lb) return false;
  const Polygons wideA = strokePolygons({la->points, 2 * (slackMm + kTwinLineMm)}),
                 thinB = strokePolygons({lb->points, 1});
  return area(intersect(wideA, thinB)) > 0.5 * area(thinB);
}

bool twins(const Mark& a, const Mark& b, const Board& board) {
  const double slack = board.faceB ? board.faceB->u95Mm : 0;
  if (isLine(a) && isLine(b))
    return lineTwins(*a.onA, *b.onB, slack) || lineTwins(*b.onB, *a.onA, slack);
  return isRound(a) && isRound(b) && roundTwins(*a.onA, *b.onB, slack, board.thicknessMm);
}

// Of two readings of one thing the graver.
void join(Mark& a, const Mark& b) {
  a.onB = b.onB;
  a.through = true;
  const bool hole = a.kind == MarkKind::holeToFill || b.kind == MarkKind::holeToFill;
  if (a.kind != b.kind && b.confidence > a.confidence) a.kind = b.kind;
  if (isRound(a) && hole) a.kind = MarkKind::holeToFill;
  const bool loose = a.soundness == Soundness::loose || b.soundness == Soundness::loose;
  a.soundness = a.kind != MarkKind::knot ? Soundness::unknown
                : loose                  ? Soundness::loose
                                         : a.soundness;
  a.confidence = 1 - (1 - a.confidence) * (1 - b.confidence);
}

void surestFirst(std::vector<Mark>& marks) {
  std::stable_sort(marks.begin(), marks.end(),
                   [](const Mark& a, const Mark& b) { return a.confidence > b.confidence; });
}

}  // namespace

std::vector<Mark> marksFrom(const std::vector<ProposedMark>& proposed, const BoardFace& face,
                            const Board& board, Face side) {
  std::vector<Mark> marks;
  for (const ProposedMark& p : proposed) {
    Mark m;
    m.id.text = newIdText("mk");
    m.author = MarkAuthor::proposal;
    m.confirmed = false;
    m.confidence = std::clamp(std::round(p.confidence * 1000) / 1000, 0.0, 1.0);
    m.depthFrom = side;
    const MarkShape shape = carried(p.shape, face.boardFromPicture);
    name(m, p.kind, shape, board);
    m.on(side) = shape;
    if (validate(m)) marks.push_back(std::move(m));
  }
  return marks;
}

std::vector<Mark> joinFaces(std::vector<Mark> onA, std::vector<Mark> onB, const Board& board) {
  std::vector<uint8_t> joined(onB.size());
  for (Mark& a : onA) {
    size_t best = onB.size();
    for (size_t i = 0; i < onB.size(); ++i)
      if (!joined[i] && twins(a, onB[i], board) &&
          (best == onB.size() || norm(middleOf(*onB[i].onB) - middleOf(*a.onA)) <
                                     norm(middleOf(*onB[best].onB) - middleOf(*a.onA))))
        best = i;
    if (best == onB.size()) continue;
    joined[best] = 1;
    join(a, onB[best]);
  }
  for (size_t i = 0; i < onB.size(); ++i)
    if (!joined[i]) onA.push_back(std::move(onB[i]));
  onA.erase(std::remove_if(onA.begin(), onA.end(),
                           [](const Mark& m) { return m.confidence < barOf(m); }),
            onA.end());
  surestFirst(onA);
  return onA;
}

Result<BoardProposals> proposeForBoard(const Board& board, const std::filesystem::path& boardFolder,
                                       std::array<cv::Mat, 2> notWood, RunControl& run) {
  std::array<std::vector<Mark>, 2> found;
  BoardProposals out;
  for (const Face side : {Face::A, Face::B}) {
    if (!board.seen(side)) continue;
    run.report(side == Face::A ? 0.1 : 0.5, "looking at face " + std::string(rackside::name(side)));
    auto face = boardFace(board, side, boardFolder);
    if (!face) return face.error();
    const auto at = static_cast<size_t>(side);
    FaceToRead& picture = face.value().face;
    if (!notWood[at].empty()) picture.wood.setTo(0, notWood[at]);
    const double share = board.seen(otherFace(side)) ? kShareForTwins : 1;
    found[at] = marksFrom(proposeMarks(picture, builtInProposeModel(), run, share), *face, board,
                          side);
    if (run.shouldEnd()) return Error{"Looking for marks was stopped; nothing was changed."};
    out.facesLookedAt.push_back(side);
  }
  if (out.facesLookedAt.empty())
    return Error{"Board " + board.name + " has no picture to look at: scan it first."};
  out.marks = joinFaces(std::move(found[0]), std::move(found[1]), board);
  return out;
}

}  // namespace rackside
