// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/parts_row.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/window/look/text.h"
#include "core/base/id.h"

namespace rackside {

namespace {

constexpr LengthStyle kExact{UnitSystem::millimetres, 6, 64};

// Puts a cell into the part. An empty one goes back to what is usual, where it may be empty.
Status readCell(const PartsColumn& column, const QString& text, UnitSystem bare, Part& part) {
  if (!text.isEmpty()) return column.read(plain(text), bare, part);
  if (column.required)
    return Error{plain(QObject::tr("Still to be typed: %1.").arg(qt(column.headings.front())))};
  return column.read(column.write(Part{}, kExact), UnitSystem::millimetres, part);
}

// A number whose unit is only understood gets it written out.
QString withUnit(const PartsColumn& column, const QString& text, UnitSystem bare) {
  Part asMm, asInches;
  const std::string cell = plain(text);
  const bool mm = column.read(cell, UnitSystem::millimetres, asMm).ok();
  const bool inches = column.read(cell, UnitSystem::inches, asInches).ok();
  const bool same = mm && inches && column.write(asMm, kExact) == column.write(asInches, kExact);
  if (same || !(bare == UnitSystem::inches ? inches : mm)) return text;
  return text + (bare == UnitSystem::inches ? QStringLiteral(" in") : QStringLiteral(" mm"));
}

}  // namespace

const std::vector<const PartsColumn*>& PartsRow::columns() {
  static const std::vector<const PartsColumn*> shown = [] {
    std::vector<const PartsColumn*> all;
    for (const PartsColumn& column : partsColumns())
      if (column.headings.front() != "id") all.push_back(&column);
    return all;
  }();
  return shown;
}

int PartsRow::columnNamed(const QString& heading) {
  const PartsColumn* column =
      partsHeading(plain(heading.trimmed()), UnitSystem::millimetres).column;
  const auto& all = columns();
  const auto at = std::find(all.begin(), all.end(), column);
  return column && at != all.end() ? static_cast<int>(at - all.begin()) : -1;
}

QString PartsRow::title(int column) {
  static const std::map<std::string_view, const char*> own{
      {"grain tolerance", QT_TRANSLATE_NOOP("PartsRow", "Max grain slope")},
      {"shows", QT_TRANSLATE_NOOP("PartsRow", "Show faces")},
      {"match", QT_TRANSLATE_NOOP("PartsRow", "Keep with")},
      {"value", QT_TRANSLATE_NOOP("PartsRow", "Priority")},
      {"least strip", QT_TRANSLATE_NOOP("PartsRow", "Narrowest strip")},
      {"greatest strip", QT_TRANSLATE_NOOP("PartsRow", "Widest strip")},
      {"name", QT_TRANSLATE_NOOP("PartsRow", "Name")},
      {"copies", QT_TRANSLATE_NOOP("PartsRow", "Copies")},
      {"length", QT_TRANSLATE_NOOP("PartsRow", "Length")},
      {"width", QT_TRANSLATE_NOOP("PartsRow", "Width")},
      {"thickness", QT_TRANSLATE_NOOP("PartsRow", "Thickness")},
      {"grain", QT_TRANSLATE_NOOP("PartsRow", "Grain")},
      {"sapwood", QT_TRANSLATE_NOOP("PartsRow", "Sapwood")},
      {"sound knots", QT_TRANSLATE_NOOP("PartsRow", "Sound knots")},
      {"filled holes", QT_TRANSLATE_NOOP("PartsRow", "Filled holes")},
      {"stain", QT_TRANSLATE_NOOP("PartsRow", "Stain")},
      {"back sapwood", QT_TRANSLATE_NOOP("PartsRow", "Sapwood on the back")},
      {"back sound knots", QT_TRANSLATE_NOOP("PartsRow", "Sound knots on the back")},
      {"back filled holes", QT_TRANSLATE_NOOP("PartsRow", "Filled holes on the back")},
      {"back stain", QT_TRANSLATE_NOOP("PartsRow", "Stain on the back")},
      {"look", QT_TRANSLATE_NOOP("PartsRow", "Look")},
      {"species", QT_TRANSLATE_NOOP("PartsRow", "Species")},
      {"glue up", QT_TRANSLATE_NOOP("PartsRow", "Glue up")},
      {"note", QT_TRANSLATE_NOOP("PartsRow", "Note")}};
  const std::string_view heading = columns()[static_cast<size_t>(column)]->headings.front();
  const auto found = own.find(heading);
  return found == own.end() ? qt(heading) : QCoreApplication::translate("PartsRow", found->second);
}

PartsRow::PartsRow(const PartDraft& draft, UnitSystem bare) : part_(draft.part) {
  int last = 0;
  for (const auto& [heading, text] : draft.typed)
    if (const int column = columnNamed(qt(heading)); column >= 0) typed_[last = column] = qt(text);
  judge(bare, last);
}

QString PartsRow::text(int column, const LengthStyle& style) const {
  if (const auto typed = typed_.find(column); typed != typed_.end()) return typed->second;
  return part_ ? qt(columns()[static_cast<size_t>(column)]->write(*part_, style)) : QString();
}

QString PartsRow::mistake(int column) const {
  const auto found = mistakes_.find(column);
  return found == mistakes_.end() ? QString() : found->second;
}

PartDraft PartsRow::draft() const {
  PartDraft draft;
  draft.part = part_;
  for (const auto& [column, text] : typed_)
    draft.typed[std::string(columns()[static_cast<size_t>(column)]->headings.front())] =
        plain(text);
  return draft;
}

void PartsRow::type(int column, const QString& text, UnitSystem bare) {
  if (!part_ && text.isEmpty())
    typed_.erase(column);
  else
    typed_[column] = withUnit(*columns()[static_cast<size_t>(column)], text, bare);
  const auto usual = [](const auto& cell) {
    return plain(cell.second) == columns()[static_cast<size_t>(cell.first)]->write(Part{}, kExact);
  };
  if (!part_ && std::all_of(typed_.begin(), typed_.end(), usual)) typed_.clear();
  judge(bare, column);
}

void PartsRow::fillUsual(const std::vector<int>& usual) {
  if (part_) return;
  const Part part;
  for (const int column : usual)
    if (!typed_.contains(column))
      typed_[column] = qt(columns()[static_cast<size_t>(column)]->write(part, kExact));
}

// Once all that was typed is understood, it is the part.
void PartsRow::judge(UnitSystem bare, int lastTyped) {
  mistakes_.clear();
  if (typed_.empty()) return;
  Part read = part_.value_or(Part{});
  for (int column = 0; column < static_cast<int>(columns().size()); ++column) {
    const auto typed = typed_.find(column);
    if (part_ && typed == typed_.end()) continue;
    const QString text = typed == typed_.end() ? QString() : typed->second;
    if (const Status done = readCell(*columns()[static_cast<size_t>(column)], text, bare, read);
        !done)
      mistakes_[column] = qt(done.error().message);
  }
  if (!mistakes_.empty()) return;
  if (read.id.empty()) read.id.text = newIdText("part");
  if (const Status sound = validate(read); !sound) {
    mistakes_[lastTyped] = qt(sound.error().message);
    return;
  }
  part_ = std::move(read);
  typed_.clear();
}

}  // namespace rackside
