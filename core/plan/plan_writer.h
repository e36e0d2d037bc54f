// SPDX-License-Identifier: GPL-3.0-or-later
// Turns the layouts of boards into a plan: blanks, pieces, and the cuts in working order.
#pragma once

#include <set>
#include <vector>

#include "core/plan/stock.h"
#include "core/plan/written_section.h"

namespace rackside {

class PlanWriter {
 public:
  PlanWriter(const PlanRequest& request, const PlanOptions& options, const Job& job);
  // Pieces that keep their ids and copies; to be called before anything is added.
  void keep(const std::vector<Piece>& pieces, const std::vector<Blank>& blanks,
            const std::vector<Cut>& cuts);
  void keepBoard(const Plan& plan, const BoardId& board);
  // An id of an earlier plan never names another piece, blank or cut.
  void reserveIds(const Plan& plan);
  // Copies are numbered in the order boards are added; more copies than are wanted are a
  // programmer's error.
  void add(const Board& board, const std::vector<WrittenSection>& sections);
  // All that a plan has on a board, as it is; keep() must have been called with it.
  void addAsItIs(const Plan& plan, const Board& board);
  Plan take();

 private:
  struct Region;  // of the wood, as the child of a cut
  Cut& addCut(CutKind kind, const Segment& line, double kerfMm, const Region& region,
              const std::string& label);
  void cutSections(const std::vector<WrittenSection>& sections, std::vector<Region>& regions);
  void ripSection(const WrittenSection& section, Region region);
  void finishStrip(const WrittenSection& section, const WrittenStrip& strip, Region region);
  void addPlanned(const WrittenSection& section, double lowMm, const WrittenBlank& written,
                  const CutId& lastCut);
  void addPinned(const PinnedBlank& pinned, const CutId& lastCut);
  void addPieces(const Blank& blank, const BlankKind& kind);
  void finishBlank(Blank& blank, const Part& part, const CutId& lastCut);
  void addPiece(Piece piece);
  int nextCopy(int part);
  std::string nextId(const char* prefix);

  const PlanRequest& request_;
  const PlanOptions& options_;
  const Job& job_;
  Plan plan_;
  const Board* board_ = nullptr;  // the one at hand
  Polygon outline_;
  std::vector<std::set<int>> used_;  // copies by part
  std::set<std::string> keptIds_;
  int order_ = 0;  // of the latest cut on the board at hand
  unsigned long long ids_ = 0;
};

// Wood that sections use, mm² of the board's outline: all of it, less the far end when that is long
// enough to go back on the rack; 0 for none.
double stockUsedMm2(const Board& board, const std::vector<WrittenSection>& sections,
                    const Shop& shop);

}  // namespace rackside
