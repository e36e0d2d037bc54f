// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/job/parts_columns.h"

#include <array>
#include <charconv>

#include "core/base/csv.h"
#include "core/base/name_table.h"
#include "core/base/number_text.h"

namespace rackside {
namespace {

Error type(const std::string& cell, const std::string& what) {
  return Error{"\"" + cell + "\" is not understood; type " + what + "."};
}

Result<double> number(const std::string& cell) {
  const std::optional<double> value = numberFrom(cell);
  if (!value) return type(cell, "a number such as 12 or 7.5");
  return *value;
}

Result<bool> yesNo(const std::string& cell) {
  for (const char* yes : {"yes", "y", "true", "1", "x"})
    if (sameName(cell, yes)) return true;
  for (const char* no : {"no", "n", "false", "0", "-"})
    if (sameName(cell, no)) return false;
  return type(cell, "yes or no");
}

std::string numberText(double value) {
  std::string text(32, '\0');
  const auto [end, error] = std::to_chars(text.data(), text.data() + text.size(), value);
  text.resize(static_cast<size_t>(end - text.data()));
  return text;
}

template <class T>
Status keep(T& place, const Result<T>& value) {
  if (!value) return value.error();
  place = *value;
  return success();
}

// Columns of one kind differ only by the member they fill.
template <double Part::*member>
PartsColumn lengthColumn(std::vector<std::string_view> headings, bool required) {
  return {std::move(headings), required,
          [](const std::string& cell, UnitSystem bare, Part& p) {
            return keep(p.*member, parseLengthMm(cell, bare));
          },
          [](const Part& p, const LengthStyle& style) { return formatLength(p.*member, style); }};
}

template <double GlueUp::*member>
PartsColumn stripColumn(std::string_view heading) {
  return {{heading},
          false,
          [](const std::string& cell, UnitSystem bare, Part& p) {
            return keep(p.glueUp.*member, parseLengthMm(cell, bare));
          },
          [](const Part& p, const LengthStyle& style) {
            return formatLength(p.glueUp.*member, style);
          }};
}

template <std::string Part::*member>
PartsColumn textColumn(std::vector<std::string_view> headings, bool required) {
  return {std::move(headings), required,
          [](const std::string& cell, UnitSystem, Part& p) {
            p.*member = cell;
            return success();
          },
          [](const Part& p, const LengthStyle&) { return p.*member; }};
}

template <double Part::*member>
PartsColumn numberColumn(std::vector<std::string_view> headings) {
  return {
      std::move(headings), false,
      [](const std::string& cell, UnitSystem, Part& p) { return keep(p.*member, number(cell)); },
      [](const Part& p, const LengthStyle&) { return numberText(p.*member); }};
}

template <FaceAllows Part::*face, bool FaceAllows::*member>
PartsColumn permissionColumn(std::vector<std::string_view> headings) {
  return {std::move(headings), false,
          [](const std::string& cell, UnitSystem, Part& p) {
            return keep(p.*face.*member, yesNo(cell));
          },
          [](const Part& p, const LengthStyle&) {
            return std::string(p.*face.*member ? "yes" : "no");
          }};
}

template <class Enum>
Status keepChoice(Enum& place, const std::optional<Enum>& value, const std::string& cell,
                  const char* choices) {
  if (!value) return type(cell, choices);
  place = *value;
  return success();
}

template <FaceAllows Part::*face>
PartsColumn sapwoodColumn(std::vector<std::string_view> headings) {
  return {std::move(headings), false,
          [](const std::string& cell, UnitSystem, Part& p) {
            if (const Result<bool> plain = yesNo(cell)) {
              (p.*face).sapwood = *plain ? SapwoodRule::yes : SapwoodRule::no;
              return success();
            }
            return keepChoice((p.*face).sapwood, sapwoodRuleFromName(cell), cell,
                              "no, yes or wanted on edge");
          },
          [](const Part& p, const LengthStyle&) { return std::string(name((p.*face).sapwood)); }};
}

Status readCopies(const std::string& cell, UnitSystem, Part& p) {
  int copies = 0;
  const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), copies);
  if (error != std::errc() || end != cell.data() + cell.size() || copies < 1)
    return type(cell, "a whole number of pieces, 1 or more");
  p.copies = copies;
  return success();
}

PartsColumn grainColumn() {
  return {{"grain"},
          false,
          [](const std::string& cell, UnitSystem, Part& p) {
            return keepChoice(p.grain, grainRuleFromName(cell), cell, "along or free");
          },
          [](const Part& p, const LengthStyle&) { return std::string(name(p.grain)); }};
}

PartsColumn showsColumn() {
  return {
      {"shows", "showing", "faces"},
      false,
      [](const std::string& cell, UnitSystem, Part& p) {
        const bool bare = sameName(cell, "one") || sameName(cell, "both");
        const std::string full = bare ? cell + (sameName(cell, "one") ? "-face" : "-faces") : cell;
        return keepChoice(p.showing, showingFromName(full), cell, "none, one face or both faces");
      },
      [](const Part& p, const LengthStyle&) { return std::string(name(p.showing)); }};
}

PartsColumn lookColumn() {
  return {{"look"},
          false,
          [](const std::string& cell, UnitSystem, Part& p) {
            return keepChoice(p.look, lookFromName(cell), cell,
                              "any, straight, arch centred, lively or even colour");
          },
          [](const Part& p, const LengthStyle&) { return std::string(name(p.look)); }};
}

PartsColumn glueUpColumn() {
  return {{"glue up", "panel"},
          false,
          [](const std::string& cell, UnitSystem, Part& p) {
            return keep(p.glueUp.allowed, yesNo(cell));
          },
          [](const Part& p, const LengthStyle&) {
            return std::string(p.glueUp.allowed ? "yes" : "no");
          }};
}

PartsColumn idColumn() {
  return {{"id"},
          false,
          [](const std::string& cell, UnitSystem, Part& p) {
            p.id.text = cell;
            return success();
          },
          [](const Part& p, const LengthStyle&) { return p.id.text; }};
}

std::vector<PartsColumn> makeColumns() {
  return {
      textColumn<&Part::name>({"name", "part"}, true),
      {{"copies", "quantity", "qty", "pieces"},
       true,
       readCopies,
       [](const Part& p, const LengthStyle&) { return std::to_string(p.copies); }},
      lengthColumn<&Part::lengthMm>({"length"}, true),
      lengthColumn<&Part::widthMm>({"width"}, true),
      lengthColumn<&Part::thicknessMm>({"thickness"}, true),
      grainColumn(),
      numberColumn<&Part::grainToleranceDeg>({"grain tolerance"}),
      showsColumn(),
      sapwoodColumn<&Part::show>({"sapwood"}),
      permissionColumn<&Part::show, &FaceAllows::soundKnots>({"sound knots", "knots"}),
      permissionColumn<&Part::show, &FaceAllows::filledHoles>({"filled holes", "filled"}),
      permissionColumn<&Part::show, &FaceAllows::stain>({"stain"}),
      sapwoodColumn<&Part::back>({"back sapwood"}),
      permissionColumn<&Part::back, &FaceAllows::soundKnots>({"back sound knots"}),
      permissionColumn<&Part::back, &FaceAllows::filledHoles>({"back filled holes"}),
      permissionColumn<&Part::back, &FaceAllows::stain>({"back stain"}),
      lookColumn(),
      textColumn<&Part::species>({"species", "wood"}, false),
      glueUpColumn(),
      stripColumn<&GlueUp::leastStripMm>("least strip"),
      stripColumn<&GlueUp::greatestStripMm>("greatest strip"),
      textColumn<&Part::matchGroup>({"match", "match group"}, false),
      numberColumn<&Part::value>({"value"}),
      textColumn<&Part::note>({"note", "notes"}, false),
      idColumn(),
  };
}

struct UnitEnding {
  std::string_view text;
  UnitSystem unit;
};
constexpr std::array kUnitEndings = {
    UnitEnding{"(mm)", UnitSystem::millimetres}, UnitEnding{"[mm]", UnitSystem::millimetres},
    UnitEnding{"_mm", UnitSystem::millimetres},  UnitEnding{" mm", UnitSystem::millimetres},
    UnitEnding{"(in)", UnitSystem::inches},      UnitEnding{"[in]", UnitSystem::inches},
    UnitEnding{"_in", UnitSystem::inches},       UnitEnding{" in", UnitSystem::inches},
    UnitEnding{"(inches)", UnitSystem::inches},
};

}  // namespace

const std::vector<PartsColumn>& partsColumns() {
  static const std::vector<PartsColumn> columns = makeColumns();
  return columns;
}

PartsHeading partsHeading(const std::string& cell, UnitSystem bareUnit) {
  PartsHeading heading{nullptr, bareUnit, cell};
  std::string base = cell;
  for (const UnitEnding& ending : kUnitEndings)
    if (base.size() > ending.text.size() &&
        sameName(std::string_view(base).substr(base.size() - ending.text.size()), ending.text)) {
      heading.unit = ending.unit;
      base = trimmed(base.substr(0, base.size() - ending.text.size()));
      break;
    }
  for (const PartsColumn& column : partsColumns())
    for (const std::string_view known : column.headings)
      if (sameName(known, base)) heading.column = &column;
  return heading;
}

}  // namespace rackside
