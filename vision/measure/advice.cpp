// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/measure/advice.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "vision/measure/plane_view.h"
#include "vision/measure/size_check.h"

namespace rackside::measure {
namespace {

// Advice is given only where the measurement is worse than a good tape would be (± 0.9 mm at 3 m,
// class II of 2014/32/EU MI-008) and the remedy brings a quarter or more.
constexpr double kGoodEnoughMm = 1.0;
constexpr double kWorthwhile = 0.75;

std::string plusMinus(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, mm < 9.95 ? "± %.1f mm" : "± %.0f mm", mm);
  return text;
}

struct Remedy {
  std::string what;
  Foreseen then;
};

struct Ask {  // what advice() is asked about, with what holds now
  const Fit& f;
  const Polygon& region;
  const Pose& boardFromPlane;
  Rect box;
  Foreseen now;
  Foreseen with(const Eigen::MatrixXd& normal) const {
    return foreseen(f, normal, region, boardFromPlane);
  }
  Point plane(Point board) const {
    return apply(Pose{{0, 0}, -boardFromPlane.angleRad}, board - boardFromPlane.origin);
  }
};

// Share of the board's length, from the left, at which the targets on the face lie.
std::vector<double> cardsAlong(const Ask& ask) {
  std::vector<double> along;
  for (size_t i = 0; i < ask.f.scene.pieces.size(); ++i) {
    const PlaceBlock& p = ask.f.at.places[i];
    const Point at = apply(ask.boardFromPlane, Point{p[placeX], p[placeY]});
    along.push_back((at.x - ask.box.x0) / ask.box.width());
  }
  return along;
}

void addCardRemedies(const Ask& ask, std::vector<Remedy>& remedies) {
  const std::vector<double> cards = cardsAlong(ask);
  const double inset = std::min(0.5, 160 / ask.box.width());  // half a card, and a little
  const auto free = [&](double at) {
    return std::none_of(cards.begin(), cards.end(),
                        [&](double c) { return std::abs(c - at) < 0.1; });
  };
  const auto with = [&](const std::vector<double>& shares) {
    Eigen::MatrixXd normal = ask.f.normal;
    for (const double at : shares) {
      const Point board{ask.box.x0 + at * ask.box.width(), (ask.box.y0 + ask.box.y1) / 2};
      normal = withCardAt(ask.f, normal, ask.plane(board), -ask.boardFromPlane.angleRad);
    }
    return ask.with(normal);
  };
  const double left = inset, right = 1 - inset;
  if (free(left) && free(right))
    remedies.push_back({"Put a card near each end", with({left, right})});
  else if (free(left))
    remedies.push_back({"Put a card nearer the left end", with({left})});
  else if (free(right))
    remedies.push_back({"Put a card nearer the right end", with({right})});
  if (free(0.5)) remedies.push_back({"Put a card near the middle", with({0.5})});
}

void addKnowledgeRemedies(const Ask& ask, std::vector<Remedy>& remedies) {
  remedies.push_back({"Work out the lens once from a dozen photographs of a card",
                      ask.with(withCalibratedLens(ask.f))});
  const auto sharper = [&](SharedPart part, double sigma, const char* what) {
    const int c = ask.f.columns.shared[part];
    if (c < 0) return;
    Eigen::MatrixXd normal = ask.f.normal;
    normal(c, c) += 1 / (sigma * sigma);
    remedies.push_back({what, ask.with(normal)});
  };
  sharper(boardThickness, 0.1, "Measure the board's thickness with a calliper");
  sharper(cardThickness, 0.05, "Measure the cards' thickness with a calliper");
  sharper(bowEnds, 0.5, "Measure the board's bow with a straight edge");
}

std::string sentence(const Ask& ask, const Remedy& r) {
  const bool byLength = r.then.length < kWorthwhile * ask.now.length;
  std::string text = r.what + ": ";
  if (byLength) text += "length " + plusMinus(ask.now.length) + " → " + plusMinus(r.then.length);
  if (r.then.width < kWorthwhile * ask.now.width && ask.now.width > kGoodEnoughMm / 2)
    text += std::string(byLength ? ", " : "") + "width " + plusMinus(ask.now.width) + " → " +
            plusMinus(r.then.width);
  return text + ".";
}

bool worthwhile(const Ask& ask, const Remedy& r) {
  return (ask.now.length > kGoodEnoughMm && r.then.length < kWorthwhile * ask.now.length) ||
         (ask.now.width > kGoodEnoughMm && r.then.width < kWorthwhile * ask.now.width);
}

// Share of the length's variance that goes once the columns are known exactly.
double shareOf(const Ask& ask, const std::vector<int>& columns) {
  if (columns.empty() || ask.now.length <= 0) return 0;
  Eigen::MatrixXd normal = ask.f.normal;
  for (const int c : columns) normal(c, c) *= 1e8;
  const double then = ask.with(normal).length / ask.now.length;
  return 1 - then * then;
}

std::string mainCause(const Ask& ask) {
  const Columns& c = ask.f.columns;
  std::vector<int> lens, own;
  const auto collect = [](std::vector<int>& to, const auto& from) {
    for (const auto& block : from)
      for (const int column : block)
        if (column >= 0) to.push_back(column);
  };
  collect(lens, c.lens);
  collect(own, c.own);
  const auto shared = [&](SharedPart part) {
    return c.shared[part] >= 0 ? std::vector<int>{c.shared[part]} : std::vector<int>{};
  };
  struct Cause {
    const char* what;
    double share;
  };
  const Cause causes[] = {
      {"the lens", shareOf(ask, lens)},
      {"the size of the reference itself", shareOf(ask, own)},
      {"the board's thickness", shareOf(ask, shared(boardThickness))},
      {"the cards' thickness", shareOf(ask, shared(cardThickness))},
      {"the board's bow", shareOf(ask, shared(bowEnds))},
  };
  const Cause* most =
      std::max_element(std::begin(causes), std::end(causes),
                       [](const Cause& a, const Cause& b) { return a.share < b.share; });
  return most->share >= 0.5 ? most->what
                            : "how finely the cards' corners are seen and how far apart they lie";
}

void adviseScale(const Ask& ask, std::vector<std::string>& lines) {
  const int c = ask.f.columns.shared[cardScale];
  if (c < 0) return;
  constexpr double checked = 0.0003;  // a 200 mm bar read to 0.1 mm, uniform (JCGM 100, 4.3.7)
  Eigen::MatrixXd normal = ask.f.normal;
  normal(c, c) += 1 / (checked * checked);
  const double then = ask.with(normal).lengthTotal;
  if (ask.now.lengthTotal > 2 * kGoodEnoughMm && then < kWorthwhile * ask.now.lengthTotal)
    lines.push_back(
        "Check the print's bar with a rule and give its measured length: length with "
        "the print's own error " +
        plusMinus(ask.now.lengthTotal) + " → " + plusMinus(then) + ".");
}

// A bow that goes unseen moves the length without widening the ±, so it is said what it would do.
void adviseBow(const Ask& ask, std::vector<std::string>& lines) {
  constexpr double assumedMm = 5;
  if (ask.f.scene.bow) return;
  const double longer = longerIfBowed(ask.f, ask.region, ask.boardFromPlane, assumedMm);
  if (std::abs(longer) < 2 * kGoodEnoughMm) return;
  char text[160];
  std::snprintf(text, sizeof text,
                "The board is taken as flat. Were its ends %.0f mm higher than its middle, the "
                "length would be %.1f mm %s: measure a bow and give it.",
                assumedMm, std::abs(longer), longer > 0 ? "more" : "less");
  lines.push_back(text);
}

}  // namespace

std::vector<std::string> advice(const Fit& f, const Polygon& region, const Pose& boardFromPlane) {
  const Ask ask{f, region, boardFromPlane, bounds(apply(boardFromPlane, region)),
                foreseen(f, f.normal, region, boardFromPlane)};
  std::vector<Remedy> remedies;
  addCardRemedies(ask, remedies);
  addKnowledgeRemedies(ask, remedies);
  std::erase_if(remedies, [&](const Remedy& r) { return !worthwhile(ask, r); });
  std::stable_sort(remedies.begin(), remedies.end(),
                   [](const Remedy& a, const Remedy& b) { return a.then.length < b.then.length; });
  std::vector<std::string> lines;
  if (ask.now.length > kGoodEnoughMm)
    lines.push_back("The cameras leave the length at " + plusMinus(ask.now.length) +
                    ", mostly from " + mainCause(ask) + ".");
  for (const Remedy& r : remedies) lines.push_back(sentence(ask, r));
  adviseScale(ask, lines);
  adviseBow(ask, lines);
  return lines;
}

namespace {

struct Misfit {
  double chi2 = 0;
  int corners = 0;
  double factor() const { return std::sqrt(chi2 / std::max(1, 2 * corners)); }
};

std::vector<Misfit> misfitByPiece(const Fit& f) {
  std::vector<Misfit> misfit(f.scene.pieces.size());
  for (size_t i = 0; i < f.scene.seen.size(); ++i) {
    const Observation& o = f.scene.seen[i];
    if (!o.used) continue;
    misfit[o.piece].chi2 += f.residualsPx[i].dot(f.residualsPx[i]) / (o.sigmaPx * o.sigmaPx);
    ++misfit[o.piece].corners;
  }
  return misfit;
}

// Angle between the ray to the middle of the photograph's targets and the face's normal, degrees.
double obliqueness(const Fit& f, size_t photo) {
  Point sum;
  double n = 0;
  for (const Observation& o : f.scene.seen)
    if (o.photo == static_cast<int>(photo)) {
      const PlaceBlock& p = f.at.places[o.piece];
      sum = sum + Point{p[placeX], p[placeY]};
      ++n;
    }
  const cv::Point3d c = cameraCentre(f, photo);
  return std::atan2(std::hypot(c.x - sum.x / n, c.y - sum.y / n), c.z) * 180 / CV_PI;
}

}  // namespace

std::vector<std::string> warnings(const Fit& f) {
  constexpr double obliqueDegrees = 50, badFactor = 3, oddFactor = 2.5;
  std::vector<std::string> lines;
  if (f.scene.pieces.size() == 1)
    lines.push_back(
        "Only one card was found: away from it the ± grows fast. Put one near each end "
        "of the board and one in the middle.");
  if (f.sigmaFactor > badFactor)
    lines.push_back(
        "The cards' corners fit worse than they were seen: a card may be bent, a "
        "thickness wrong or the board bowed. The ± has been widened to match.");
  for (std::string& line : sizeWarnings(f)) lines.push_back(std::move(line));
  const std::vector<Misfit> misfit = misfitByPiece(f);
  Misfit all;
  for (const Misfit& m : misfit) all.chi2 += m.chi2, all.corners += m.corners;
  for (size_t i = 0; i < misfit.size(); ++i) {
    const Misfit rest{all.chi2 - misfit[i].chi2, all.corners - misfit[i].corners};
    if (rest.corners > 0 && misfit[i].factor() > oddFactor * std::max(1.0, rest.factor()))
      lines.push_back("The " + f.scene.pieces[i].target.name +
                      " fits worse than the others: lay it flat, or glue it to flat stock.");
  }
  for (size_t photo = 0; photo < f.scene.sizes.size(); ++photo)
    if (obliqueness(f, photo) > obliqueDegrees)
      lines.push_back("Photograph " + std::to_string(photo + 1) +
                      " was taken very obliquely: hold the camera more squarely over the board.");
  return lines;
}

}  // namespace rackside::measure
