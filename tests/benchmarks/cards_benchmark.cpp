// SPDX-License-Identifier: GPL-3.0-or-later
// How well cards are found and measured in rendered pictures at 0.8 mm a pixel, and how often a
// card is seen where there is none. Prints one table. Usage: cards_benchmark [PICTURES [CROPS]]
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <map>
#include <numeric>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "tests/support/card_scene.h"
#include "vision/cards/card_finder.h"

using namespace rackside;
using namespace rackside::test;

namespace {

struct Tally {
  int pictures = 0, cards = 0, numbered = 0, falseNumbers = 0, saddles = 0, used = 0;
  double squares = 0, normalised = 0, worst = 0, seconds = 0, processorSeconds = 0;
  int over3 = 0;
};

struct Row {
  const char* name;
  double tiltDeg, blurPx, noise, falloff, mmPerPx;
};

void score(const FoundMarkers& found, const std::vector<PlacedCard>& placed, const cv::Matx33d& h,
           Tally& tally) {
  std::map<int, PlacedCard> truth;
  for (const PlacedCard& card : placed) truth[card.number] = card;
  tally.cards += int(placed.size());
  tally.saddles += int(placed.size()) * 20;
  for (const FoundCard& card : found.cards) {
    if (!truth.count(card.number)) {
      ++tally.falseNumbers;
      continue;
    }
    ++tally.numbered;
    const CardModel model = cardModel(card.number);
    for (const FoundSaddle& saddle : card.saddles) {
      const Point mm = model.saddles[size_t(saddle.index)];
      const Pose& pose = truth[card.number].planeFromCard;
      const double c = std::cos(pose.angleRad), s = std::sin(pose.angleRad);
      const cv::Vec3d p = h * cv::Vec3d(pose.origin.x + c * mm.x - s * mm.y,
                                        pose.origin.y + s * mm.x + c * mm.y, 1);
      const double ex = saddle.px.x - p[0] / p[2], ey = saddle.px.y - p[1] / p[2];
      ++tally.used;
      tally.squares += ex * ex + ey * ey;
      tally.normalised += (ex * ex + ey * ey) / (saddle.sigmaPx * saddle.sigmaPx);
      tally.worst = std::max(tally.worst, std::hypot(ex, ey));
      tally.over3 += std::abs(ex) > 3 * saddle.sigmaPx;
      tally.over3 += std::abs(ey) > 3 * saddle.sigmaPx;
    }
  }
}

// Three cards of different numbers along the picture's middle, each a little turned.
std::vector<PlacedCard> threeCards(double spreadMm, std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  std::vector<int> numbers(kLargestCardNumber);
  std::iota(numbers.begin(), numbers.end(), 1);
  std::shuffle(numbers.begin(), numbers.end(), random);
  std::vector<PlacedCard> placed;
  for (int k = 0; k < 3; ++k) {
    const double x = (k - 1) * spreadMm + 60 * unit(random) - 155;
    placed.push_back(
        {numbers[size_t(k)], false, {{x, 80 * unit(random) - 72}, 0.3 * unit(random) - 0.15}});
  }
  return placed;
}

// Three cards, one at each end and one in the middle, on what a 12-megapixel picture shows.
Tally boardRow(const Row& row, int pictures) {
  Tally tally;
  std::mt19937 random(7);
  std::uniform_real_distribution<double> unit(0, 1);
  for (int i = 0; i < pictures; ++i) {
    PlaneCamera camera;
    camera.distanceMm = row.mmPerPx * camera.focalPx;
    camera.tiltRad = row.tiltDeg * CV_PI / 180;
    camera.tiltTowardsRad = unit(random) * 2 * CV_PI;
    camera.rollRad = unit(random) * 2 * CV_PI;
    const cv::Matx33d h = camera.imageFromPlane();
    Spoil spoil;
    spoil.blurPx = row.blurPx;
    spoil.noise = row.noise;
    spoil.falloff = row.falloff;
    spoil.white = 150 + 90 * unit(random);
    spoil.black = 25 + 25 * unit(random);
    cv::Mat picture = groundPicture(i % 2 ? Ground::floor : Ground::wood, camera.size, random);
    // The cards stay in the picture whatever the roll: its short side bounds them.
    const auto placed = threeCards(0.36 * row.mmPerPx * camera.size.height, random);
    paintCards(picture, h, placed, spoil);
    spoilPicture(picture, spoil, random);
    const auto start = std::chrono::steady_clock::now();
    const std::clock_t ticks = std::clock();
    const FoundMarkers found = findMarkers(picture);
    tally.processorSeconds += double(std::clock() - ticks) / CLOCKS_PER_SEC;
    tally.seconds +=
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    ++tally.pictures;
    score(found, placed, h, tally);
  }
  return tally;
}

void print(const Row& row, const Tally& t) {
  std::printf("%-34s %5d %7.1f %8.1f %6d %8.3f %8.2f %7.2f %7.2f %7.3f %7.3f\n", row.name,
              t.pictures, 100.0 * t.numbered / t.cards, 100.0 * t.used / t.saddles, t.falseNumbers,
              std::sqrt(t.squares / (2.0 * t.used)), std::sqrt(t.normalised / (2.0 * t.used)),
              100.0 * t.over3 / (2.0 * t.used), t.worst, t.seconds / t.pictures,
              t.processorSeconds / t.pictures);
}

int markersIn(const cv::Mat& picture) {
  const FoundMarkers found = findMarkers(picture);
  return int(found.cards.size() + found.tags.size());
}

int falseOnRendered(Ground ground, int crops) {
  std::mt19937 random(unsigned(ground) + 100);
  int seen = 0;
  for (int i = 0; i < crops; ++i) {
    cv::Mat picture = groundPicture(ground, {1000, 750}, random);
    spoilPicture(picture, Spoil{}, random);
    seen += markersIn(picture);
  }
  return seen;
}

// Photographs of sawn wood: the pictures below RACKSIDE_WOOD_SURFACE/images.
void falseOnPhotographs(int limit) {
  const char* root = std::getenv("RACKSIDE_WOOD_SURFACE");
  const std::filesystem::path folder = std::filesystem::path(root ? root : "") / "images";
  if (!root || !std::filesystem::is_directory(folder)) {
    std::printf("%-34s skipped: RACKSIDE_WOOD_SURFACE is not set\n", "photographs of sawn wood");
    return;
  }
  int crops = 0, seen = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (crops >= limit) break;
    const cv::Mat picture = cv::imread(entry.path().string(), cv::IMREAD_GRAYSCALE);
    if (picture.empty()) continue;
    ++crops;
    seen += markersIn(picture);
  }
  std::printf("%-34s %5d crops, %d false numbers\n", "photographs of sawn wood", crops, seen);
}

}  // namespace

int main(int argc, char** argv) {
  const int pictures = argc > 1 ? std::atoi(argv[1]) : 20;
  std::printf("%-34s %5s %7s %8s %6s %8s %8s %7s %7s %7s %7s\n", "rendered, 12 MP, three cards",
              "pics", "found%", "saddle%", "false", "rms px", "norm", ">3s %", "worst", "s/pic",
              "cpu s");
  const std::vector<Row> rows = {
      {"0.8 mm/px, tilt 0, blur 1", 0, 1, 3, 0.3, 0.8},
      {"0.8 mm/px, tilt 15, blur 1", 15, 1, 3, 0.3, 0.8},
      {"0.8 mm/px, tilt 30, blur 1", 30, 1, 3, 0.3, 0.8},
      {"0.8 mm/px, tilt 30, noise 8, dark", 30, 1, 8, 0.6, 0.8},
      {"0.8 mm/px, tilt 30, blur 1.5", 30, 1.5, 4, 0.3, 0.8},
      {"1.0 mm/px, tilt 30, blur 1", 30, 1, 4, 0.3, 1.0},
      {"0.4 mm/px, tilt 30, blur 1", 30, 1, 4, 0.3, 0.4},
  };
  for (const Row& row : rows) {
    print(row, boardRow(row, pictures));
    std::fflush(stdout);
  }
  const int crops = argc > 2 ? std::atoi(argv[2]) : 250;
  const std::map<Ground, const char*> grounds = {{Ground::wood, "rendered wood"},
                                                 {Ground::floor, "rendered floor"},
                                                 {Ground::noise, "noise"},
                                                 {Ground::text, "text, dark boxes and chequers"}};
  for (const auto& [ground, name] : grounds)
    std::printf("%-34s %5d crops, %d false numbers\n", name, crops, falseOnRendered(ground, crops));
  falseOnPhotographs(4 * crops);
}
