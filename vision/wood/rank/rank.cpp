// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/rank/rank.h"

#include <algorithm>
#include <mutex>
#include <opencv2/core/utility.hpp>

#include "vision/wood/rank/best_place.h"

namespace rackside {
namespace {

const char* const kLookAgain =
    "Plane a window on a grey face, or photograph it again after a skim pass (rackside scan "
    "--stage), to have its colour and sapwood judged too.";

constexpr double kLeastWindow = 0.004;  // share of the face that a planed window takes

struct BoardResult {
  std::optional<Placement> place;
  std::string why;
};

class Ranker {
 public:
  Ranker(const Part& part, const Shop& shop, const Wish& wish, const FigureSource& figures)
      : part_(part), shop_(shop), wish_(wish), figures_(figures) {}

  BoardResult rank(const Board& board) const {
    BoardResult r{std::nullopt, unfitReason(board, part_, shop_)};
    if (!r.why.empty()) return r;
    if (board.outline.vertices.size() < 3) return {std::nullopt, "it has no outline"};
    bool fitted = false;
    for (const Face face : {Face::A, Face::B}) {
      const Picture* picture = board.newestPicture(face);
      if (!picture) continue;
      rankFace(board, face, *picture, r, fitted);
    }
    if (r.place)
      r.why.clear();
    else if (r.why.empty())
      r.why = "no face was photographed yet: scan it first";
    return r;
  }

 private:
  void rankFace(const Board& board, Face face, const Picture& picture, BoardResult& r,
                bool& fitted) const {
    const auto maps = figures_(board, face);
    if (!maps) {
      r.why = maps.error().message;
      return;
    }
    const FaceJudged judged = judgedBy(picture, maps->colour);
    if (needsColour(wish_) && !judged.colour) {
      r.why = "face " + std::string(name(face)) + " " + judged.remark;
      return;
    }
    const FaceFigure figure(*maps);
    auto place = bestPlace(board, part_, shop_, face, wish_, figure);
    fitted = fitted || place;
    if (!place) {
      if (r.why.empty()) r.why = "no clear place is large enough for the part";
      return;
    }
    if (!judged.remark.empty()) place->reasons.push_back("face " + judged.remark);
    if (maps->saw.found() && !maps->saw.sure())
      place->reasons.push_back(
          "what may be saw marks was left in the picture, for it might be curl");
    if (!r.place || place->score > r.place->score) r.place = std::move(place);
  }

  const Part& part_;
  const Shop& shop_;
  const Wish& wish_;
  const FigureSource& figures_;
};

}  // namespace

FaceJudged judgedBy(const Picture& picture, const FaceColour& colour) {
  if (colour.shows()) return {};
  // The maker says planed, the picture says grey: what is seen goes before what was said.
  if (picture.stage == FaceStage::planed || picture.stage == FaceStage::skimmed)
    return {false, "is called " + std::string(name(picture.stage)) +
                       " but looks grey in its picture: not judged on colour"};
  if (picture.stage != FaceStage::windowPlaned)
    return {false, "is grey and rough: not judged on colour"};
  if (colour.windowShare >= kLeastWindow)
    return {true, "shows its colour in the planed window only"};
  return {false, "has a planed window that its picture does not show: not judged on colour"};
}

Result<Ranking> rankBoards(const std::vector<Board>& boards, const Part& part, const Shop& shop,
                           const Wish& wish, const FigureSource& figures, RunControl& control) {
  if (const Status s = validate(part); !s) return s.error();
  if (const Status s = validate(shop); !s) return s.error();
  const Ranker ranker(part, shop, wish, figures);
  std::vector<BoardResult> results(boards.size());
  std::mutex guard;
  size_t done = 0;
  cv::parallel_for_(cv::Range(0, int(boards.size())), [&](const cv::Range& range) {
    for (int i = range.start; i < range.end; ++i) {
      if (control.shouldEnd()) return;
      results[i] = ranker.rank(boards[i]);
      const std::scoped_lock lock(guard);
      control.report(double(++done) / double(boards.size()), "looking at board " + boards[i].name);
    }
  });
  if (control.shouldEnd()) return Error{"Stopped before every board was looked at."};
  Ranking ranking;
  ranking.wish = wish;
  for (size_t i = 0; i < boards.size(); ++i) {
    if (results[i].place)
      ranking.places.push_back(std::move(*results[i].place));
    else
      ranking.notRanked.push_back({boards[i].id, results[i].why});
  }
  const auto grey = [](const std::string& text) {
    return text.find("not judged on colour") != std::string::npos;
  };
  const bool anyGrey = std::any_of(ranking.places.begin(), ranking.places.end(),
                                   [&](const Placement& p) {
                                     return std::any_of(p.reasons.begin(), p.reasons.end(), grey);
                                   }) ||
                       std::any_of(ranking.notRanked.begin(), ranking.notRanked.end(),
                                   [&](const NotRanked& n) { return grey(n.why); });
  if (anyGrey) ranking.remarks.emplace_back(kLookAgain);
  std::stable_sort(ranking.places.begin(), ranking.places.end(),
                   [](const Placement& a, const Placement& b) { return a.score > b.score; });
  return ranking;
}

}  // namespace rackside
