// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_check.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "core/document/plan_state.h"
#include "core/storage/durable_file.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_change.h"
#include "core/storage/rack_files.h"

namespace rackside::command {
namespace {

namespace fs = std::filesystem;

struct CheckVerb {
  CommonOptions common;
  bool mend = false;
};

struct Finding {
  std::string what;
  std::string done;  // empty: nothing can or need be done here
};

// Where a file that cannot be read goes, out of the rack's way and kept.
constexpr const char* kAside = "set-aside/";

bool isBoard(const std::string& place) {
  return place.starts_with("boards/");
}

// A board goes aside with its pictures; a list gives way to the one before it, when there is one.
Finding mended(const DamagedFile& file, const fs::path& rack, RackChange& change) {
  const std::string from =
      isBoard(file.place) ? fs::path(file.place).parent_path().string() : file.place;
  change.move.emplace_back(from, kAside + from);
  Finding found{file.message, from + " was moved to " + kAside + from + "."};
  const std::string before = kBeforeFolder + file.place;
  const auto kept = readFileIfThere(rack / before);
  if (!kept || !*kept) return found;
  change.write[file.place] = **kept;
  found.done += " The list before it took its place.";
  return found;
}

void addPictures(const Rack& rack, const fs::path& folder, std::vector<Finding>& findings) {
  for (const Board& board : rack.boards)
    for (const Picture& picture : board.pictures) {
      std::error_code error;
      const fs::path file = pictureFile(folder, board, picture);
      if (!fs::is_regular_file(file, error))
        findings.push_back({"The picture " + file.string() + " of board " + board.name +
                                " is not there: put it back, or scan that face again.",
                            {}});
    }
}

std::vector<Finding> findingsOf(const CheckVerb& v, const OpenedRack& opened, RackChange& change) {
  std::vector<Finding> findings;
  for (const DamagedFile& file : opened.damaged)
    findings.push_back(v.mend ? mended(file, v.common.rack, change) : Finding{file.message, {}});
  for (const std::string& remark : opened.remarks) findings.push_back({remark, {}});
  addPictures(opened.rack, v.common.rack, findings);
  if (const PlanState state = planState(opened.rack); !state.holds())
    findings.push_back({brokenWords(state), {}});
  return findings;
}

int run(const CheckVerb& v) {
  const bool pending = changeIsPending(v.common.rack);
  std::error_code error;
  if (!fs::is_directory(v.common.rack, error)) return inputAtFault(openRack(v.common).error());
  auto opened = rackside::openRack(v.common.rack, v.mend ? RackUse::change : RackUse::read);
  if (!opened) return inputAtFault(opened.error());
  RackChange change;
  const std::vector<Finding> findings = findingsOf(v, *opened, change);
  if (const Status done = carryOut(change, v.common.rack); !done) return inputAtFault(done.error());
  if (v.common.json) {
    auto list = nlohmann::json::array();
    for (const Finding& f : findings) list.push_back({{"found", f.what}, {"done", f.done}});
    printJson({{"finished_a_change", pending}, {"findings", list}});
  } else {
    if (pending) say("A change that had been cut off was settled.");
    for (const Finding& f : findings) say(f.what + (f.done.empty() ? "" : " " + f.done));
    if (findings.empty()) say("All is well with this rack.");
  }
  return findings.empty() ? kDone : kInputAtFault;
}

}  // namespace

VerbRun setUpCheck(CLI::App& app) {
  auto v = std::make_shared<CheckVerb>();
  addRack(app, v->common);
  app.add_flag("--mend", v->mend,
               "Move what cannot be read to RACK/set-aside, and put back the parts list before it");
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
