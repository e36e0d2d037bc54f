// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/scan_batch.h"

#include "app/command/board_list.h"
#include "app/command/console.h"
#include "app/command/scan_report.h"
#include "core/storage/atomic_file.h"
#include "vision/scan/batch.h"

namespace rackside::command {
namespace {

using BoardList = std::map<int, ListedBoard>;

Result<BoardList> listOf(const BatchRequest& request) {
  if (request.listFile.empty()) return BoardList{};
  auto csv = readFile(request.listFile);
  if (!csv) return csv.error();
  return boardListFromCsv(*csv, request.common.bareUnit());
}

// What the list says of the group's board.
void describe(const PhotoGroup& group, const BoardList& list, ScanOptions& options) {
  if (!group.tag) return;
  options.name = std::to_string(*group.tag);
  const auto it = list.find(*group.tag);
  if (it == list.end()) return;
  const ListedBoard& b = it->second;
  if (!b.name.empty()) options.name = b.name;
  if (!b.species.empty()) options.species = b.species;
  if (!b.place.empty()) options.place = b.place;
  if (b.thicknessMm > 0) {
    options.thicknessMm = b.thicknessMm;
    options.thicknessSaid = b.thicknessSaid;
  }
}

std::string headOf(const BatchLine& line) {
  const PhotoGroup& g = line.group;
  if (g.files.empty()) return g.name;
  std::string head = g.name + " (" + g.files.front().filename().string();
  if (g.files.size() > 1) head += " and " + std::to_string(g.files.size() - 1) + " more";
  return head + ")";
}

void tell(const BatchLine& line, const CommonOptions& common) {
  if (!line.found) {
    message(line.text);
    return;
  }
  const ScanToRackResult& r = *line.result;
  if (!common.json)
    say(headOf(line) + ": " + scanSummary(r.scan.board, common.style(LengthStyle{})) +
        (r.isNew ? "" : " (again)"));
  for (const std::string& w : r.scan.warnings) message(headOf(line) + ": note: " + w);
  for (const std::string& w : line.group.remarks) message(headOf(line) + ": note: " + w);
}

nlohmann::json lineJson(const BatchLine& line) {
  auto photos = nlohmann::json::array();
  for (const auto& file : line.group.files) photos.push_back(file.filename().string());
  nlohmann::json j{{"tag", line.group.tag ? nlohmann::json(*line.group.tag) : nullptr},
                   {"photos", photos},
                   {"ok", line.found},
                   {"remarks", line.group.remarks}};
  if (line.found) {
    j["scan"] = scanJson(line.result->scan);
  } else {
    j["retake"] = line.text;
  }
  return j;
}

}  // namespace

int runScanBatch(const BatchRequest& request) {
  if (!request.job.options.name.empty())
    return usageAtFault("--name names one board; with --batch the tags and --list name them.");
  auto list = listOf(request);
  if (!list) return inputAtFault(list.error());
  BatchOptions options;
  options.scan = request.job.options;
  options.describe = [&](const PhotoGroup& g, ScanOptions& o) { describe(g, *list, o); };
  size_t told = 0;
  options.onBoard = [&](const BatchLine& line) {
    tell(line, request.common);
    ++told;
  };
  RunControl control;
  auto lines = scanBatch(request.folder, request.job.rackFolder, options, control);
  if (!lines) return inputAtFault(lines.error());
  auto report = nlohmann::json::array();
  size_t scanned = 0;
  for (size_t i = 0; i < lines->size(); ++i) {
    const BatchLine& line = (*lines)[i];
    report.push_back(lineJson(line));
    scanned += line.found ? 1 : 0;
    if (i >= told) tell(line, request.common);  // files that could not even be read come last
  }
  const size_t missed = lines->size() - scanned;
  if (request.common.json) {
    printJson({{"boards", report}, {"scanned", scanned}, {"to_retake", missed}});
  } else {
    say(std::to_string(scanned) + " boards scanned, " + std::to_string(missed) + " to retake.");
  }
  return missed == 0 ? kDone : kInputAtFault;
}

}  // namespace rackside::command
