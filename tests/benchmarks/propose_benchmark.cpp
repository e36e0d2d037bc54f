// SPDX-License-Identifier: GPL-3.0-or-later
// How well marks are proposed on labelled photographs of sawn wood (tests/support/labelled_wood.h;
// RACKSIDE_WOOD_SURFACE names the folder). Prints one table.
//
//   propose_benchmark cross      four-fold cross-validation: each picture is judged by a model that
//                                never saw it
//   propose_benchmark train FILE the same, then learns from all pictures and writes the model
//   propose_benchmark built-in   the model as built in: an honest figure only on pictures that it
//                                did not learn from
#include <chrono>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <opencv2/imgproc.hpp>
#include <random>

#include "tests/support/propose_score.h"
#include "tests/support/propose_training.h"
#include "tests/support/wood_face.h"

using namespace rackside;
using namespace rackside::test;

namespace {

constexpr size_t kFolds = 4;
// The photographs' sampling as taken for; turned to half size it is that of the proposals.
constexpr double kPictureMmPerPx = kProposeMmPerPx / 2;

std::filesystem::path folder;
std::vector<std::string> names;
std::chrono::steady_clock::time_point begun = std::chrono::steady_clock::now();

void note(const char* what) {
  const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - begun;
  std::fprintf(stderr, "%6.1f s  %s\n", passed.count(), what);
}

// Besides the photographs, clear rendered faces are learned from: the photographs know no pores, no
// grey and no saw marks. They are counted on after the photographs, and never scored.
constexpr size_t kRenderedFaces = 60;

size_t lessons() {
  return names.size() + kRenderedFaces;
}

// 300 × 150 mm of clear wood, as grey and as sawn as may be, as sharp or soft as a photograph is.
LabelledWood clearRenderedFace(size_t number) {
  static const char* const species[] = {"oak", "ash", "cherry", "walnut", "maple"};
  std::mt19937_64 random(9000 + number);
  const auto real = [&](double from, double to) {
    return std::uniform_real_distribution<double>(from, to)(random);
  };
  synthetic::WoodSpec spec;
  spec.species = species[number % 5];
  spec.seed = uint32_t(random());
  spec.pithYMm = real(-40, 200), spec.pithZMm = real(-150, -30), spec.ringMm = real(1.5, 5);
  spec.saw.kind = number % 3 == 0 ? "none" : number % 3 == 1 ? "band" : "circular";
  spec.saw.pitchMm = real(2, 7);
  if (number % 2) spec.sapRadiusMm = real(110, 180);
  if (number % 7 == 0) spec.curl = real(0.2, 0.8);
  synthetic::PaintOptions paint;
  paint.mmPerPx = kProposeMmPerPx;
  paint.grey = number % 4 == 0 ? 0 : real(0, 1);
  LabelledWood out;
  out.bgr = paintFace(synthetic::WoodLog(spec, 27), {0, 0, 300, 150}, 27, paint).bgr;
  if (number % 2) cv::GaussianBlur(out.bgr, out.bgr, {}, real(0.3, 1));
  out.labels = cv::Mat::zeros(out.bgr.size(), CV_8U);
  out.wood = cv::Mat(out.bgr.size(), CV_8U, cv::Scalar(255));
  return out;
}

LabelledWood lesson(size_t i) {
  return i < names.size() ? halved(loadLabelledWood(folder, names[i]))
                          : clearRenderedFace(i - names.size());
}

void inParallel(size_t count, const std::function<void(size_t)>& work) {
  cv::parallel_for_({0, int(count)}, [&](const cv::Range& r) {
    for (int i = r.start; i < r.end; ++i) work(size_t(i));
  });
}

std::vector<PixelSamples> sampleAll() {
  std::vector<PixelSamples> samples(lessons());
  inParallel(lessons(), [&](size_t i) {
    const LabelledWood half = lesson(i);
    samples[i] = samplePixels(half, pixelFeatures(woodTone(half.bgr, half.wood)), 400,
                              i < names.size() ? 700 : 2500, i);
  });
  note("pixels sampled");
  return samples;
}

// Models of the pixels, each without one fold of the pictures.
std::vector<PixelModel> pixelModels(const std::vector<PixelSamples>& samples) {
  std::vector<PixelModel> models;
  for (size_t fold = 0; fold < kFolds; ++fold) {
    PixelSamples others;
    for (size_t i = 0; i < samples.size(); ++i)
      if (i % kFolds != fold) others.append(samples[i]);
    models.push_back(trainPixels(others, 1));
    note("pixels learned");
  }
  return models;
}

// The regions of each picture by a model that never saw it, and what they are.
std::vector<RegionSamples> unseenRegions(const std::vector<PixelModel>& models) {
  std::vector<RegionSamples> samples(lessons());
  inParallel(lessons(), [&](size_t i) {
    const LabelledWood half = lesson(i);
    const WoodTone tone = woodTone(half.bgr, half.wood);
    const KindMaps maps = kindMaps(models[i % kFolds], pixelFeatures(tone), tone);
    addRegions(findRegions(maps, tone), half, samples[i]);
  });
  note("regions found");
  return samples;
}

BoostedTrees judgeWithout(const std::vector<RegionSamples>& samples, size_t fold) {
  RegionSamples others;
  for (size_t i = 0; i < samples.size(); ++i)
    if (i % kFolds != fold) {
      others.rows.insert(others.rows.end(), samples[i].rows.begin(), samples[i].rows.end());
      others.kinds.insert(others.kinds.end(), samples[i].kinds.begin(), samples[i].kinds.end());
    }
  return trainJudge(others, 1);
}

void scoreWith(const std::function<const ProposeModel&(size_t)>& modelFor) {
  std::vector<ProposeTally> tallies(names.size());
  inParallel(names.size(), [&](size_t i) {
    const LabelledWood picture = loadLabelledWood(folder, names[i]);
    RunControl run;
    const auto proposed =
        proposeMarks({picture.bgr, picture.wood, kPictureMmPerPx}, modelFor(i), run);
    tallies[i] = scoreProposals(proposed, picture);
  });
  ProposeTally all;
  for (const ProposeTally& t : tallies) all.add(t);
  printProposeTally(all);
}

// Prints how well models do that each never saw the pictures they are asked about; with a file,
// writes one that has seen them all.
int learn(const char* file) {
  const std::vector<PixelSamples> samples = sampleAll();
  const std::vector<PixelModel> models = pixelModels(samples);
  const std::vector<RegionSamples> regions = unseenRegions(models);
  std::vector<ProposeModel> whole;
  for (size_t fold = 0; fold < kFolds; ++fold)
    whole.push_back({models[fold], judgeWithout(regions, fold)});
  scoreWith([&](size_t i) -> const ProposeModel& { return whole[i % kFolds]; });
  if (!file) return 0;
  PixelSamples all;
  for (const PixelSamples& s : samples) all.append(s);
  const std::vector<uint8_t> bytes =
      ProposeModel{trainPixels(all, 1), judgeWithout(regions, kFolds)}.toBytes();
  std::ofstream out(file, std::ios::binary);
  out.write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
  std::printf("%s: %zu bytes\n", file, bytes.size());
  return out.good() ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const auto found = woodSurfaceFolder();
  if (!found) {
    std::printf("Skipped: RACKSIDE_WOOD_SURFACE names no folder of labelled photographs.\n");
    return 0;
  }
  folder = *found;
  names = woodSurfaceNames(folder);
  const std::string what = argc > 1 ? argv[1] : "cross";
  if (what != "built-in") return learn(what == "train" && argc > 2 ? argv[2] : nullptr);
  scoreWith([](size_t) -> const ProposeModel& { return builtInProposeModel(); });
  return 0;
}
