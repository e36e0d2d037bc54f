// SPDX-License-Identifier: GPL-3.0-or-later
// Turns the layouts of boards into a plan: blanks, pieces, and the cuts in working order.
#pragma once

#include <vector>

#include "core/plan/layout.h"

namespace rackside {

class PlanWriter {
 public:
  PlanWriter(const PlanRequest& request, const PlanOptions& options, const Job& job);
  // Copies are numbered in the order boards are added; a layout with more copies than are wanted is
  // a programmer's error.
  void add(const BoardMap& map, const BoardLayout& layout);
  Plan take();

 private:
  struct Region;  // of the wood, as the child of a cut
  Cut& addCut(const BoardMap& map, CutKind kind, const Segment& line, double kerfMm,
              const Region& region, const std::string& label);
  Region cutSections(const BoardMap& map, const BoardLayout& layout, std::vector<Region>& sections);
  void ripSection(const BoardMap& map, const SectionLayout& section, Region region);
  void finishStrip(const BoardMap& map, const SectionLayout& section, const StripLayout& strip,
                   Region region);
  void addPieces(const BoardMap& map, const Blank& blank, const BlankKind& kind);
  std::string nextId(const char* prefix);

  const PlanRequest& request_;
  const PlanOptions& options_;
  const Job& job_;
  Plan plan_;
  std::vector<int> placed_;  // copies by part
  int order_ = 0;            // of the latest cut on the board at hand
  unsigned long long ids_ = 0;
};

// Wood a layout uses, mm² of the board's outline: all of it, less the far end when that is long
// enough to go back on the rack; 0 for an empty layout.
double stockUsedMm2(const BoardMap& map, const BoardLayout& layout, const Shop& shop);

}  // namespace rackside
