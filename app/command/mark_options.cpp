// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/mark_options.h"

#include "app/command/option_parser.h"

namespace rackside::command {

Result<Mark> markFrom(const MarkOptions& v, const CommonOptions& common) {
  auto shape = shapeFrom(v.shape, common.bareUnit());
  if (!shape) return shape.error();
  Mark mark;
  mark.id = MarkId{newIdText("mk")};
  mark.kind = *markKindFromName(v.kind);
  if (v.face != "B") mark.onA = *shape;
  if (v.face != "A") mark.onB = *shape;
  mark.through = v.through;
  if (!v.depth.empty()) mark.depthMm = lengthMm(v.depth, common);
  mark.depthFrom =
      v.depthFrom.empty() ? (v.face == "B" ? Face::B : Face::A) : *faceFromName(v.depthFrom);
  mark.soundness = v.soundness == "sound"   ? Soundness::sound
                   : v.soundness == "loose" ? Soundness::loose
                                            : Soundness::unknown;
  mark.live = v.live;
  mark.note = v.note;
  if (const Status s = validate(mark); !s) return s.error();
  return mark;
}

void addMarkOptions(CLI::App& app, MarkOptions& v) {
  std::vector<std::string> kinds;
  for (const MarkKind k : allMarkKinds()) kinds.emplace_back(name(k));
  app.add_option("--kind", v.kind, "Kind of mark")->required()->check(CLI::IsMember(kinds));
  app.add_option("--face", v.face, "Face it shows on")->check(CLI::IsMember({"A", "B", "both"}));
  app.add_option("--ellipse", v.shape.ellipse,
                 "x y of its middle, size along and across, and perhaps degrees")
      ->expected(4, 5);
  app.add_option("--polygon", v.shape.polygon, "x y of each corner")->expected(6, 4000);
  app.add_option("--line", v.shape.line, "x y of each point along it")->expected(4, 4000);
  app.add_option("--line-width", v.shape.lineWidth, "Width of the line")->check(lengthText());
  app.add_option("--depth", v.depth, "How deep it goes")->check(lengthText());
  app.add_option("--depth-from", v.depthFrom, "Face the depth is measured from")
      ->check(CLI::IsMember({"A", "B"}));
  app.add_flag("--through", v.through, "Goes right through the board");
  app.add_option("--soundness", v.soundness, "Of a knot; of worm holes sound means old")
      ->check(CLI::IsMember({"unknown", "sound", "loose"}));
  app.add_flag("--live", v.live, "Worm holes with living insects: sets the board apart");
  app.add_option("--note", v.note, "A note");
}

}  // namespace rackside::command
