// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_sheets.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/sheets/gui_session.h"
#include "app/sheets/pack.h"

namespace rackside::command {
namespace {

struct SheetsVerb {
  CommonOptions common;
  std::string pdf, paper = "a4";
  sheets::PackOptions options;
};

int run(SheetsVerb& v) {
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  v.options.paper = v.paper == "letter" ? sheets::Paper::letter : sheets::Paper::a4;
  v.options.lengths = v.common.style(rack->shop.show);
  if (!rack->plan) message("note: there is no plan yet, so the sheets show the boards alone.");
  const sheets::GuiSession gui;
  auto pages = sheets::writePack(*rack, v.common.rack, v.options, v.pdf);
  if (!pages) return inputAtFault(pages.error());
  if (v.common.json) {
    printJson({{"pdf", v.pdf}, {"pages", *pages}});
  } else {
    say(v.pdf + ": " + std::to_string(*pages) + " pages.");
  }
  return kDone;
}

}  // namespace

VerbRun setUpSheets(CLI::App& app) {
  auto v = std::make_shared<SheetsVerb>();
  addRack(app, v->common);
  app.add_option("--pdf", v->pdf, "File to write the pack to")->required();
  app.add_option("--paper", v->paper, "Paper")->check(CLI::IsMember({"a4", "letter"}));
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
