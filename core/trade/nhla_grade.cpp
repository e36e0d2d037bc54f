// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/nhla_grade.h"

#include <algorithm>
#include <cmath>

#include "core/base/length.h"
#include "core/trade/grade_limits.h"
#include "core/trade/tally.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

constexpr double kMmPerFoot = 304.8;
constexpr double kSlackMm = 1e-6;
// Searches that one face may need: the ways of five grades.
constexpr int kSearchesPerFace = 8;

enum class Reverse { mustBeSound, free };

void addShape(std::vector<Polygon>& all, const std::optional<MarkShape>& shape) {
  if (!shape) return;
  for (Polygon& p : polygonsOf(*shape)) all.push_back(std::move(p));
}

// What keeps a cutting off this face: its own faults, and unsound wood on the other.
std::vector<Polygon> defectsOn(const Board& board, Face face, bool soundWillDo, Reverse reverse) {
  std::vector<Polygon> all;
  for (const Mark& mark : board.marks) {
    if (!counts(mark)) continue;
    if (soundWillDo ? isUnsound(mark) : spoilsClear(mark)) {
      addShape(all, mark.on(face));
      if (mark.through) addShape(all, mark.on(otherFace(face)));
    }
    if (reverse == Reverse::mustBeSound && isUnsound(mark)) addShape(all, mark.on(otherFace(face)));
  }
  return all;
}

class FaceGrader {
 public:
  FaceGrader(const Board& board, Face face, int sm, Reverse reverse, double limitSeconds)
      : board_(board),
        face_(face),
        sm_(sm),
        limitSeconds_(limitSeconds / kSearchesPerFace),
        clear_(gradeMap(board.outline, defectsOn(board, face, false, reverse))),
        sound_(gradeMap(board.outline, defectsOn(board, face, true, reverse))) {
    result_.face = face;
    const Rect box = bounds(board.outline.polygon());
    lengthMm_ = box.width();
    widthMm_ = tallyWidthMm(board.outline);
  }

  FaceGrade grade() {
    for (const GradeRule& rule : faceRules())
      if (meets(rule, rule.leastWidthIn, rule.leastLengthFt)) {
        result_.grade = rule.grade;
        return result_;
      }
    return result_;
  }

  // Does the face make FAS on a board that need only be of the size of Selects?
  bool makesSelects() { return meets(faceRule(Grade::fas), 4, 6); }
  bool makes(Grade grade) {
    const GradeRule& rule = faceRule(grade);
    return meets(rule, rule.leastWidthIn, rule.leastLengthFt);
  }
  const FaceGrade& result() const { return result_; }

 private:
  bool meets(const GradeRule& rule, double leastWidthIn, double leastLengthFt) {
    const auto missed = [&](const std::string& why) {
      result_.whyNotHigher.push_back(std::string(name(rule.grade)) + ": " + why);
      return false;
    };
    if (widthMm_ + kSlackMm < leastWidthIn * kMmPerInch ||
        lengthMm_ + kSlackMm < leastLengthFt * kMmPerFoot)
      return missed("the board is too small");
    const std::string limit = limitMissed(rule.grade, board_, face_, clear_, sound_, sm_);
    if (!limit.empty()) return missed(limit);
    for (const CuttingDemand& demand : demands(rule.grade, sm_))
      if (yields(rule, demand)) return true;
    if (rule.grade == Grade::fas && fullWidthWay()) return true;
    return missed("the cuttings yield too little");
  }

  bool yields(const GradeRule& rule, const CuttingDemand& demand) {
    const GradeMap& map = rule.soundWillDo ? sound_ : clear_;
    CuttingSearch search;
    for (const LeastCuttingSize& least : rule.leastCuttings)
      search.least.push_back({static_cast<int>(std::ceil(least.lengthIn - 1e-9)),
                              static_cast<int>(std::ceil(least.widthIn * 4 - 1e-9))});
    search.most = demand.cuttings;
    search.enough = std::llround(std::ceil(demand.units * kCellsPerUnit - 1e-9));
    search.limitSeconds = limitSeconds_;
    const CuttingResult found = bestCuttings(map.clear, search);
    if (!found.reaches(search.enough)) {
      if (!found.cannotReach(search.enough)) result_.proven = false;
      return false;
    }
    keep(map, found.cuttings, demand);
    return true;
  }

  // 97 % of boards of 6 to 12 ft², at least 6 in wide, in two cuttings of full width
  // (hooddistribution.com).
  bool fullWidthWay() {
    if (sm_ < 6 || sm_ > 12 || widthMm_ + kSlackMm < 6 * kMmPerInch) return false;
    std::vector<GridRect> runs;
    int start = -1;
    for (int column = 0; column <= clear_.wood.columns; ++column) {
      const bool free = column < clear_.wood.columns && columnIsFree(column);
      if (free && start < 0) start = column;
      if (!free && start >= 0) {
        if (column - start >= 60) runs.push_back({start, 0, column, clear_.wood.rows});
        start = -1;
      }
    }
    std::sort(runs.begin(), runs.end(),
              [](const GridRect& a, const GridRect& b) { return a.columns() > b.columns(); });
    if (runs.size() > 2) runs.resize(2);
    const CuttingDemand demand{2, sm_ * 11.64};
    double units = 0;
    for (const GridRect& r : runs) units += r.columns() / 12.0 * widthMm_ / kMmPerInch;
    if (units < demand.units) return false;
    keep(clear_, runs, demand);
    result_.units = units;
    return true;
  }
  bool columnIsFree(int column) const {
    for (int row = 0; row < clear_.wood.rows; ++row)
      if (clear_.wood.at(column, row) != clear_.clear.at(column, row)) return false;
    return true;
  }

  void keep(const GradeMap& map, const std::vector<GridRect>& cuttings,
            const CuttingDemand& demand) {
    result_.cuttings.clear();
    result_.units = 0;
    for (const GridRect& r : cuttings) {
      result_.cuttings.push_back(map.polygonOf(r));
      result_.units += static_cast<double>(r.area()) / kCellsPerUnit;
    }
    result_.unitsNeeded = demand.units;
    result_.cuttingsAllowed = demand.cuttings;
  }

  const Board& board_;
  Face face_;
  int sm_;
  double limitSeconds_;
  GradeMap clear_, sound_;
  double lengthMm_ = 0, widthMm_ = 0;
  FaceGrade result_;
};

// FAS One Face and Selects: the better face makes FAS, the other No. 1 Common, whose cuttings need
// not be sound behind (NHLA 2019, Rules Corner).
Grade twoFacedGrade(const Board& board, const BoardGrade& so, double limitSeconds) {
  Grade best = Grade::below;
  for (const Face better : {Face::A, Face::B}) {
    const Face other = otherFace(better);
    FaceGrader back(board, other, so.surfaceMeasureFt2, Reverse::free, limitSeconds);
    if (!waneFitsOneFace(board, other) || !back.makes(Grade::common1)) continue;
    FaceGrader front(board, better, so.surfaceMeasureFt2, Reverse::mustBeSound, limitSeconds);
    if (so.faces[better == Face::A ? 0 : 1].grade == Grade::fas)
      best = std::min(best, Grade::fasOneFace);
    else if (front.makesSelects())
      best = std::min(best, Grade::selects);
  }
  return best;
}

}  // namespace

bool spoilsClear(const Mark& mark) {
  switch (mark.kind) {
    case MarkKind::sapwood:
    case MarkKind::favour:
    case MarkKind::avoid:
      return false;
    default:
      return true;
  }
}

bool isUnsound(const Mark& mark) {
  switch (mark.kind) {
    case MarkKind::split:
    case MarkKind::shake:
    case MarkKind::honeycomb:
    case MarkKind::wane:
    case MarkKind::pith:
    case MarkKind::barkPocket:
    case MarkKind::holeToFill:
    case MarkKind::metal:
      return true;
    case MarkKind::knot:
      return mark.soundness == Soundness::loose;
    case MarkKind::wormHoles:
      return mark.live || mark.soundness != Soundness::sound;
    default:
      return false;
  }
}

Result<BoardGrade> gradeBoard(const Board& board, const GradeOptions& options) {
  if (board.outline.vertices.size() < 3)
    return Error{"Board \"" + board.name + "\" has no outline yet. Scan it, or draw its outline."};
  BoardGrade result;
  const double lengthMm = bounds(board.outline.polygon()).width();
  result.surfaceMeasureFt2 = surfaceMeasure(tallyWidthMm(board.outline), lengthMm);
  result.bothFacesSeen = lookedAt(board, Face::A) && lookedAt(board, Face::B);
  for (const Face face : {Face::A, Face::B})
    if (lookedAt(board, face))
      result.faces.push_back(FaceGrader(board, face, result.surfaceMeasureFt2, Reverse::mustBeSound,
                                        options.limitSeconds / 4)
                                 .grade());
  for (const FaceGrade& face : result.faces) {
    result.proven = result.proven && face.proven;
    if (&face != &result.faces.front() && face.grade <= result.grade) continue;
    result.grade = face.grade;
    result.poorFace = face.face;
  }
  if (result.bothFacesSeen && result.grade != Grade::fas)
    result.grade = std::min(result.grade, twoFacedGrade(board, result, options.limitSeconds / 8));
  return result;
}

}  // namespace rackside
