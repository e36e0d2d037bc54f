// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include "core/base/json_reader.h"
#include "core/job/parts_limits.h"
#include "core/storage/file_format.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_points.h"

namespace rackside {
namespace {

nlohmann::json faceJson(const FaceAllows& f) {
  return {{"sound_knots", f.soundKnots},
          {"filled_holes", f.filledHoles},
          {"stain", f.stain},
          {"sapwood", name(f.sapwood)}};
}

FaceAllows readFace(JsonReader& r) {
  return {r.flag("sound_knots", false), r.flag("filled_holes", false), r.flag("stain", false),
          r.choice<SapwoodRule>("sapwood", "\"no\", \"yes\" or \"wanted-on-edge\"",
                                sapwoodRuleFromName, SapwoodRule::no)};
}

nlohmann::json partJson(const Part& p) {
  nlohmann::json j{{"id", p.id.text},
                   {"name", p.name},
                   {"copies", p.copies},
                   {"length_mm", p.lengthMm},
                   {"width_mm", p.widthMm},
                   {"thickness_mm", p.thicknessMm},
                   {"grain", name(p.grain)},
                   {"grain_tolerance_deg", p.grainToleranceDeg},
                   {"showing", name(p.showing)},
                   {"show", faceJson(p.show)},
                   {"back", faceJson(p.back)},
                   {"look", name(p.look)},
                   {"species", p.species},
                   {"glue_up",
                    {{"allowed", p.glueUp.allowed},
                     {"least_strip_mm", p.glueUp.leastStripMm},
                     {"greatest_strip_mm", p.glueUp.greatestStripMm}}},
                   {"match_group", p.matchGroup},
                   {"value", p.value},
                   {"note", p.note}};
  if (p.outline) j["outline_mm"] = pointsJson(*p.outline);
  addExtra(j, *p.extra);
  return j;
}

GlueUp readGlueUp(JsonReader& r) {
  const GlueUp usual;
  return {r.flag("allowed", false), r.number("least_strip_mm", usual.leastStripMm),
          r.number("greatest_strip_mm", usual.greatestStripMm)};
}

void readWishes(JsonReader& r, Part& p) {
  p.grain = r.choice<GrainRule>("grain", "\"along\" or \"free\"", grainRuleFromName, p.grain);
  p.grainToleranceDeg = r.number("grain_tolerance_deg", p.grainToleranceDeg);
  p.showing = r.choice<Showing>("showing", "\"none\", \"one-face\" or \"both-faces\"",
                                showingFromName, p.showing);
  if (r.has("show")) p.show = readFace(r.object("show"));
  if (r.has("back")) p.back = readFace(r.object("back"));
  p.look = r.choice<Look>("look",
                          "\"any\", \"straight\", \"arch-centred\", \"lively\" or \"even-colour\"",
                          lookFromName, p.look);
  p.species = r.text("species", "");
  if (r.has("glue_up")) p.glueUp = readGlueUp(r.object("glue_up"));
  p.matchGroup = r.text("match_group", "");
  if (r.has("outline_mm")) p.outline = r.points("outline_mm");
  p.value = r.number("value", 0);
  p.note = r.text("note", "");
}

Part readPart(JsonReader& r) {
  constexpr long long kMostCopies = 10000;
  Part p;
  p.id.text = r.text("id");
  if (p.id.empty()) r.fail("id", "the part's own id, not empty");
  p.name = r.text("name");
  p.copies = static_cast<int>(r.integer("copies", 1, kMostCopies, 1));
  p.lengthMm = r.number("length_mm");
  p.widthMm = r.number("width_mm");
  p.thicknessMm = r.number("thickness_mm");
  readWishes(r, p);
  p.extra = r.extra();
  if (r.failed()) return p;
  if (const Status sound = validate(p); !sound)
    r.fail("name", "of a part that holds: " + sound.error().message);
  return p;
}

}  // namespace

nlohmann::json toJson(const std::vector<Part>& parts, const nlohmann::json& extra) {
  nlohmann::json j = newDocument(partsFormat());
  j["parts"] = nlohmann::json::array();
  for (const Part& p : parts) j["parts"].push_back(partJson(p));
  addExtra(j, extra);
  return j;
}

Result<std::vector<Part>> partsFromJson(const nlohmann::json& j) {
  const auto current = upToDate(j, partsFormat());
  if (!current) return current.error();
  std::string fault;
  JsonReader r(**current, "", fault);
  std::vector<Part> parts;
  std::set<std::string> ids;
  for (JsonReader& part : r.list("parts")) {
    parts.push_back(readPart(part));
    if (!ids.insert(parts.back().id.text).second)
      part.fail("id", "unlike the id of every other part");
  }
  if (!fault.empty()) return Error{fault};
  if (const Status sound = validate(parts); !sound) return sound.error();
  return parts;
}

nlohmann::json partsExtraFromJson(const nlohmann::json& j) {
  nlohmann::json extra = j.is_object() ? j : nlohmann::json::object();
  for (const char* known : {"format", "version", "parts"}) extra.erase(known);
  return extra;
}

}  // namespace rackside
