// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_joint.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/option_parser.h"
#include "core/trade/joint_check.h"

namespace rackside::command {
namespace {

struct JointVerb {
  CommonOptions common;
  bool tenon = false;  // else a mortise
  std::string member, depth, other;
  std::string thinner, thicker, length, measured, room;
};

constexpr const char* kCaution =
    "Common practice, no source: try the setting on waste of the same thickness first; the tool's "
    "manual rules.";

double orZero(const std::string& text, const CommonOptions& o) {
  return text.empty() ? 0 : lengthMm(text, o);
}

int mortise(const JointVerb& v, const LengthStyle& show) {
  const auto r = checkMortise(
      {lengthMm(v.member, v.common), lengthMm(v.depth, v.common), orZero(v.other, v.common)}, show);
  if (!r) return inputAtFault(r.error());
  if (v.common.json) {
    printJson({{"left_mm", rounded(r->leftMm)},
               {"breaks_through", r->breaksThrough},
               {"too_thin", r->tooThin},
               {"advice", r->advice}});
  } else {
    say(r->advice);
  }
  message(kCaution);
  return kDone;
}

int looseTenon(const JointVerb& v, const LengthStyle& show) {
  LooseTenonCheck check{lengthMm(v.thinner, v.common), lengthMm(v.thicker, v.common),
                        lengthMm(v.length, v.common), orZero(v.measured, v.common)};
  if (!v.room.empty()) check.glueRoomMm = lengthMm(v.room, v.common);
  const auto r = checkLooseTenon(check, show);
  if (!r) return inputAtFault(r.error());
  if (v.common.json) {
    printJson({{"fits", r->fits},
               {"depth_in_thinner_mm", rounded(r->depthInThinnerMm)},
               {"depth_in_thicker_mm", rounded(r->depthInThickerMm)},
               {"left_in_thinner_mm", rounded(r->leftInThinnerMm)},
               {"left_in_thicker_mm", rounded(r->leftInThickerMm)},
               {"shorten_by_mm", rounded(r->shortenByMm)},
               {"least_engaged_mm", rounded(r->leastEngagedMm)},
               {"advice", r->advice}});
  } else {
    say(r->advice);
    say("Left before breaking through: " + formatLength(r->leftInThinnerMm, show) +
        " in the thinner member, " + formatLength(r->leftInThickerMm, show) + " in the thicker.");
  }
  message(kCaution);
  return kDone;
}

int run(const JointVerb& v) {
  const LengthStyle show = v.common.style({v.common.bareUnit()});
  return v.tenon ? looseTenon(v, show) : mortise(v, show);
}

void addLength(CLI::App& app, const char* option, std::string& into, const char* help,
               bool required) {
  app.add_option(option, into, help)->check(lengthText())->required(required);
}

}  // namespace

VerbRun setUpJoint(CLI::App& app) {
  auto v = std::make_shared<JointVerb>();
  app.require_subcommand(1);
  CLI::App* m = app.add_subcommand("mortise", "What is left below a mortise, or between two");
  addLength(*m, "--member", v->member, "Thickness of the member where the mortise goes", true);
  addLength(*m, "--depth", v->depth, "Depth of the mortise", true);
  addLength(*m, "--other", v->other, "Depth of a mortise from the opposite side, at the same spot",
            false);
  CLI::App* t = app.add_subcommand("tenon", "How deep to mortise two members for a loose tenon");
  addLength(*t, "--thinner", v->thinner, "Thickness of one member along the tenon", true);
  addLength(*t, "--thicker", v->thicker, "Thickness of the other", true);
  addLength(*t, "--length", v->length, "Length of the tenon as sold", true);
  addLength(*t, "--measured", v->measured, "Length of the tenon as measured", false);
  addLength(*t, "--glue-room", v->room, "Room for glue at each end of the tenon (1 mm)", false);
  for (CLI::App* sub : {m, t}) {
    addUnits(*sub, v->common);
    addJson(*sub, v->common);
  }
  t->callback([v] { v->tenon = true; });
  return [v] { return run(*v); };
}

}  // namespace rackside::command
