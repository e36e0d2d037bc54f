// SPDX-License-Identifier: GPL-3.0-or-later
// One row of the parts list: a part, and what was typed over it. Each cell is read by the same
// columns as a CSV file's, so that the window and the command line never disagree, and only what is
// typed changes the part: no length is rounded by being shown.
#pragma once

#include <QString>
#include <QStringList>
#include <map>
#include <optional>

#include "app/window/document/part_drafts.h"
#include "core/base/length.h"
#include "core/job/parts_columns.h"

namespace rackside {

class PartsRow {
 public:
  // The columns that a maker sees: all but the id.
  static const std::vector<const PartsColumn*>& columns();
  static int columnNamed(const QString& heading);  // by any heading of a file; -1: none
  static QString title(int column);                // what a maker reads above it

  PartsRow() = default;
  explicit PartsRow(const Part& part) : part_(part) {}
  PartsRow(const PartDraft& draft, UnitSystem bare);

  QString text(int column, const LengthStyle& style) const;
  QString mistake(int column) const;
  bool wrong() const { return !mistakes_.empty(); }
  bool blank() const { return !part_ && typed_.empty(); }
  // The part, unless something typed is not yet understood.
  const Part* part() const { return part_ && typed_.empty() ? &*part_ : nullptr; }
  PartDraft draft() const;

  // A bare number is in `bare`, and stays so when the units are switched.
  void type(int column, const QString& text, UnitSystem bare);
  // A new row's cells that nobody filled in are as is usual.
  void fillUsual(const std::vector<int>& columns);

 private:
  void judge(UnitSystem bare, int lastTyped);
  std::optional<Part> part_;  // the latest that was understood
  std::map<int, QString> typed_, mistakes_;
};

}  // namespace rackside
