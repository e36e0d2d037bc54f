// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_sheets.h"

#include <cctype>
#include <filesystem>
#include <map>
#include <memory>
#include <set>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "app/sheets/face_file.h"
#include "app/sheets/gui_session.h"
#include "app/sheets/label_sheet.h"
#include "app/sheets/pack.h"
#include "app/sheets/part_template.h"
#include "app/sheets/tables_csv.h"
#include "app/sheets/vector_files.h"
#include "core/storage/atomic_file.h"

namespace rackside::command {
namespace {

struct SheetsVerb {
  CommonOptions common;
  std::string pdf, labels, labelSheet, templates, svg, dxf, csv, faces, paper = "a4";
  int labelsUsed = 0;
  sheets::PackOptions options;
};

// Names of boards are people's: what a file system may mistake is replaced.
std::string fileStem(const Board& board) {
  std::string stem = "board-" + board.name;
  for (char& c : stem)
    if (!std::isalnum(static_cast<unsigned char>(c)) && c != '-' && c != '_') c = '_';
  return stem;
}

// Bytes by file: all made before the first is written.
using Outputs = std::map<std::filesystem::path, std::string>;

Outputs plainOutputs(const SheetsVerb& v, const Rack& rack) {
  Outputs files;
  for (const Board& board : rack.boards) {
    const auto layers = sheets::boardLayers(rack, board);
    const std::string stem = fileStem(board);
    const std::filesystem::path svg = v.svg, dxf = v.dxf;
    if (!v.svg.empty())
      files[svg / (stem + ".svg")] = sheets::svgText(layers, "Board " + board.name);
    if (!v.dxf.empty()) files[dxf / (stem + ".dxf")] = sheets::dxfText(layers);
  }
  if (!v.csv.empty())
    for (auto& [name, text] : sheets::csvTables(rack))
      files[std::filesystem::path(v.csv) / name] = text;
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

Status addPacks(const SheetsVerb& v, const Rack& rack, Outputs& files, int& pages) {
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

Status addTemplates(const SheetsVerb& v, const Rack& rack, Outputs& files) {
  if (v.templates.empty()) return success();
  const sheets::GuiSession gui;
  auto pdf = sheets::templatesPdf(rack, v.options.paper, v.options.lengths);
  if (!pdf) return pdf.error();
  files[v.templates] = std::move(pdf.value());
  return success();
}

// Written one by one: the faces of a whole rack are too large to hold at once.
Status writeFaces(const SheetsVerb& v, const Rack& rack, std::vector<std::string>& written) {
  if (v.faces.empty()) return success();
  std::error_code ec;
  std::filesystem::create_directories(v.faces, ec);
  for (const Board& board : rack.boards)
    for (const Face face : {Face::A, Face::B}) {
      if (!board.seen(face)) continue;
      const auto made = sheets::faceFile(board, face, v.common.rack);
      if (!made) return made.error();
      const auto stem =
          (std::filesystem::path(v.faces) / (fileStem(board) + "-" + std::string(name(face))))
              .string();
      for (const auto& [ending, bytes] : {std::pair(".png", &made->png), {".pgw", &made->world}}) {
        if (const Status s = writeFileAtomically(stem + ending, *bytes); !s) return s;
        written.push_back(stem + ending);
      }
    }
  return success();
}

Status writeAll(const Outputs& files) {
  for (const auto& [file, bytes] : files) {
    std::error_code ec;
    if (file.has_parent_path()) std::filesystem::create_directories(file.parent_path(), ec);
    if (const Status s = writeFileAtomically(file, bytes); !s) return s;
  }
  return success();
}

int write(SheetsVerb& v) {
  auto rack = openRack(v.common);
  if (!rack) return inputAtFault(rack.error());
  if (rack->boards.empty())
    return inputAtFault({"There is nothing to print: the rack holds no board. Scan one first."});
  v.options.paper = v.paper == "letter" ? sheets::Paper::letter : sheets::Paper::a4;
  v.options.lengths = v.common.style(rack->shop.show);
  if (!rack->plan) message("note: there is no plan yet, so the sheets show the boards alone.");
  Outputs files = plainOutputs(v, *rack);
  int pages = 0;
  if (const Status s = addPacks(v, *rack, files, pages); !s) return inputAtFault(s.error());
  if (const Status s = addTemplates(v, *rack, files); !s) return inputAtFault(s.error());
  if (const Status s = writeAll(files); !s) return inputAtFault(s.error());
  std::vector<std::string> written;
  for (const auto& [file, bytes] : files) written.push_back(file.string());
  if (const Status s = writeFaces(v, *rack, written); !s) return inputAtFault(s.error());
  if (v.common.json) {
    printJson({{"pages", pages}, {"files", written}});
    return kDone;
  }
  for (const std::string& file : written) say(file);
  if (pages > 0) say(std::to_string(pages) + " pages in the pack.");
  return kDone;
}

int run(SheetsVerb& v) {
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
