// SPDX-License-Identifier: GPL-3.0-or-later
// How well marks are proposed. RACKSIDE_WOOD_SURFACE names a folder of labelled photographs
// (tests/support/labelled_wood.h), RACKSIDE_WOOD_LESSONS the half-size ones that were learned from.
//
//   propose_benchmark            all that follows but `trust`
//   propose_benchmark built-in   the photographs of RACKSIDE_WOOD_SURFACE: by kind, and how far the
//                                confidence holds
//   propose_benchmark learning   the same on photographs that were learned from
//   propose_benchmark painted    six painted hardwoods, fresh and grey, as a telephone sees them
//   propose_benchmark time       a face of 3 m × 0.25 m
//   propose_benchmark trust      what training/trust.json is to say, by the tuning part of the
//   lessons
// A second word names a model file to use instead of the built-in one.
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <opencv2/imgproc.hpp>

#include "tests/support/painted_check.h"
#include "tests/support/propose_score.h"
#include "tests/support/trust_fit.h"
#include "vision/wood/propose/regions.h"

using namespace rackside;
using namespace rackside::test;

namespace {

namespace fs = std::filesystem;

constexpr int kFullWidthPx = 400;  // photographs wider than this are not halved (labelled_wood.h)

double mmPerPx(const LabelledWood& picture) {
  return picture.bgr.rows > kFullWidthPx ? kProposeMmPerPx / 2 : kProposeMmPerPx;
}

// The scores count pixels of the full size.
LabelledWood fullSize(LabelledWood picture) {
  if (mmPerPx(picture) < kProposeMmPerPx) return picture;
  const cv::Size full(2 * picture.bgr.cols, 2 * picture.bgr.rows);
  cv::resize(picture.bgr, picture.bgr, full, 0, 0, cv::INTER_LINEAR);
  cv::resize(picture.labels, picture.labels, full, 0, 0, cv::INTER_NEAREST);
  cv::resize(picture.wood, picture.wood, full, 0, 0, cv::INTER_NEAREST);
  return picture;
}

std::optional<fs::path> lessonsFolder() {
  const char* folder = std::getenv("RACKSIDE_WOOD_LESSONS");
  if (!folder || !fs::exists(fs::path(folder) / "index.csv")) return std::nullopt;
  return folder;
}

// The tuning part, a name a line: training/tuning.txt, made by train.py's split.
std::vector<std::string> tuningNames() {
  std::ifstream in(RACKSIDE_TUNING_NAMES);
  std::vector<std::string> names;
  for (std::string line; std::getline(in, line);) names.push_back(line);
  return names;
}

void scorePhotographs(const char* title, const fs::path& folder,
                      const std::vector<std::string>& names, const MarkModel& model) {
  std::printf("\n%s: %zu photographs of %s\n", title, names.size(), folder.filename().c_str());
  ProposeTally all;
  for (const std::string& name : names) {
    const LabelledWood picture = fullSize(loadLabelledWood(folder, name));
    RunControl run;
    all.add(scoreProposals(
        proposeMarks({picture.bgr, picture.wood, kProposeMmPerPx / 2}, model, run), picture));
  }
  printProposeTally(all);
  printReliability(all);
}

void printPublished() {
  std::printf(
      "\nAs a sense of scale, not a comparison (other splits, boxes instead of outlines): YOLOv8s "
      "on\n"
      "the same open set, three seeds: mAP50 0.825, recall 0.774, precision 0.804, false alarms "
      "on\n"
      "clean tiles 1.7 %% at confidence 0.5 (repository khanhnt/wood_defect_datacentric, "
      "tables).\n");
}

int builtIn(const MarkModel& model) {
  const auto folder = woodSurfaceFolder();
  if (!folder) {
    std::printf("Skipped: RACKSIDE_WOOD_SURFACE names no folder of labelled photographs.\n");
    return 0;
  }
  scorePhotographs("not learned from", *folder, woodSurfaceNames(*folder), model);
  printPublished();
  return 0;
}

int learning(const MarkModel& model) {
  const auto folder = lessonsFolder();
  if (!folder) {
    std::printf("Skipped: RACKSIDE_WOOD_LESSONS names no folder of labelled photographs.\n");
    return 0;
  }
  const std::vector<std::string> tuning = tuningNames(), all = woodSurfaceNames(*folder);
  std::vector<std::string> learned;
  for (const std::string& name : all)
    if (std::find(tuning.begin(), tuning.end(), name) == tuning.end()) learned.push_back(name);
  std::vector<std::string> some;
  for (size_t i = 0; i < learned.size(); i += 12) some.push_back(learned[i]);
  scorePhotographs("learned from (every twelfth)", *folder, some, model);
  scorePhotographs("the confidence was set on", *folder, tuning, model);
  return 0;
}

// Each region of the tuning photographs, as sure as it may be, and whether it is right.
int trust(const MarkModel& built) {
  const auto folder = lessonsFolder();
  if (!folder) return builtIn(built);
  MarkModel model = built;
  for (size_t f = 0; f < kRegionFamilies; ++f) model.trust[f] = {100, 0, 0, 0}, model.least[f] = 0;
  std::vector<JudgedRegion> judged;
  for (const std::string& name : tuningNames()) {
    const LabelledWood half = loadLabelledWood(*folder, name);
    RunControl run;
    const KindMaps maps = kindMaps(model, half.bgr, half.wood, run);
    const LabelledWood full = fullSize(half);
    for (const Region& r : findRegions(maps, half.wood, model)) {
      const MarkShape shape = carried(shapeOf(r, r.kind), {2, 0, 0.5, 0, 2, 0.5});
      const ProposeTally one = scoreProposals({{r.kind, 1, shape}}, full);
      judged.push_back(
          {familyOf(r.kind), r.meanProbability, r.topProbability, r.areaPx, one.told[0].second});
    }
  }
  static const char* const names[] = {"round", "crack", "gum", "pith", "streak", "stain"};
  for (int f = 0; f < kRegionFamilies; ++f) {
    const auto family = static_cast<RegionFamily>(f);
    const RegionTrust t = fitTrust(judged, family);
    const auto count = std::count_if(judged.begin(), judged.end(),
                                     [&](const JudgedRegion& j) { return j.family == family; });
    std::printf("\"%s\": {\"trust\": [%.4f, %.4f, %.4f, %.4f], \"least\": 0.5}  (%ld regions)\n",
                names[f], t.constant, t.mean, t.top, t.logArea, long(count));
  }
  return 0;
}

int time(const MarkModel& model) {
  const FaceToRead face = synthetic::paintedCheck("oak", 5, 3000, 250).face;
  for (int i = 0; i < 3; ++i) {
    RunControl run;
    const auto begun = std::chrono::steady_clock::now();
    const std::clock_t spent = std::clock();
    const auto marks = proposeMarks(face, model, run);
    const std::chrono::duration<double> passed = std::chrono::steady_clock::now() - begun;
    std::printf("3 m × 0.25 m, %.1f Mpx: %.2f s, %.2f s of processor time, %zu proposals\n",
                face.bgr.total() / 1e6, passed.count(),
                double(std::clock() - spent) / CLOCKS_PER_SEC, marks.size());
  }
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  std::printf("peak memory of the process, the painter's included: %ld MB\n",
              used.ru_maxrss / 1024);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string what = argc > 1 ? argv[1] : "all";
  MarkModel model = builtInMarkModel();
  if (argc > 2) {
    auto read = readMarkModel(argv[2]);
    if (!read) {
      std::fprintf(stderr, "%s\n", read.error().message.c_str());
      return 1;
    }
    model = std::move(read).value();
  }
  if (what == "trust") return trust(model);
  if (what == "time" || what == "all") time(model);
  if (what == "painted" || what == "all") synthetic::scorePaintedChecks(model);
  if (what == "learning" || what == "all") learning(model);
  if (what == "built-in" || what == "all") builtIn(model);
  return 0;
}
