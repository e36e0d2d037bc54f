// SPDX-License-Identifier: GPL-3.0-or-later
// Parts too small to be machined alone, each gang of them (core/plan/gangs.h) as one part. Gangs of
// the current plan stay together, pins and all; copies that lie alone there stay alone; others may
// be ganged. Strips of panels are not.
#pragma once

#include <map>
#include <set>

#include "core/plan/gangs.h"
#include "core/plan/run/reduction.h"

namespace rackside {

class InGangs : public Reduction {
 public:
  // Gangs like those `dissolved` are not formed anew.
  InGangs(const Reduced& above, const PlanWeights& weights, const std::vector<Gang>& dissolved);
  void raise(Plan& plan) const override;
  std::string limits() const override;

  bool any() const { return !gangs_.empty(); }
  // Gangs of which a copy is missing in a plan of what is below.
  std::vector<Gang> missingIn(const Plan& plan) const;

 private:
  struct Kind {
    Gang gang;
    PartId id;
    int copies = 0;
  };
  using Copy = std::pair<PartId, int>;
  using CopiesOf = std::map<PartId, std::vector<int>>;  // ascending

  Kind& kindOf(const Gang& gang);
  const Kind* findKind(const PartId& id) const;
  void takeGangsOfCurrent();
  bool areWanted(const std::vector<const Piece*>& pieces) const;
  Piece asOnePiece(const Blank& blank, const std::vector<const Piece*>& pieces, const Kind& kind);
  void formGangs(const std::set<PartId>& strips, const std::vector<Gang>& dissolved);
  void shareCopies();
  CopiesOf copiesFor(const Plan& plan) const;
  void addApart(const Piece& piece, CopiesOf& left, std::vector<Piece>& out) const;
  Piece memberOf(const Piece& whole, const GangMember& member) const;

  const PlanRequest& above_;
  PlanWeights weights_;
  Plan current_;  // with a piece a gang
  std::vector<Kind> gangs_;
  std::set<Copy> alone_, ganged_;  // copies in the current plan
  std::map<PartId, int> newlyGanged_;
  CopiesOf freeForGangs_, aloneCopies_;
  std::map<PieceId, std::vector<Piece>> originals_;  // by the gang's piece
};

}  // namespace rackside
