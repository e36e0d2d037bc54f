// SPDX-License-Identifier: GPL-3.0-or-later
// How much the wide parts move through the year, and what to build for it.
#include "app/sheets/table.h"
#include "core/trade/moving_parts.h"

namespace rackside::sheets {
namespace {

QString text(std::string_view s) {
  return QString::fromUtf8(s.data(), static_cast<qsizetype>(s.size()));
}

QString subtitle(const Seasons& s) {
  return QString(s.fromAir
                     ? "Made at %1 % moisture; the home's own air brings wood to %2 % in its dry "
                       "season and to %3 % in its humid one."
                     : "Made at %1 % moisture; a heated room dries wood to about %2 %, a humid "
                       "summer brings it to %3 % (usual figures: the home's own air was not "
                       "entered).")
      .arg(s.madeAtPercent, 0, 'g', 3)
      .arg(s.dryPercent, 0, 'g', 3)
      .arg(s.humidPercent, 0, 'g', 3);
}

QString footOf(const MovingParts& moving, const Seasons& seasons) {
  QString foot = moving.parts.empty() ? QString() : text(movementAdvice());
  foot +=
      " Parts of boards whose sawing is not entered are reckoned flat sawn, the greater movement. "
      "Equation 13-2 of the Wood Handbook (USDA FPL-GTR-282).";
  for (const std::string& warning : seasonWarnings(seasons)) foot += " " + text(warning);
  for (const std::string& wood : moving.woodsWithoutFigures)
    foot += wood.empty() ? QString(" Parts of which no wood is known are left out.")
                         : " No figures are known for " + text(wood) + ".";
  return foot.trimmed();
}

}  // namespace

std::vector<Page> movementPages(const std::shared_ptr<const PackInput>& input) {
  const Rack& rack = input->rack;
  const Result<Seasons> known = seasonsOf(rack.shop);
  const Seasons seasons = known ? *known : Seasons{};
  const MovingParts moving = movingParts(rack, seasons);
  Table t;
  t.title = "How the wide parts move";
  t.subtitle = subtitle(seasons);
  t.columns = {{"Part", 3},
               {"Species", 2},
               {"Sawn", 1.1},
               {"Width", 1.2, true},
               {"Shrinks", 1.2, true},
               {"Swells", 1.2, true},
               {"Room to leave", 1.4, true},
               {"Figures", 1.6}};
  // Movements are small: a finer step than the rest of the pack.
  const LengthStyle fine{input->options.lengths.system, 1, 64};
  const auto length = [&fine](double mm) { return text(formatLength(mm, fine)); };
  for (const MovingPart& m : moving.parts) {
    const Part* part = rack.findPart(m.part);
    t.rows.push_back({text(m.name), text(m.species),
                      m.sawn == Sawn::unknown ? QString("as flat") : text(name(m.sawn)),
                      part ? input->length(part->widthMm) : QString(), length(m.movement.shrinksMm),
                      length(m.movement.swellsMm), length(m.movement.swingMm()),
                      text(name(m.from))});
  }
  t.foot = footOf(moving, seasons);
  return tablePages(input, {std::move(t)});
}

}  // namespace rackside::sheets
