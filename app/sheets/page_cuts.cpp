// SPDX-License-Identifier: GPL-3.0-or-later
// All cuts of all boards in one table, for whoever would rather tick off a list.
#include <QStringList>

#include "app/sheets/table.h"

namespace rackside::sheets {

std::vector<Page> cutListPages(const std::shared_ptr<const PackInput>& input) {
  Table t;
  t.title = "Cut list";
  t.subtitle =
      "Board by board, in working order. Saw just past each line, away from where you measured.";
  t.columns = {{"", 0.4},     {"Board", 1.4},         {"No.", 0.6, true},
               {"Cut", 1.4},  {"Section", 0.9, true}, {"Where", 8},
               {"Frees", 2.4}};
  const Rack& rack = input->rack;
  for (size_t b = 0; b < input->works.size(); ++b)
    for (const CutStep& step : input->works[b].steps) {
      QStringList freed;
      for (const std::string& code : step.freed) freed << QString::fromStdString(code);
      t.rows.push_back({QString(QChar(0x2610)), wordForBoard(rack.boards[b]),
                        QString::number(step.cut->order), QString::fromStdString(step.what),
                        step.section > 0 ? QString::number(step.section) : QString(),
                        QString::fromStdString(step.where), freed.join(", ")});
    }
  if (t.rows.empty()) return {};
  t.foot = sawCaution();
  return tablePages(input, {std::move(t)});
}

}  // namespace rackside::sheets
