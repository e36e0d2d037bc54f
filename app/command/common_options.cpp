// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/common_options.h"

#include <algorithm>

#include "app/command/option_parser.h"
#include "app/command/rack_access.h"
#include "core/trade/tally.h"

namespace rackside::command {

UnitSystem CommonOptions::bareUnit() const {
  return units == "in" ? UnitSystem::inches : UnitSystem::millimetres;
}

LengthStyle CommonOptions::style(const LengthStyle& shopStyle) const {
  LengthStyle s = shopStyle;
  if (!units.empty()) s.system = bareUnit();
  if (fraction > 0) s.denominator = fraction;
  return s;
}

void addJson(CLI::App& app, CommonOptions& o) {
  app.add_flag("--json", o.json, "Machine output on standard output, messages on standard error");
}

void addUnits(CLI::App& app, CommonOptions& o) {
  app.add_option("--units", o.units, "Lengths in mm or in; also what a bare number means")
      ->check(CLI::IsMember({"mm", "in"}));
  app.add_option("--fraction", o.fraction, "Finest fraction of an inch to show")
      ->check(CLI::IsMember({1, 2, 4, 8, 16, 32, 64}));
}

void addRack(CLI::App& app, CommonOptions& o) {
  app.add_option("--rack", o.rack, "Folder of the rack")->required();
}

CLI::Validator lengthText() {
  return CLI::Validator(
      [](std::string& text) {
        // --units may stand behind it: what no unit makes a length is a fault of typing now, the
        // rest is read by lengthMm() once the unit is known.
        const auto parsed = parseLengthMm(text, UnitSystem::millimetres);
        const bool either = parsed.ok() || parseLengthMm(text, UnitSystem::inches).ok();
        return either ? std::string() : parsed.error().message;
      },
      "LENGTH");
}

double lengthMm(const std::string& text, const CommonOptions& o) {
  const auto mm = parseLengthMm(text, o.bareUnit());
  if (!mm) throw BadLength(mm.error().message);
  return *mm;
}

CLI::Validator thicknessText() {
  CLI::Validator length = lengthText();
  return CLI::Validator(
      [length](std::string& text) {
        return thicknessFromQuarters(text) ? std::string() : length(text);
      },
      "THICKNESS");
}

SaidThickness thickness(const std::string& text, const CommonOptions& o) {
  const auto said = parseThickness(text, o.bareUnit());
  if (!said) throw BadLength(said.error().message);
  return *said;
}

Result<Rack> openRack(const CommonOptions& o, RackSnapshot* snapshot) {
  auto opened = openToRead(o);
  if (!opened) return opened.error();
  if (snapshot) *snapshot = std::move(opened.value().snapshot);
  return std::move(opened.value().rack);
}

Result<const Board*> findBoard(const Rack& rack, const std::string& nameOrTag) {
  if (const Board* board = rack.findBoard(BoardId{nameOrTag})) return board;
  if (const Board* board = rack.findBoardNamed(nameOrTag)) return board;
  constexpr size_t kMostNamed = 30;
  std::string known;
  for (size_t i = 0; i < std::min(rack.boards.size(), kMostNamed); ++i)
    known += (known.empty() ? "" : ", ") + rack.boards[i].name;
  if (rack.boards.size() > kMostNamed)
    known += " and more (rackside board list names all " + std::to_string(rack.boards.size()) + ")";
  return Error{"No board is called \"" + nameOrTag + "\". " +
               (known.empty() ? "The rack holds no board yet: scan one first."
                              : "The rack holds: " + known + ".")};
}

}  // namespace rackside::command
