// SPDX-License-Identifier: GPL-3.0-or-later
// Cuts that a maker can make. What is thin is judged by tests/core/support/sawing.*, written apart
// from the planner and its checker.
#include "core/plan/sound_cuts.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "core/plan/checker.h"
#include "core/plan/plain_planner.h"
#include "core/plan/plan_writer.h"
#include "core/plan/slice.h"
#include "random_racks.h"
#include "tests/core/support/sawing.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

// As the plain planner lays it out, every cut as it falls.
Plan rawPlan(const PlanRequest& request) {
  std::vector<BlankKind> kinds;
  std::vector<int> wanted;
  for (size_t p = 0; p < request.parts.size(); ++p) {
    for (BlankKind& k : blankKinds(request.parts[p], static_cast<int>(p), request.shop, 4))
      kinds.push_back(k);
    wanted.push_back(request.parts[p].copies);
  }
  const Job job{request.parts, kinds, request.shop};
  std::vector<std::unique_ptr<BoardMap>> maps;
  std::vector<const BoardMap*> open;
  for (const Board& b : request.boards) {
    maps.push_back(std::make_unique<BoardMap>(b, job));
    open.push_back(maps.back().get());
  }
  const auto layouts = plainLayouts(open, job, wanted);
  const PlanOptions options;
  PlanWriter writer(request, options, job);
  for (size_t b = 0; b < open.size(); ++b) {
    std::vector<WrittenSection> sections;
    for (const SectionLayout& s : layouts[b].sections)
      sections.push_back(writtenSection(*open[b], job, s));
    writer.add(open[b]->board(), sections);
  }
  return writer.take();
}

bool hasBreach(const PlanRequest& request, const Plan& plan) {
  return breaks(request, plan, "slices") || breaks(request, plan, "surplus");
}

// About what a plan of the plain planner does not give.
std::string otherFaults(const PlanRequest& request, const Plan& plan) {
  std::string all;
  for (const Breach& b : checkPlan(request, plan))
    if (b.rule != "accounted" && b.rule != "value") all += b.rule + ": " + b.message + "\n";
  return all;
}

Board plank(double length, double width) {
  Board b;
  b.id = {"plank"};
  b.name = "plank";
  b.thicknessMm = 27;
  for (const Point p : rectangle({0, 0, length, width}))
    b.outline.vertices.push_back({p, 0, EdgeState::sure});
  return b;
}

Part rail(double length, double width, int copies) {
  Part p;
  p.id = {"rail" + std::to_string(static_cast<int>(length)) + "x" +
          std::to_string(static_cast<int>(width))};
  p.name = "Rail";
  p.copies = copies;
  p.lengthMm = length, p.widthMm = width, p.thicknessMm = 19;
  return p;
}

Plan planned(const PlanRequest& request, double seconds) {
  RunControl control;
  PlanOptions options;
  options.limitSeconds = seconds;
  const Result<Plan> plan = makePlan(request, options, control);
  REQUIRE(plan.ok());
  return *plan;
}

}  // namespace

TEST_CASE("a plan's cuts are made sound without moving a piece", "[sound-cuts]") {
  int thin = 0, cutsBefore = 0, cutsAfter = 0;
  for (unsigned seed = 1; seed <= 25; ++seed) {
    const PlanRequest request = randomRack({3, 18, seed, 0.9, false});
    Plan plan = rawPlan(request);
    const Plan raw = plan;
    const Sawing before = sawingOf(request, raw);
    INFO("seed " << seed);
    // The planner's checker and the one written apart agree on what is wrong.
    CHECK(hasBreach(request, raw) == !before.faults.empty());
    makeCutsSound(request, plan);
    const Sawing after = sawingOf(request, plan);
    for (const std::string& fault : after.faults) CHECK(fault == "");
    CHECK(otherFaults(request, plan) == "");
    REQUIRE(plan.pieces.size() == raw.pieces.size());
    for (size_t i = 0; i < plan.pieces.size(); ++i)
      CHECK(plan.pieces[i].outline == raw.pieces[i].outline);
    thin += before.thin, cutsBefore += before.cuts, cutsAfter += after.cuts;
    // Once more changes nothing.
    Plan again = plan;
    makeCutsSound(request, again);
    CHECK(again.cuts.size() == plan.cuts.size());
  }
  CHECK(thin > 50);  // there was something to mend
  CHECK(cutsAfter < 0.85 * cutsBefore);
}

TEST_CASE("every plan handed out keeps the rules of sawing", "[sound-cuts]") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const PlanRequest request = randomRack({3, 14, seed, 0.8, seed % 2 == 0, seed % 3 == 0});
    const Sawing sawing = sawingOf(request, planned(request, 0.3));
    INFO("seed " << seed);
    for (const std::string& fault : sawing.faults) CHECK(fault == "");
    CHECK(sawing.under3 == 0);
    CHECK(sawing.ripsWithin3 == 0);
  }
}

TEST_CASE("pieces of one width are ripped first and cut to length afterwards", "[sound-cuts]") {
  // Four rails of one width along a board of that width: crosscut first takes four first rips.
  const PlanRequest request{{plank(2600, 100)}, {rail(550, 80, 4)}, Shop{}, {}, {}, nullptr, {}};
  const Plan plan = planned(request, 0.5);
  REQUIRE(plan.pieces.size() == 4);
  const Sawing sawing = sawingOf(request, plan);
  CHECK(sawing.firstRips + sawing.jointed == 1);
  CHECK(sawing.cuts <= 7);
}

TEST_CASE("an edge that the saw would run along is jointed instead", "[sound-cuts]") {
  // The rail's rough width, 87 mm, and a rip 4 mm in do not go together in 88 mm.
  const PlanRequest request{{plank(900, 88)}, {rail(700, 80, 1)}, Shop{}, {}, {}, nullptr, {}};
  const Plan plan = planned(request, 0.3);
  REQUIRE(plan.pieces.size() == 1);
  int jointed = 0;
  for (const Cut& cut : plan.cuts) jointed += isJointed(cut) ? 1 : 0;
  CHECK(jointed == 1);
  CHECK(checkPlan(request, plan).empty());
}

TEST_CASE("rules of the shop that contradict one another are refused by both names",
          "[sound-cuts]") {
  PlanRequest request{{plank(900, 120)}, {rail(700, 80, 1)}, Shop{}, {}, {}, nullptr, {}};
  const auto refusal = [&](const char* key, double value) {
    request.shop = Shop{};
    (*request.shop.extra)[key] = value;
    RunControl control;
    const Result<Plan> plan = makePlan(request, PlanOptions{}, control);
    return plan ? std::string() : plan.error().message;
  };
  const std::string slice = refusal("least_slice_length_mm", 100);
  CHECK(slice.find("thinnest slice along the board") != std::string::npos);
  CHECK(slice.find("surplus length that stays on") != std::string::npos);
  const std::string step = refusal("rough_length_step_mm", 40);
  CHECK(step.find("step of rough lengths") != std::string::npos);
  CHECK(step.find("length allowance") != std::string::npos);
  CHECK(refusal("least_rip_in_mm", -1).find("least_rip_in_mm") != std::string::npos);
}
