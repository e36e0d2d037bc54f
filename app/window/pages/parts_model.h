// SPDX-License-Identifier: GPL-3.0-or-later
// The parts list as a table of texts. A row with a mistake keeps what was typed and says why; until
// it is put right it is no part, and nobody plans it. All rows are kept with the rack.
#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "app/window/document/document.h"
#include "app/window/pages/parts_row.h"

namespace rackside {

class PartsModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  static constexpr int kMistakeRole = Qt::UserRole + 1;
  explicit PartsModel(Document& document, QObject* parent = nullptr);
  // One row more than there are parts: the last is for the next one.
  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;

  enum class Onto { replaceRows, newRows };
  // Cells from (row, column) on, in rows that are there or in new ones put before `row`. A first
  // row of headings sorts the columns, and always makes new rows. One step of undo. Gives the
  // headings that are not known here, whose cells were not taken.
  QStringList paste(int row, int column, const std::vector<QStringList>& cells, Onto onto);
  static bool hasHeadings(const std::vector<QStringList>& cells);
  bool filled(int row) const;
  void dropRows(std::vector<int> rows);
  void clearCells(const QModelIndexList& cells);
  QString mistakeAt(const QModelIndex& index) const;
  int mistakes() const;  // rows with at least one
  // The few words a column takes; empty for free text.
  QStringList choices(int column) const;
  const PartsRow* rowAt(int row) const;

 private:
  void reload();
  void commit();
  void grow();
  void startRow(PartsRow& row) const;
  UnitSystem bare() const { return document_.lengths().system; }
  void showAll();

  Document& document_;
  std::vector<PartsRow> rows_;
  bool committing_ = false;
};

}  // namespace rackside
