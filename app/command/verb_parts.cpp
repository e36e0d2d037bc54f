// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_parts.h"

#include <algorithm>
#include <memory>
#include <set>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/rack_access.h"
#include "core/document/edits.h"
#include "core/storage/atomic_file.h"
#include "core/storage/json_forms.h"
#include "core/storage/parts_import.h"
#include "core/storage/rack_files.h"

namespace rackside::command {
namespace {

struct PartsVerb {
  CommonOptions common;
  std::string file;
  CLI::App* import = nullptr;
  CLI::App* check = nullptr;
};

Result<std::vector<Part>> partsFromFile(const PartsVerb& v) {
  auto bytes = readFile(v.file);
  if (!bytes) return bytes.error();
  auto parts = importParts(*bytes, v.common.bareUnit());
  if (!parts) return Error{v.file + ": " + parts.error().message};
  return parts;
}

// A part of the same name keeps its id, so that plans and pins still know it; one whose list gives
// the id keeps that.
void keepIds(std::vector<Part>& fresh, const std::vector<Part>& old) {
  for (Part& part : fresh) {
    const bool known =
        std::any_of(old.begin(), old.end(), [&](const Part& o) { return o.id == part.id; });
    if (known) continue;
    for (const Part& o : old)
      if (o.name == part.name) part.id = o.id;
  }
}

std::string partLine(const Part& p, const LengthStyle& style) {
  std::string line =
      std::to_string(p.copies) + " × " + p.name + "  " + formatLength(p.lengthMm, style, false) +
      " × " + formatLength(p.widthMm, style, false) + " × " + formatLength(p.thicknessMm, style);
  if (!p.species.empty()) line += "  " + p.species;
  if (p.grain == GrainRule::free) line += ", grain free";
  if (p.glueUp.allowed) line += ", may be glued up";
  if (!p.matchGroup.empty()) line += ", matches " + p.matchGroup;
  return line;
}

void show(const PartsVerb& v, const std::vector<Part>& parts, const LengthStyle& style) {
  if (v.common.json) {
    printJson(toJson(parts, nlohmann::json::object()));
    return;
  }
  int pieces = 0;
  for (const Part& p : parts) {
    say(partLine(p, style));
    pieces += p.copies;
  }
  say(std::to_string(parts.size()) + " parts, " + std::to_string(pieces) + " pieces.");
}

void tellUnknownWoods(const std::vector<Part>& parts, const std::vector<Species>& own) {
  std::set<std::string> told;
  for (const Part& part : parts)
    if (const std::string note = unknownWoodNote(part.species, own);
        !note.empty() && told.insert(note).second)
      message(note);
}

int runCheck(const PartsVerb& v) {
  auto parts = partsFromFile(v);
  if (!parts) return inputAtFault(parts.error());
  tellUnknownWoods(*parts, {});
  show(v, *parts, v.common.style(LengthStyle{}));
  return kDone;
}

int runImport(const PartsVerb& v) {
  auto parts = partsFromFile(v);
  if (!parts) return inputAtFault(parts.error());
  auto opened = openOrMake(v.common);
  if (!opened) return inputAtFault(opened.error());
  Rack& rack = opened.value().rack;
  keepIds(parts.value(), rack.parts);
  History history;
  auto done = history.perform(rack, changeParts(*parts));
  if (!done) return inputAtFault(done.error());
  RackChange before;
  const auto& files = opened->snapshot.bytes;
  if (const auto old = files.find(kPartsFile); old != files.end())
    before.write[kBeforeFolder + std::string(kPartsFile)] = old->second;
  if (const Status s = storeRack(opened.value(), v.common.rack, before); !s)
    return inputAtFault(s.error());
  show(v, rack.parts, v.common.style(rack.shop.show));
  tellUnknownWoods(rack.parts, rack.shop.ownSpecies);
  return kDone;
}

int runList(const PartsVerb& v) {
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  show(v, rack->parts, v.common.style(rack->shop.show));
  return kDone;
}

int run(const PartsVerb& v) {
  if (v.import->parsed()) return runImport(v);
  return v.check->parsed() ? runCheck(v) : runList(v);
}

}  // namespace

VerbRun setUpParts(CLI::App& app) {
  auto v = std::make_shared<PartsVerb>();
  app.require_subcommand(1);
  v->import = app.add_subcommand("import", "Put a parts list (CSV or JSON) into the rack");
  v->check = app.add_subcommand("check", "Check a parts list and change nothing");
  CLI::App* list = app.add_subcommand("list", "List the parts of the rack");
  for (CLI::App* sub : {v->import, v->check})
    sub->add_option("FILE", v->file, "Parts list, .csv or .json")->required();
  for (CLI::App* sub : {v->import, list}) addRack(*sub, v->common);
  for (CLI::App* sub : {v->import, v->check, list}) {
    addUnits(*sub, v->common);
    addJson(*sub, v->common);
  }
  return [v] { return run(*v); };
}

}  // namespace rackside::command
