// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/table_text.h"

namespace rackside {

namespace {

// A quote opens a quoted cell only at its start, so that 7/8" stays as it is.
QChar separatorOf(const QString& text) {
  bool quoted = false;
  bool tab = false, semicolon = false;
  QChar before = QLatin1Char('\n');
  for (const QChar c : text) {
    if (c == QLatin1Char('"') &&
        (quoted || before == QLatin1Char('\n') || before == QLatin1Char('\t') ||
         before == QLatin1Char(';') || before == QLatin1Char(',')))
      quoted = !quoted;
    if (!quoted && c == QLatin1Char('\t')) tab = true;
    if (!quoted && c == QLatin1Char(';')) semicolon = true;
    before = c;
  }
  return tab ? QLatin1Char('\t') : semicolon ? QLatin1Char(';') : QLatin1Char(',');
}

}  // namespace

std::vector<QStringList> readTable(const QString& text) {
  const QChar separator = separatorOf(text);
  std::vector<QStringList> rows;
  QStringList row;
  QString cell;
  bool quoted = false;
  const auto endCell = [&] {
    row << cell.trimmed();
    cell.clear();
  };
  const auto endRow = [&] {
    endCell();
    if (row.size() > 1 || !row.first().isEmpty()) rows.push_back(row);
    row.clear();
  };
  for (qsizetype i = 0; i < text.size(); ++i) {
    const QChar c = text[i];
    if (quoted) {
      if (c != QLatin1Char('"'))
        cell += c;
      else if (text.mid(i + 1, 1) == QLatin1String("\""))
        cell += text[i++];
      else
        quoted = false;
    } else if (c == QLatin1Char('"') && cell.isEmpty()) {
      quoted = true;
    } else if (c == separator) {
      endCell();
    } else if (c == QLatin1Char('\n')) {
      endRow();
    } else if (c != QLatin1Char('\r')) {
      cell += c;
    }
  }
  if (!cell.isEmpty() || !row.isEmpty()) endRow();
  return rows;
}

QString writeTable(const std::vector<QStringList>& rows, QChar separator) {
  QString text;
  for (const QStringList& row : rows) {
    QStringList cells;
    for (QString cell : row) {
      const bool quote = cell.contains(separator) || cell.contains(QLatin1Char('"')) ||
                         cell.contains(QLatin1Char('\n'));
      if (quote)
        cell = QLatin1Char('"') + cell.replace(QLatin1String("\""), QLatin1String("\"\"")) +
               QLatin1Char('"');
      cells << cell;
    }
    text += cells.join(separator) + QLatin1Char('\n');
  }
  return text;
}

}  // namespace rackside
