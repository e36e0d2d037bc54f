// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/moving_parts.h"

#include <algorithm>
#include <set>

namespace rackside {
namespace {

struct Source {
  std::string species;
  Sawn sawn = Sawn::unknown;
  auto operator<=>(const Source&) const = default;
};

std::set<Source> sourcesOf(const Rack& rack, const Part& part) {
  std::set<Source> sources;
  if (rack.plan)
    for (const Piece& piece : rack.plan->pieces)
      if (piece.part == part.id)
        if (const Board* board = rack.findBoard(piece.board))
          sources.insert({board->species, board->sawn});
  if (sources.empty())
    for (const Board& board : rack.boards)
      if (!board.cutUp && !board.isSpokenFor() &&
          woodServes(part.species, board.species, rack.shop.ownSpecies))
        sources.insert({board.species, board.sawn});
  if (sources.empty() && !part.species.empty()) sources.insert({part.species, Sawn::unknown});
  return sources;
}

// The coefficient's own provenance is the one of the figure that it is taken from.
Provenance provenanceOf(const Species& species, Sawn sawn) {
  const ChangeCoefficients c = changeOf(species);
  if (sawn == Sawn::quarter) return c.radial->from;
  if (sawn == Sawn::rift) return std::max(c.radial->from, c.tangential->from);
  return c.tangential->from;
}

}  // namespace

MovingParts movingParts(const Rack& rack, const Seasons& seasons) {
  MovingParts all;
  const auto without = [&all](const std::string& wood) {
    auto& woods = all.woodsWithoutFigures;
    if (std::find(woods.begin(), woods.end(), wood) == woods.end()) woods.push_back(wood);
  };
  for (const Part& part : rack.parts) {
    if (part.widthMm < kWideFromMm) continue;
    std::optional<MovingPart> most;
    const std::set<Source> sources = sourcesOf(rack, part);
    if (sources.empty()) without("");
    for (const Source& source : sources) {
      const Species* species = speciesNamed(source.species, rack.shop.ownSpecies);
      const auto c = species ? widthCoefficient(*species, source.sawn) : std::nullopt;
      if (!c) {
        without(source.species);
        continue;
      }
      MovingPart m{part.id,
                   part.name,
                   species->name,
                   source.sawn,
                   provenanceOf(*species, source.sawn),
                   seasonalMovement(part.widthMm, *c, seasons)};
      if (!most || m.movement.swingMm() > most->movement.swingMm()) most = std::move(m);
    }
    if (most) all.parts.push_back(std::move(*most));
  }
  return all;
}

std::string movementAdvice() {
  return "Fastened across the grain it needs room: slotted holes, buttons or a groove that lets it "
         "swell and shrink; fix it at one edge or in the middle only.";
}

}  // namespace rackside
