// SPDX-License-Identifier: GPL-3.0-or-later
// Options that several verbs share.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

#include "core/base/length.h"
#include "core/base/result.h"
#include "core/document/rack.h"
#include "core/storage/rack_folder.h"
#include "core/trade/thickness.h"

namespace CLI {
class App;
class Validator;
}  // namespace CLI

namespace rackside::command {

struct CommonOptions {
  bool json = false;
  std::string units;  // "", "mm" or "in"
  int fraction = 0;   // 0: as the shop shows lengths
  std::string rack;

  UnitSystem bareUnit() const;  // what a number without a unit means
  // How to show lengths: the shop's way unless --units or --fraction say otherwise.
  LengthStyle style(const LengthStyle& shopStyle) const;
};

void addJson(CLI::App& app, CommonOptions& o);
void addUnits(CLI::App& app, CommonOptions& o);
void addRack(CLI::App& app, CommonOptions& o);

// For an option whose text parseLengthMm() must understand.
CLI::Validator lengthText();
// The length of an option that lengthText() has accepted, in the unit that was said. Throws
// BadLength where it is none in that unit; the program ends with the message and kUsage.
double lengthMm(const std::string& text, const CommonOptions& o);
// Likewise of a thickness, which may be said in quarters.
CLI::Validator thicknessText();
SaidThickness thickness(const std::string& text, const CommonOptions& o);

class BadLength : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

// A snapshot lets a later saveRack() write only what changed and see what others changed meanwhile.
Result<Rack> openRack(const CommonOptions& o, RackSnapshot* snapshot = nullptr);
// A board by its name, its tag number or its id.
Result<const Board*> findBoard(const Rack& rack, const std::string& nameOrTag);

}  // namespace rackside::command
