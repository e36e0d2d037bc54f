// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/json_reader.h"
#include "core/base/name_table.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_points.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 3> kSoundness = {"unknown", "sound", "loose"};
constexpr std::array<std::string_view, 3> kAuthors = {"maker", "crayon", "proposal"};

std::optional<Soundness> soundnessFromName(std::string_view s) {
  return valueIn<Soundness>(kSoundness, s);
}
std::optional<MarkAuthor> authorFromName(std::string_view s) {
  return valueIn<MarkAuthor>(kAuthors, s);
}

nlohmann::json shapeJson(const Polygon& p) {
  return {{"shape", "polygon"}, {"points_mm", pointsJson(p)}};
}
nlohmann::json shapeJson(const Ellipse& e) {
  return {{"shape", "ellipse"},
          {"centre_mm", pointJson(e.centre)},
          {"semi_x_mm", e.semiX},
          {"semi_y_mm", e.semiY},
          {"angle_rad", e.angleRad}};
}
nlohmann::json shapeJson(const Stroke& s) {
  return {{"shape", "stroke"}, {"points_mm", pointsJson(s.points)}, {"width_mm", s.widthMm}};
}

MarkShape readShape(JsonReader& r) {
  const std::string shape = r.text("shape");
  if (shape == "polygon") return r.points("points_mm");
  if (shape == "ellipse")
    return Ellipse{r.point("centre_mm"), r.number("semi_x_mm"), r.number("semi_y_mm"),
                   r.number("angle_rad", 0)};
  if (shape == "stroke") return Stroke{r.points("points_mm"), r.number("width_mm", 0)};
  r.fail("shape", "\"polygon\", \"ellipse\" or \"stroke\"");
  return Polygon{};
}

}  // namespace

nlohmann::json toJson(const Mark& mark) {
  nlohmann::json j{{"id", mark.id.text},
                   {"kind", name(mark.kind)},
                   {"through", mark.through},
                   {"soundness", nameIn(kSoundness, mark.soundness)},
                   {"live", mark.live},
                   {"author", nameIn(kAuthors, mark.author)},
                   {"confidence", mark.confidence},
                   {"confirmed", mark.confirmed},
                   {"note", mark.note}};
  const auto shape = [](const auto& s) { return shapeJson(s); };
  if (mark.onA) j["on_a"] = std::visit(shape, *mark.onA);
  if (mark.onB) j["on_b"] = std::visit(shape, *mark.onB);
  if (mark.depthMm) {
    j["depth_mm"] = *mark.depthMm;
    j["depth_from"] = name(mark.depthFrom);
  }
  addExtra(j, *mark.extra);
  return j;
}

Mark readMark(JsonReader& r) {
  Mark m;
  m.id.text = r.text("id");
  if (m.id.empty()) r.fail("id", "the mark's own id, not empty");
  m.kind =
      r.choice<MarkKind>("kind", "a kind of mark, such as \"knot\" or \"check\"", markKindFromName);
  if (r.has("on_a")) m.onA = readShape(r.object("on_a"));
  if (r.has("on_b")) m.onB = readShape(r.object("on_b"));
  m.through = r.flag("through", false);
  m.depthMm = r.maybeNumber("depth_mm");
  m.depthFrom = r.choice<Face>("depth_from", "\"A\" or \"B\"", faceFromName, Face::A);
  m.soundness = r.choice<Soundness>("soundness", "\"unknown\", \"sound\" or \"loose\"",
                                    soundnessFromName, Soundness::unknown);
  m.live = r.flag("live", false);
  m.author = r.choice<MarkAuthor>("author", "\"maker\", \"crayon\" or \"proposal\"", authorFromName,
                                  MarkAuthor::maker);
  m.confidence = r.number("confidence", 1);
  m.confirmed = r.flag("confirmed", true);
  m.note = r.text("note", "");
  m.extra = r.extra();
  if (r.failed()) return m;
  if (const Status sound = validate(m); !sound)
    r.fail("kind", "a mark that holds: " + sound.error().message);
  return m;
}

Result<Mark> markFromJson(const nlohmann::json& j) {
  std::string fault;
  JsonReader reader(j, "", fault);
  Mark mark = readMark(reader);
  if (!fault.empty()) return Error{fault};
  return mark;
}

}  // namespace rackside
