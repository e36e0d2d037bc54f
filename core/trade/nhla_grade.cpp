// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/nhla_grade.h"

#include <algorithm>
#include <cmath>

#include "core/base/length.h"
#include "core/trade/grade_limits.h"
#include "core/wood/clear_area.h"
#include "core/wood/usable_wood.h"

namespace rackside {
namespace {

enum class Reverse { mustBeSound, free };

void addShape(std::vector<Polygon>& all, const std::optional<MarkShape>& shape) {
  if (!shape) return;
  for (Polygon& p : polygonsOf(*shape)) all.push_back(std::move(p));
}

// What keeps a cutting off this face: its own faults, and unsound wood on the other.
std::vector<Polygon> defectsOn(const GradedBoard& on, Face face, bool soundWillDo,
                               Reverse reverse) {
  std::vector<Polygon> all;
  for (const Mark& mark : on.board.marks) {
    if (!isConsidered(mark, on)) continue;
    const bool unsound = isUnsound(mark, on);
    if (soundWillDo ? unsound : spoilsClear(mark, on)) {
      addShape(all, mark.on(face));
      if (mark.through) addShape(all, mark.on(otherFace(face)));
    }
    if (reverse == Reverse::mustBeSound && unsound) addShape(all, mark.on(otherFace(face)));
  }
  return all;
}

class FaceGrader {
 public:
  FaceGrader(const GradedBoard& on, Face face, Reverse reverse, long long limitSteps)
      : on_(on),
        face_(face),
        limitSteps_(limitSteps),
        clear_(gradeMap(on.board.outline, defectsOn(on, face, false, reverse))),
        sound_(gradeMap(on.board.outline, defectsOn(on, face, true, reverse))),
        ownClear_(gradeMap(on.board.outline, defectsOn(on, face, false, Reverse::free))),
        ownSound_(gradeMap(on.board.outline, defectsOn(on, face, true, Reverse::free))) {
    result_.face = face;
  }

  FaceGrade grade() {
    for (const GradeRule& rule : faceRules(on_.rule))
      if (meets(rule, rule.leastWidthIn, rule.leastLengthFt)) {
        result_.grade = rule.grade;
        return result_;
      }
    return result_;
  }

  // Does the face make FAS on a board that need only be of the size of Selects?
  bool makesSelects() { return meets(faceRule(Grade::fas, on_.rule), 4, 6); }
  bool makes(Grade grade) {
    const GradeRule& rule = faceRule(grade, on_.rule);
    return meets(rule, rule.leastWidthIn, rule.leastLengthFt);
  }
  bool proven() const { return result_.proven; }

 private:
  bool meets(const GradeRule& rule, double leastWidthIn, double leastLengthFt) {
    const auto missed = [&](const std::string& why) {
      result_.whyNotHigher.push_back(std::string(name(rule.grade)) + ": " + why);
      return false;
    };
    const double scantIn = on_.board.airDried ? 0 : kKilnDriedScantIn;
    if (on_.widthIn < leastWidthIn - scantIn - kSameIn ||
        on_.lengthIn < leastLengthFt * 12 - kSameIn)
      return missed("the board is too small");
    if (rule.grade == Grade::fas && isGradedByDefectCount(on_))
      return fasByDefectCount(on_, face_) || missed("more defects than the grade admits");
    const std::string limit = limitMissed(rule.grade, on_, face_, ownClear_, ownSound_);
    if (!limit.empty()) return missed(limit);
    for (const CuttingDemand& demand : demands(rule.grade, on_.surfaceMeasureFt2, on_.rule))
      if (yields(rule, demand)) return true;
    if (rule.grade == Grade::fas && (fullWidthWay() || smallAndClear())) return true;
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
    search.limitSteps = limitSteps_;
    const CuttingResult found = bestCuttings(map.clear, search);
    if (!found.reaches(search.enough)) {
      if (!found.cannotReach(search.enough)) result_.proven = false;
      return false;
    }
    keep(map, found.cuttings, demand);
    return true;
  }

  // 97 % of boards of 6 to 12 ft², at least 6 in wide, in two cuttings of full width and any length
  // (hooddistribution.com).
  bool fullWidthWay() {
    const int sm = on_.surfaceMeasureFt2;
    const double scantIn = on_.board.airDried ? 0 : kKilnDriedScantIn;
    if (sm < 6 || sm > 12 || on_.widthIn < 6 - scantIn - kSameIn) return false;
    std::vector<GridRect> runs;
    int start = -1;
    for (int column = 0; column <= clear_.wood.columns; ++column) {
      const bool free = column < clear_.wood.columns && columnIsFree(column);
      if (free && start < 0) start = column;
      if (!free && start >= 0) {
        runs.push_back({start, 0, column, clear_.wood.rows});
        start = -1;
      }
    }
    std::sort(runs.begin(), runs.end(),
              [](const GridRect& a, const GridRect& b) { return a.columns() > b.columns(); });
    if (runs.size() > 2) runs.resize(2);
    const CuttingDemand demand{2, sm * 11.64};
    double units = 0;
    for (const GridRect& r : runs) units += r.columns() / 12.0 * on_.widthIn;
    if (units < demand.units - kSameIn) return false;
    keep(clear_, runs, demand);
    result_.units = units;
    return true;
  }
  // Selects of 2 and 3 ft² may be clear all over, whatever the cutting (hooddistribution.com).
  bool smallAndClear() {
    const int sm = on_.surfaceMeasureFt2;
    if (sm < 2 || sm > 3 || clear_.clear.clear != clear_.wood.clear) return false;
    keep(clear_, {{0, 0, clear_.wood.columns, clear_.wood.rows}}, {1, sm * 12.0});
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

  const GradedBoard& on_;
  Face face_;
  long long limitSteps_;
  GradeMap clear_, sound_;        // where a cutting may lie
  GradeMap ownClear_, ownSound_;  // by this face alone
  FaceGrade result_;
};

// FAS One Face and Selects: the better face makes FAS, the other No. 1 Common, each graded by
// itself: the cuttings of neither need be sound behind (NHLA 2019 ¶64, Rules Corner).
Grade faceGradeFrom(const GradedBoard& on, Face better, long long steps, bool& proven) {
  const Face other = otherFace(better);
  if (!waneFitsOneFace(on, other)) return Grade::below;
  FaceGrader back(on, other, Reverse::free, steps);
  if (!back.makes(Grade::common1)) {
    proven = proven && back.proven();
    return Grade::below;
  }
  FaceGrader front(on, better, Reverse::free, steps);
  if (front.makes(Grade::fas)) return Grade::fasOneFace;
  if (front.makesSelects()) return Grade::selects;
  proven = proven && front.proven();
  return Grade::below;
}

// What a board makes by its better face: FAS One Face, Selects, and No. 3A Common, which admits
// pieces of No. 2A or better on that face (hooddistribution.com).
Grade twoFacedGrade(const GradedBoard& on, const BoardGrade& so, long long steps, bool& proven) {
  Grade best = Grade::below;
  for (const Face better : {Face::A, Face::B}) {
    best = std::min(best, faceGradeFrom(on, better, steps, proven));
    if (so.faces[better == Face::A ? 0 : 1].grade <= Grade::common2A)
      best = std::min(best, Grade::common3A);
  }
  return best;
}

Status gradable(const Board& board, GradingRule rule) {
  if (board.outline.vertices.size() < 3)
    return Error{"Board \"" + board.name + "\" has no outline yet. Scan it, or draw its outline."};
  if (rule == GradingRule::none)
    return Error{"Board \"" + board.name + "\" is of " + board.species +
                 ", a softwood: the hardwood rules do not grade it."};
  if (board.pictures.empty() && std::none_of(board.marks.begin(), board.marks.end(), counts))
    return Error{"Board \"" + board.name +
                 "\" was entered without a photograph or a mark: there is nothing to grade by."};
  return success();
}

}  // namespace

Result<BoardGrade> gradeBoard(const Board& board, const GradeOptions& options,
                              const std::vector<Species>& own) {
  const Species* wood = speciesNamed(board.species, own);
  const GradingRule rule = wood ? wood->traits.rule : GradingRule::standard;
  if (const Status s = gradable(board, rule); !s) return s.error();
  BoardGrade result;
  const double lengthMm = bounds(board.outline.polygon()).width();
  result.surfaceMeasureFt2 =
      options.surfaceMeasureFt2.value_or(surfaceMeasure(tallyWidthMm(board.outline), lengthMm));
  const GradedBoard on{board,
                       rule,
                       nominalThicknessIn(board.thicknessMm, board.airDried),
                       result.surfaceMeasureFt2,
                       narrowestMm(board.outline) / kMmPerInch,
                       lengthMm / kMmPerInch};
  result.bothFacesSeen = lookedAt(board, Face::A) && lookedAt(board, Face::B);
  for (const Face face : {Face::A, Face::B})
    if (lookedAt(board, face))
      result.faces.push_back(
          FaceGrader(on, face, Reverse::mustBeSound, options.limitSteps).grade());
  for (const FaceGrade& face : result.faces) {
    result.proven = result.proven && face.proven;
    if (&face != &result.faces.front() && face.grade <= result.grade) continue;
    result.grade = face.grade;
    result.poorFace = face.face;
  }
  if (result.bothFacesSeen && result.grade != Grade::fas)
    result.grade =
        std::min(result.grade, twoFacedGrade(on, result, options.limitSteps, result.proven));
  return result;
}

}  // namespace rackside
