// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/scan_batch.h"

#include "app/command/board_list.h"
#include "app/command/console.h"
#include "app/command/scan_report.h"
#include "core/storage/atomic_file.h"

namespace rackside::command {
namespace {

using BoardList = std::map<int, ListedBoard>;

Result<BoardList> listOf(const BatchRequest& request) {
  if (request.listFile.empty()) return BoardList{};
  auto csv = readFile(request.listFile);
  if (!csv) return csv.error();
  return boardListFromCsv(*csv, request.common.bareUnit());
}

ScanJob jobFor(const PhotoGroup& group, const BatchRequest& request, const BoardList& list) {
  ScanJob job = request.job;
  if (!group.tag) return job;
  const auto it = list.find(*group.tag);
  if (it != list.end()) {
    const ListedBoard& b = it->second;
    if (!b.name.empty()) job.options.name = b.name;
    if (!b.species.empty()) job.options.species = b.species;
    if (!b.place.empty()) job.place = b.place;
    if (b.thicknessMm > 0) job.options.thicknessMm = b.thicknessMm;
  }
  if (job.options.name.empty()) job.options.name = std::to_string(*group.tag);
  return job;
}

nlohmann::json photosJson(const PhotoGroup& group) {
  auto files = nlohmann::json::array();
  for (const auto& p : group.photos) files.push_back(p.filename().string());
  return files;
}

std::string headOf(const PhotoGroup& group) {
  std::string head = group.tag ? "tag " + std::to_string(*group.tag) : std::string("no tag");
  head += " (" + group.photos.front().filename().string();
  if (group.photos.size() > 1) head += " and " + std::to_string(group.photos.size() - 1) + " more";
  return head + ")";
}

// Scans one group; true when it came out. Appends what happened to `report`.
bool scanGroup(const PhotoGroup& group, const BatchRequest& request, const BoardList& list,
               nlohmann::json& report) {
  nlohmann::json entry{{"tag", group.tag ? nlohmann::json(*group.tag) : nullptr},
                       {"photos", photosJson(group)}};
  RunControl control;
  auto result = group.retake.empty()
                    ? runScanJob(jobFor(group, request, list), group.photos, control)
                    : Result<ScanResult>(Error{group.retake});
  entry["ok"] = result.ok();
  if (result) {
    entry["scan"] = scanJson(*result);
    const auto style = request.common.style(LengthStyle{});
    if (!request.common.json) say(headOf(group) + ": " + scanSummary(result->board, style));
    for (const std::string& w : result->warnings) message(headOf(group) + ": note: " + w);
  } else {
    entry["retake"] = result.error().message;
    message(headOf(group) + ": retake: " + result.error().message);
  }
  report.push_back(std::move(entry));
  return result.ok();
}

}  // namespace

int runScanBatch(const BatchRequest& request) {
  if (!request.job.options.name.empty())
    return usageAtFault("--name names one board; with --batch the tags and --list name them.");
  auto list = listOf(request);
  if (!list) return inputAtFault(list.error());
  auto groups = groupPhotos(request.folder);
  if (!groups) return inputAtFault(groups.error());
  auto report = nlohmann::json::array();
  size_t scanned = 0;
  for (const PhotoGroup& group : *groups)
    if (scanGroup(group, request, *list, report)) ++scanned;
  const size_t missed = groups->size() - scanned;
  if (request.common.json) {
    printJson({{"boards", report}, {"scanned", scanned}, {"to_retake", missed}});
  } else {
    say(std::to_string(scanned) + " boards scanned, " + std::to_string(missed) + " to retake.");
  }
  return missed == 0 ? kDone : kInputAtFault;
}

}  // namespace rackside::command
