// SPDX-License-Identifier: GPL-3.0-or-later
// The parts list as a table of texts. Each cell is judged by the same reader as a CSV file's, so
// that the window and the command line never disagree. A row with a mistake keeps what was typed
// and says why; the part stays as it was until the row is mended.
#pragma once

#include <QAbstractTableModel>
#include <optional>
#include <vector>

#include "app/window/document/document.h"

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

  // Cells from (row, column) on; a first row of column names sorts the columns itself. One step of
  // undo.
  void paste(int row, int column, const std::vector<QStringList>& cells);
  void dropRows(std::vector<int> rows);
  void clearCells(const QModelIndexList& cells);
  QString mistakeAt(const QModelIndex& index) const;
  int mistakes() const;  // rows with at least one
  // The few words a column takes; empty for free text.
  QStringList choices(int column) const;

 private:
  struct Row {
    std::optional<Part> part;  // the last good one
    QStringList cells;
    QStringList mistakes;
    bool blank() const;
  };
  void reload();
  Row rowOf(const Part& part) const;
  void judge(Row& row) const;
  QString mistakeOf(int column, const QString& text) const;
  void commit();
  int columnNamed(const QString& name) const;
  void grow(int rows);

  Document& document_;
  QStringList columns_;  // as CSV names them
  QStringList model_;    // a faultless row, to judge one cell at a time
  std::vector<Row> rows_;
  bool committing_ = false;
};

}  // namespace rackside
