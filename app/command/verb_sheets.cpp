// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_sheets.h"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <set>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/command/plan_holds.h"
#include "app/sheets/gui_session.h"
#include "app/sheets/label_sheet.h"
#include "app/sheets/other_files.h"
#include "app/sheets/pack.h"
#include "app/sheets/part_template.h"

namespace rackside::command {
namespace {

struct SheetsVerb {
  CommonOptions common;
  std::vector<std::string> pages;
  std::string pdf, labels, labelSheet, templates, svg, dxf, csv, faces, paper = "a4";
  int labelsUsed = 0;
  sheets::PackOptions options;
};

struct PageName {
  const char* name;
  bool sheets::PackOptions::*wanted;
};
constexpr PageName kPageNames[] = {
    {"overview", &sheets::PackOptions::pull},   {"boards", &sheets::PackOptions::boards},
    {"milling", &sheets::PackOptions::milling}, {"labels", &sheets::PackOptions::labels},
    {"parts", &sheets::PackOptions::parts},     {"cuts", &sheets::PackOptions::cuts},
    {"filling", &sheets::PackOptions::fill},    {"movement", &sheets::PackOptions::movement},
    {"tally", &sheets::PackOptions::tally}};

std::set<std::string> pageNames() {
  std::set<std::string> names{"all"};
  for (const PageName& page : kPageNames) names.insert(page.name);
  return names;
}

// Those named, and no others; what goes to the bench where none is named.
void choosePages(const std::vector<std::string>& named, sheets::PackOptions& options) {
  if (named.empty()) return;
  const bool all = std::count(named.begin(), named.end(), "all") > 0;
  for (const PageName& page : kPageNames)
    options.*page.wanted = all || std::count(named.begin(), named.end(), page.name) > 0;
}

sheets::Files plainFiles(const SheetsVerb& v, const Rack& rack) {
  sheets::Files files;
  if (!v.svg.empty()) files.merge(sheets::drawingFiles(rack, sheets::DrawingFormat::svg, v.svg));
  if (!v.dxf.empty()) files.merge(sheets::drawingFiles(rack, sheets::DrawingFormat::dxf, v.dxf));
  if (!v.csv.empty()) files.merge(sheets::tableFiles(rack, v.csv));
  return files;
}

const sheets::LabelSheet& sheetNamed(const std::string& wanted) {
  for (const sheets::LabelSheet& s : sheets::labelSheets())
    if (s.name == wanted) return s;
  throw std::logic_error("sheetNamed: the option parser let an unknown name through");
}

std::set<std::string> labelSheetNames() {
  std::set<std::string> names;
  for (const sheets::LabelSheet& s : sheets::labelSheets()) names.emplace(s.name);
  return names;
}

Status addPacks(const SheetsVerb& v, const Rack& rack, sheets::Files& files, int& pages) {
  if (v.pdf.empty() && v.labels.empty()) return success();
  const sheets::GuiSession gui;
  if (!v.pdf.empty()) {
    auto pack = sheets::packPdf(rack, v.common.rack, v.options);
    if (!pack) return pack.error();
    pages = pack->pages;
    files[v.pdf] = std::move(pack.value().bytes);
  }
  if (v.labels.empty()) return success();
  if (!v.labelSheet.empty()) {
    auto labels =
        sheets::labelSheetPdf(rack, v.options.lengths, sheetNamed(v.labelSheet), v.labelsUsed);
    if (!labels) return labels.error();
    files[v.labels] = std::move(labels.value());
    return success();
  }
  auto labels = sheets::packPdf(rack, v.common.rack, sheets::labelsAlone(v.options));
  if (!labels) return Error{"There are no labels to print: plan first (rackside plan)."};
  files[v.labels] = std::move(labels.value().bytes);
  return success();
}

Status addTemplates(const SheetsVerb& v, const Rack& rack, sheets::Files& files) {
  if (v.templates.empty()) return success();
  const sheets::GuiSession gui;
  auto pdf = sheets::templatesPdf(rack, v.options.paper, v.options.lengths);
  if (!pdf) return pdf.error();
  files[v.templates] = std::move(pdf.value());
  return success();
}

int write(SheetsVerb& v) {
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  if (rack->boards.empty())
    return inputAtFault({"There is nothing to print: the rack holds no board. Scan one first."});
  if (const Status holds = planHolds(*rack); !holds) return inputAtFault(holds.error());
  v.options.paper = v.paper == "letter" ? sheets::Paper::letter : sheets::Paper::a4;
  choosePages(v.pages, v.options);
  v.options.lengths = v.common.style(rack->shop.show);
  if (!rack->plan) message("note: there is no plan yet, so the sheets show the boards alone.");
  sheets::Files files = plainFiles(v, *rack);
  int pages = 0;
  if (const Status s = addPacks(v, *rack, files, pages); !s) return inputAtFault(s.error());
  if (const Status s = addTemplates(v, *rack, files); !s) return inputAtFault(s.error());
  if (const Status s = sheets::writeFiles(files); !s) return inputAtFault(s.error());
  std::vector<std::string> written;
  for (const auto& [file, bytes] : files) written.push_back(file.string());
  if (!v.faces.empty()) {
    const auto faces = sheets::writeFaceFiles(*rack, v.common.rack, v.faces);
    if (!faces) return inputAtFault(faces.error());
    for (const auto& file : *faces) written.push_back(file.string());
  }
  if (v.common.json) {
    printJson({{"pages", pages}, {"files", written}});
    return kDone;
  }
  for (const std::string& file : written) say(file);
  if (pages > 0) say(std::to_string(pages) + " pages in the pack.");
  return kDone;
}

// A folder asked for by name is made; one that a file's name merely mentions is a slip.
Status foldersAreThere(const SheetsVerb& v) {
  for (const std::string* file : {&v.pdf, &v.labels, &v.templates}) {
    const auto folder = std::filesystem::path(*file).parent_path();
    std::error_code error;
    if (!folder.empty() && !std::filesystem::is_directory(folder, error))
      return Error{"There is no folder " + folder.string() + " to write " + *file +
                   " into. Check the name, or make the folder first."};
  }
  return success();
}

int run(SheetsVerb& v) {
  if (const Status s = foldersAreThere(v); !s) return inputAtFault(s.error());
  for (const std::string* wanted :
       {&v.pdf, &v.labels, &v.templates, &v.svg, &v.dxf, &v.csv, &v.faces})
    if (!wanted->empty()) return write(v);
  return usageAtFault(
      "sheets wants at least one of --pdf, --labels, --templates, --svg, --dxf, --csv, --faces.");
}

}  // namespace

VerbRun setUpSheets(CLI::App& app) {
  auto v = std::make_shared<SheetsVerb>();
  addRack(app, v->common);
  app.add_option("--pdf", v->pdf, "File to write the pack to");
  app.add_option("--pages", v->pages,
                 "Pages of the pack, by name; else overview, boards, milling, labels")
      ->delimiter(',')
      ->check(CLI::IsMember(pageNames()));
  app.add_option("--labels", v->labels, "File to write the end labels alone to");
  app.add_option("--label-sheet", v->labelSheet,
                 "With --labels: a bought sheet of labels, named by paper and number")
      ->check(CLI::IsMember(labelSheetNames()));
  app.add_option("--labels-used", v->labelsUsed,
                 "With --label-sheet: labels already gone from the first sheet");
  app.add_option("--templates", v->templates,
                 "File to write full-size paper templates of shaped parts to");
  app.add_option("--svg", v->svg, "Folder for a drawing a board as SVG");
  app.add_option("--dxf", v->dxf, "Folder for a drawing a board as DXF");
  app.add_option("--csv", v->csv, "Folder for tables of boards, marks, parts, pieces and cuts");
  app.add_option("--faces", v->faces,
                 "Folder for the face pictures as PNG, their scale in the file and beside it");
  app.add_option("--paper", v->paper, "Paper")->check(CLI::IsMember({"a4", "letter"}));
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
