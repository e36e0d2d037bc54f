// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/measure_cases.h"

#include <cmath>

namespace rackside::simulation {
namespace {

double uniform(std::mt19937_64& random, double from, double to) {
  return std::uniform_real_distribution<double>(from, to)(random);
}

constexpr double kDegree = CV_PI / 180;
constexpr LensSpread kUnknownPhone{3000, 0.02, 15, 0.01};
constexpr LensSpread kCalibrated{3000, 0.002, 4, 0.001};

// Over the board's middle, the whole board in the picture along its long side.
Camera cameraOver(const Setup& s, double tiltLimitDegrees, std::mt19937_64& random) {
  return {{s.lengthMm / 2, s.widthMm / 2},
          0,
          uniform(random, 0, tiltLimitDegrees) * kDegree,
          uniform(random, 0, 2 * CV_PI),
          uniform(random, -5, 5) * kDegree};
}

// Cards at these shares of the board's length, each laid by hand: a little off and turned.
void layCards(Setup& s, const std::vector<double>& shares, std::mt19937_64& random) {
  int number = 1;
  for (const double share : shares) {
    PlacedTarget p{targetOfCard(number++), {}, uniform(random, -3, 3) * kDegree};
    const double inset = 150;
    p.at = {inset + share * (s.lengthMm - 2 * inset) + uniform(random, -20, 20),
            s.widthMm / 2 + uniform(random, -20, 20)};
    s.targets.push_back(p);
  }
}

Setup onBoard(const std::vector<double>& shares, const LensSpread& lens, double tiltLimit,
              std::mt19937_64& random) {
  Setup s;
  s.lengthMm = uniform(random, 2000, 3000);
  s.lens = s.truth = lens;
  s.sigmaPx = s.toldSigmaPx = 0.1;
  layCards(s, shares, random);
  s.cameras = {cameraOver(s, tiltLimit, random)};
  return s;
}

Setup onBench(double thicknessFrom, double thicknessTo, std::mt19937_64& random) {
  Setup s = onBoard({}, kUnknownPhone, 20, random);
  s.options.cardsOn = CardsOn::bench;
  s.options.boardThicknessMm = uniform(random, thicknessFrom, thicknessTo);
  s.drawThickness = true;
  layCards(s, {0.03, 0.5, 0.97}, random);
  for (size_t i = 0; i < s.targets.size(); ++i) s.targets[i].at.y = i == 1 ? -80 : s.widthMm + 80;
  return s;
}

// Along the board, each photograph over its own stretch, overlapping by about half.
Setup walkAlong(int photos, bool leaning, std::mt19937_64& random) {
  Setup s = onBoard({0.02, 0.27, 0.52, 0.76, 0.98}, kUnknownPhone, 10, random);
  s.lengthMm = 3000;
  s.targets.clear();
  layCards(s, {0.02, 0.27, 0.52, 0.76, 0.98}, random);
  s.cameras.clear();
  for (int i = 0; i < photos; ++i) {
    const double x = 350 + (s.lengthMm - 700) * i / (photos - 1);
    const double tilt = leaning ? uniform(random, 10, 25) : uniform(random, 0, 15);
    const double roll = i % 2 == 1 && leaning ? 90 : uniform(random, -5, 5);
    s.cameras.push_back({{x, s.widthMm / 2 + uniform(random, -40, 40)},
                         uniform(random, 1.0, 1.1) * (photos == 3 ? 1500 : 1300),
                         tilt * kDegree,
                         leaning ? -CV_PI / 2 : uniform(random, 0, 2 * CV_PI),
                         roll * kDegree});
  }
  return s;
}

Setup oneTarget(const Target& target, double share, double across, std::mt19937_64& random) {
  Setup s = onBoard({}, kUnknownPhone, 20, random);
  s.lengthMm = uniform(random, 600, 1200);
  s.sigmaPx = s.toldSigmaPx = 0.4;  // corners of a plain sheet, from fitted edges
  s.targets = {
      {target, {share * s.lengthMm, across * s.widthMm}, uniform(random, -8, 8) * kDegree}};
  s.cameras = {cameraOver(s, 25, random)};
  return s;
}

std::vector<Case> casesOnBoard() {
  const std::vector<double> three{0, 0.5, 1}, two{0, 1};
  return {
      {"3 cards, unknown phone, tilt to 20",
       [=](auto& r) { return onBoard(three, kUnknownPhone, 20, r); }, 0.3, false, 2.0, 1.0},
      {"3 cards, unknown phone, tilt to 35",
       [=](auto& r) { return onBoard(three, kUnknownPhone, 35, r); }, 0.5, false, 3.0, 1.5},
      {"3 cards, unknown phone, corners 0.2 px",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.sigmaPx = s.toldSigmaPx = 0.2;
         return s;
       },
       0.3, false, 0, 0},
      {"3 cards, k1 uniform within 0.02",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.truth.k1Sigma = 0.02 / std::sqrt(3.0);
         return s;
       },
       0.3, false, 2.0, 1.0},
      {"3 cards, true focal length 3 % off",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.truth.focalSigma = 0;
         s.focalBias = uniform(r, 0, 1) < 0.5 ? -0.03 : 0.03;
         return s;
       },
       0.3, false, 2.0, 1.0},
      {"3 cards, corners noisier than told (2x)",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.sigmaPx = 2 * s.toldSigmaPx;
         return s;
       },
       0.3, false, 0, 0},
      {"3 cards, 5 % of the corners wrong",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.outlierShare = 0.05;
         return s;
       },
       0.3, false, 2.0, 1.0},
      {"3 cards, print scale drawn, total ±",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.drawScale = true;
         return s;
       },
       0.3, true, 0, 0},
      {"3 cards, scale drawn, 2 m taped, total ±",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.drawScale = true;
         const double mm = norm(s.targets[2].at - s.targets[0].at);
         s.options.taped = {{1, 3, mm + 0.4 * std::normal_distribution<double>()(r), 0.4}};
         return s;
       },
       0.3, true, 0, 0},
      {"3 cards on 3 mm stock",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         s.options.cardThicknessMm = 3;
         s.drawThickness = true;
         return s;
       },
       0.3, false, 2.0, 1.0},
      {"2 end cards, calibrated lens", [=](auto& r) { return onBoard(two, kCalibrated, 20, r); },
       0.3, false, 2.5, 1.0},
      {"2 end cards, unknown phone", [=](auto& r) { return onBoard(two, kUnknownPhone, 20, r); },
       0.3, false, 0, 0},
      {"1 card in the middle, unknown phone",
       [=](auto& r) { return onBoard({0.5}, kUnknownPhone, 20, r); }, 0.3, false, 0, 0},
      {"1 card at the end, unknown phone",
       [=](auto& r) { return onBoard({0.0}, kUnknownPhone, 20, r); }, 0.3, false, 0, 0},
      {"1 card in the middle, calibrated lens",
       [=](auto& r) { return onBoard({0.5}, kCalibrated, 20, r); }, 0.3, false, 0, 0},
  };
}

std::vector<Case> otherCases() {
  const std::vector<double> three{0, 0.5, 1};
  return {
      {"3 cards on the bench, board 27-52 mm", [](auto& r) { return onBench(27, 52, r); }, 0.3,
       false, 4.0, 1.5},
      {"3 cards, board bowed 10 mm, bow given",
       [=](auto& r) {
         Setup s = onBoard(three, kUnknownPhone, 20, r);
         // The plane frame is the middle card's: close enough to the board's for a bow's line.
         s.options.bow = Bow{{-s.lengthMm / 2, 0}, {s.lengthMm / 2, 0}, 10, 1};
         for (auto& t : s.targets) t.turnRad = 0;
         s.targets[1].at = {s.lengthMm / 2, s.widthMm / 2};
         std::swap(s.targets[0], s.targets[1]);
         s.drawBow = true;
         return s;
       },
       0.3, false, 0, 0},
      {"3 photographs along, 5 cards", [](auto& r) { return walkAlong(3, false, r); }, 0.3, false,
       2.0, 0.7},
      {"5 photographs along, 5 cards", [](auto& r) { return walkAlong(5, false, r); }, 0.3, false,
       2.0, 0.7},
      {"4 photographs along, leaning, rolled by turns",
       [](auto& r) { return walkAlong(4, true, r); }, 0.3, false, 2.0, 0.7},
      {"bank card on a board of 0.6-1.2 m",
       [](auto& r) { return oneTarget(bankCardTarget(), 0.5, 0.5, r); }, 0.3, false, 0, 0},
      {"A4 sheet beside a board of 0.6-1.2 m",
       [](auto& r) {
         Setup s = oneTarget(a4Target(), 0.5, 0.5, r);
         s.options.cardsOn = CardsOn::bench;
         s.options.boardThicknessMm = 27;
         s.drawThickness = true;
         s.targets[0].at.y = -130;
         return s;
       },
       0.3, false, 0, 0},
  };
}

}  // namespace

std::vector<Case> measureCases() {
  std::vector<Case> cases = casesOnBoard();
  for (Case& c : otherCases()) cases.push_back(std::move(c));
  return cases;
}

}  // namespace rackside::simulation
