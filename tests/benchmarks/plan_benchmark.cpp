// SPDX-License-Identifier: GPL-3.0-or-later
// How good, how fast and how sure plans are, on racks from a seed; run by hand:
//   plan_benchmark --check RACKS
//   plan_benchmark --free RACKS
//   plan_benchmark --cases [--seconds S] FOLDER…
//   plan_benchmark --sawing [--weights 1] [--seconds S] [--seeds [FROM-]N] [boards/pieces …]
//   plan_benchmark [--seconds S] [--processor S] [--seeds [FROM-]N] [--look 0|1] [--panels 0|1]
//   [--first] [--stock] [--replan] [--share S] [boards/pieces …]
// One line a rack. "first": the first plan handed out; "last": the plan returned; gaps are those of
// its value to the bound on the planner's own columns and to the bound that trusts no grid; "chalk"
// is the plain planner, which goes along each board once and takes the longest part that fits.
// "free": small racks, each planned and searched by a searcher apart
// (tests/core/plan/free_search.h) with any angle and any number of copies in a blank: no plan of
// its is above the bound. "cases": rack folders that hold a plan; the rack is planned afresh, and
// the bound of that held against the plan in the folder.
#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <cstring>
#include <exception>
#include <fstream>
#include <string>
#include <thread>

#include "core/document/plan_rack.h"
#include "core/plan/checker.h"
#include "core/plan/default_weights.h"
#include "core/plan/plain_planner.h"
#include "core/plan/plan_writer.h"
#include "core/storage/rack_folder.h"
#include "tests/core/plan/free_search.h"
#include "tests/core/plan/random_racks.h"
#include "tests/core/support/sawing.h"

using namespace rackside;
using namespace rackside::testing;

namespace {

using Clock = std::chrono::steady_clock;

double since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

// Peak of this process since the last resetPeak(), MB.
double peakMb() {
  std::ifstream status("/proc/self/status");
  for (std::string word; status >> word;)
    if (word == "VmHWM:") {
      double kb = 0;
      status >> kb;
      return kb / 1024;
    }
  return 0;
}
// Of all threads, seconds.
double processorTime() {
  rusage use;
  getrusage(RUSAGE_SELF, &use);
  return static_cast<double>(use.ru_utime.tv_sec + use.ru_stime.tv_sec) +
         1e-6 * static_cast<double>(use.ru_utime.tv_usec + use.ru_stime.tv_usec);
}
void resetPeak() {
  std::ofstream("/proc/self/clear_refs") << "5";
}

struct Chalk {
  double value = 0, stockMm2 = 0;
};

Chalk chalkPlan(const PlanRequest& request, const PlanOptions& options) {
  std::vector<BlankKind> kinds;
  std::vector<int> wanted;
  for (size_t p = 0; p < request.parts.size(); ++p) {
    for (BlankKind& k :
         blankKinds(request.parts[p], static_cast<int>(p), request.shop, options.mostCopiesInBlank))
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
  PlanWriter writer(request, options, job);
  for (size_t b = 0; b < open.size(); ++b) {
    std::vector<WrittenSection> sections;
    for (const SectionLayout& s : layouts[b].sections)
      sections.push_back(writtenSection(*open[b], job, s));
    writer.add(open[b]->board(), sections);
  }
  const Plan plan = writer.take();
  return {plan.value, plan.stockMm2};
}

struct Settings {
  double seconds = 60;
  double processor = 0;  // seconds; when given, the run ends by it and not by the clock
  int firstSeed = 1, seeds = 3;
  bool looks = true;
  bool panels = true;
  bool firstOnly = false;
  bool replan = false;
  bool sawing = false;      // what a maker counts, instead of gaps
  bool weights = false;     // the shop's own for wood and boards, not looks alone
  int check = 0;            // racks
  int free = 0;             // racks
  double share = 0;         // of the parts' area in the clear wood; 0: 0.7–1.1 by seed
  bool leastStock = false;  // ample stock, all parts placed, least wood
  std::vector<std::pair<int, int>> sizes;
  bool cases = false;
  std::vector<std::string> folders;
};

void measure(const RackSpec& spec, const Settings& settings) {
  const PlanRequest request = randomRack(spec);
  PlanOptions options;
  options.limitSeconds = settings.seconds;
  if (settings.leastStock) options.goal = PlanGoal::leastStock;
  const Chalk chalk = chalkPlan(request, options);
  resetPeak();
  RunControl control;
  double firstValue = 0, firstSeconds = 0, firstProcessor = 0;
  const double processorBefore = processorTime();
  int handedOut = 0;
  const auto start = Clock::now();
  options.onBetter = [&](const Plan& plan) {
    if (handedOut++ > 0) return;
    firstValue = plan.value;
    firstSeconds = since(start);
    firstProcessor = processorTime() - processorBefore;
    if (settings.firstOnly) control.stop();
  };
  if (settings.processor > 0) options.limitSeconds = 1e5;
  const std::jthread watch([&](const std::stop_token& ended) {
    while (settings.processor > 0 && !ended.stop_requested()) {
      if (processorTime() - processorBefore >= settings.processor) control.stop();
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
  });
  const Result<Plan> made = makePlan(request, options, control);
  if (!made) {
    std::printf("%s\n", made.error().message.c_str());
    return;
  }
  const Plan& plan = *made;
  const double percent = 100;
  if (settings.leastStock) {
    std::printf(
        "%4d %4d %4llu  %.2f | first %.2f s | stock %.3f m2, bound %.3f, gap %.2f %% | chalk %.3f "
        "m2 (%zu of %d placed) | %.1f s %.1f s %.0f MB | %zu %s\n",
        spec.boards, spec.pieces, spec.seed, spec.areaShare, firstSeconds, plan.stockMm2 / 1e6,
        plan.stockBound / 1e6, percent * (1 - plan.stockBound / plan.stockMm2),
        chalk.stockMm2 / 1e6, plan.pieces.size(), spec.pieces, since(start),
        processorTime() - processorBefore, peakMb(), checkPlan(request, plan).size(),
        plan.stopped.c_str());
    return;
  }
  std::printf(
      "%4d %4d %4llu  %.2f | %6.2f %5.2f %5.1f %% | %9.0f %9.0f | %6.2f %% %6.2f %% | %+6.1f %% "
      "%5zu | "
      "%6.1f %6.1f %6.0f | "
      "%zu %s\n",
      spec.boards, spec.pieces, spec.seed, spec.areaShare, firstSeconds, firstProcessor,
      percent * firstValue / plan.bound, plan.value, plan.bound,
      percent * (1 - plan.value / std::max(1e-9, plan.gridBound)), percent * plan.gap(),
      percent * (plan.value / chalk.value - 1), plan.pieces.size(), since(start),
      processorTime() - processorBefore, peakMb(), checkPlan(request, plan).size(),
      plan.stopped.c_str());
  std::fflush(stdout);
}

// Pieces of `before` that lie where they lay, to a millimetre.
size_t stayed(const Plan& before, const Plan& after) {
  std::vector<char> taken(after.pieces.size(), 0);
  size_t count = 0;
  for (const Piece& p : before.pieces)
    for (size_t i = 0; i < after.pieces.size(); ++i) {
      const Piece& q = after.pieces[i];
      if (taken[i] || p.board != q.board || p.part != q.part) continue;
      const Rect a = bounds(p.outline), b = bounds(q.outline);
      if (std::max({std::abs(a.x0 - b.x0), std::abs(a.y0 - b.y0), std::abs(a.x1 - b.x1),
                    std::abs(a.y1 - b.y1)}) > 1)
        continue;
      taken[i] = 1;
      ++count;
      break;
    }
  return count;
}

// What is left when the plan at hand is planned again with one of its own pieces pinned.
void measurePin(PlanRequest request, const Plan& was) {
  request.current = &was;
  request.pinned = {was.pieces[was.pieces.size() / 2].id};
  PlanOptions options;
  options.limitSeconds = 2;
  RunControl control;
  const Result<Plan> again = makePlan(request, options, control);
  if (again)
    std::printf("               pin obeyed: value %.0f of %.0f\n", again->value, was.value);
}

// How soon a plan is there again after a knot has been found in a planned piece, and what stays.
void measureReplan(const RackSpec& spec) {
  PlanRequest request = randomRack(spec);
  PlanOptions options;
  options.limitSeconds = 5;
  RunControl before;
  const Result<Plan> made = makePlan(request, options, before);
  if (!made || made->pieces.empty()) return;
  const Plan& was = *made;
  const Piece& hit = was.pieces[was.pieces.size() / 2];
  const Rect box = bounds(hit.outline);
  Mark knot;
  knot.id = {"found-later"};
  knot.kind = MarkKind::knot;
  knot.through = true;
  knot.soundness = Soundness::loose;
  knot.onA = Ellipse{{(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2}, 8, 8, 0};
  for (Board& b : request.boards)
    if (b.id == hit.board) b.marks.push_back(knot);
  measurePin(randomRack(spec), was);
  request.current = &was;
  RunControl control;
  const auto start = Clock::now();
  const double processorBefore = processorTime();
  options.onBetter = [&](const Plan&) { control.stop(); };
  const Result<Plan> again = makePlan(request, options, control);
  if (!again) return;
  std::printf(
      "%4d %4d %4llu | replanned in %.3f s (processor %.3f s), value %.0f of %.0f, %zu of %zu "
      "stay, "
      "%zu breaches\n",
      spec.boards, spec.pieces, spec.seed, since(start), processorTime() - processorBefore,
      again->value, was.value, stayed(was, *again), was.pieces.size(),
      checkPlan(request, *again).size());
}

// Plans of many random racks, each gone through by the checker.
void checkMany(int racks) {
  int plans = 0, breaches = 0;
  Sawing sawing;
  for (int seed = 1; seed <= racks; ++seed) {
    RackSpec spec{1 + seed % 5, 5 + seed * 7 % 26, static_cast<unsigned long long>(seed),
                  0.5 + 0.1 * (seed % 7)};
    spec.looks = seed % 3 != 0;
    spec.panels = seed % 8 < 5;
    const PlanRequest request = randomRack(spec);
    PlanOptions options;
    options.limitSeconds = 0.3;
    options.seed = static_cast<unsigned long long>(seed);
    if (seed % 4 == 0) options.goal = PlanGoal::leastStock;
    options.onBetter = [&](const Plan& plan) {
      ++plans;
      breaches += checkPlan(request, plan).empty() ? 0 : 1;
      sawing += sawingOf(request, plan);
    };
    RunControl control;
    try {
      (void)makePlan(request, options, control);
    } catch (const std::logic_error& refused) {
      std::printf("seed %d: %s\n", seed, refused.what());
      ++breaches;
    }
  }
  std::printf("%d racks, %d plans handed out, %d with a breach\n", racks, plans, breaches);
  std::printf("of %d cuts, by a checker written apart: %d too thin, %d blanks trimmed twice\n",
              sawing.cuts, sawing.thin, sawing.trimmedTwice);
  for (size_t i = 0; i < std::min<size_t>(10, sawing.faults.size()); ++i)
    std::printf("  %s\n", sawing.faults[i].c_str());
}

void printSawing(const char* name, const Sawing& s, const Plan* plan) {
  const double cuts = std::max(1, s.cuts);
  std::printf(
      "%-14s %4d boards %6.2f m2 | %4d pieces %5d cuts %4d edges jointed, %.2f cuts a piece | "
      "thin %d, trimmed twice %d, under 3 mm %.1f %%, trims under 10 mm %.1f %%, first rips within "
      "3 mm %.1f %%",
      name, s.boards, s.boardsM2, s.pieces, s.cuts, s.jointed,
      s.cuts / std::max(1.0, 1.0 * s.pieces), s.thin, s.trimmedTwice, 100 * s.under3 / cuts,
      100.0 * s.trimsUnder10 / std::max(1, s.trims),
      100.0 * s.ripsWithin3 / std::max(1, s.firstRips));
  if (plan) std::printf(" | used %.2f m2, value %.0f", plan->stockMm2 / 1e6, plan->value);
  std::printf("\n");
  std::fflush(stdout);
}

// What a maker counts: boards, wood, cuts, and those that cannot be made.
Sawing measureSawing(const RackSpec& spec, const Settings& settings) {
  const PlanRequest request = randomRack(spec);
  PlanOptions options;
  options.limitSeconds = settings.seconds;
  if (settings.leastStock) options.goal = PlanGoal::leastStock;
  if (settings.weights) options.weights = weightsFor(request.shop, request.boards, request.parts);
  RunControl control;
  const Result<Plan> plan = makePlan(request, options, control);
  if (!plan) return {};
  const Sawing sawing = sawingOf(request, *plan);
  char name[40];
  std::snprintf(name, sizeof name, "%d/%d %llu", spec.boards, spec.pieces, spec.seed);
  printSawing(name, sawing, &*plan);
  return sawing;
}

void measureCase(const std::string& folder, const Settings& settings) {
  const Result<Rack> rack = loadRack(folder);
  if (!rack || !rack->plan) {
    std::printf("%s: %s\n", folder.c_str(), rack ? "no plan" : rack.error().message.c_str());
    return;
  }
  RackPlanOptions options = planOptionsFor(*rack);
  options.planning.limitSeconds = settings.seconds;
  options.afresh = true;
  RunControl control;
  const auto start = Clock::now();
  const double processorBefore = processorTime();
  const auto plans = planRack(*rack, options, nullptr, control);
  if (!plans) {
    std::printf("%s: %s\n", folder.c_str(), plans.error().message.c_str());
    return;
  }
  const Plan& plan = plans->front();
  std::printf("%-60s given %9.0f | value %9.0f bound %9.0f gap %6.2f %% %s| %.1f s %.1f s %s\n",
              folder.c_str(), rack->plan->value, plan.value, plan.bound, 100 * plan.gap(),
              rack->plan->value > plan.bound * (1 + 1e-9) ? "ABOVE THE BOUND " : "", since(start),
              processorTime() - processorBefore, plan.stopped.c_str());
  std::fflush(stdout);
}

// Bounds against plans that know no grid.
void searchFreely(int racks) {
  constexpr int kPlans = 300;
  constexpr double kSeconds = 0.3;
  int above = 0, better = 0;
  double gaps = 0;
  for (int seed = 1; seed <= racks; ++seed) {
    const PlanRequest request = freeRack(static_cast<unsigned>(seed));
    PlanOptions options;
    options.limitSeconds = kSeconds;
    RunControl control;
    const Result<Plan> plan = makePlan(request, options, control);
    if (!plan) {
      std::printf("seed %d: %s\n", seed, plan.error().message.c_str());
      continue;
    }
    const double found = freeSearch(request, kPlans, static_cast<unsigned>(seed));
    gaps += plan->gap();
    better += found > plan->value * (1 + 1e-9) ? 1 : 0;
    if (found <= plan->bound * (1 + 1e-9)) continue;
    ++above;
    std::printf("seed %d: found %.0f, bound %.0f, planned %.0f\n", seed, found, plan->bound,
                plan->value);
  }
  std::printf(
      "%d racks of %d free plans: %d above the bound; %d better than the plan; mean gap "
      "%.2f %%\n",
      racks, kPlans, above, better, 100 * gaps / racks);
}

// "3": seeds 1 to 3; "4-6": those.
void readSeeds(const char* word, Settings& s) {
  if (std::sscanf(word, "%d-%d", &s.firstSeed, &s.seeds) == 2) return;
  s.seeds = s.firstSeed;
  s.firstSeed = 1;
}

Settings settingsFrom(int count, char** words) {
  Settings s;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    int boards = 0, pieces = 0;
    if (word == "--seconds" && i + 1 < count)
      s.seconds = std::stod(words[++i]);
    else if (word == "--processor" && i + 1 < count)
      s.processor = std::stod(words[++i]);
    else if (word == "--share" && i + 1 < count)
      s.share = std::stod(words[++i]);
    else if (word == "--seeds" && i + 1 < count)
      readSeeds(words[++i], s);
    else if (word == "--look" && i + 1 < count)
      s.looks = std::stoi(words[++i]) != 0;
    else if (word == "--panels" && i + 1 < count)
      s.panels = std::stoi(words[++i]) != 0;
    else if (word == "--check" && i + 1 < count)
      s.check = std::stoi(words[++i]);
    else if (word == "--free" && i + 1 < count)
      s.free = std::stoi(words[++i]);
    else if (word == "--cases")
      s.cases = true;
    else if (word == "--replan")
      s.replan = true;
    else if (word == "--sawing")
      s.sawing = true;
    else if (word == "--weights" && i + 1 < count)
      s.weights = std::stoi(words[++i]) != 0;
    else if (word == "--stock")
      s.leastStock = true;
    else if (word == "--first")
      s.firstOnly = true;
    else if (std::sscanf(word.c_str(), "%d/%d", &boards, &pieces) == 2)
      s.sizes.push_back({boards, pieces});
    else if (s.cases)
      s.folders.push_back(word);
  }
  if (s.sizes.empty()) s.sizes = {{10, 100}, {30, 150}, {50, 100}, {100, 200}, {200, 200}};
  return s;
}

}  // namespace

int main(int count, char** words) try {
  const Settings settings = settingsFrom(count, words);
  if (settings.check > 0) {
    checkMany(settings.check);
    return 0;
  }
  if (settings.free > 0) {
    searchFreely(settings.free);
    return 0;
  }
  if (settings.cases) {
    for (const std::string& folder : settings.folders) measureCase(folder, settings);
    return 0;
  }
  if (!settings.sawing)
    std::printf(
        "boards pieces seed share | first s, processor s, of bound | value, bound | gap on grid, "
        "true | on chalk, "
        "pieces | s, processor s, MB | "
        "breaches, stopped\n");
  Sawing all;
  for (const auto& [boards, pieces] : settings.sizes)
    for (int seed = settings.firstSeed; seed <= settings.seeds; ++seed) {
      RackSpec spec{boards, pieces, static_cast<unsigned long long>(seed),
                    settings.leastStock ? 0.3 : 0.7 + 0.4 * (seed % 5) / 4.0};
      spec.looks = settings.looks;
      spec.panels = settings.panels;
      if (settings.share > 0) spec.areaShare = settings.share;
      if (settings.sawing)
        all += measureSawing(spec, settings);
      else if (settings.replan)
        measureReplan(spec);
      else
        measure(spec, settings);
    }
  if (settings.sawing) printSawing("all", all, nullptr);
} catch (const std::exception& fault) {
  std::fputs(fault.what(), stderr);
  return 1;
}
