// SPDX-License-Identifier: GPL-3.0-or-later
// The parts list: typed, pasted from a spreadsheet, or read from a CSV file.
#pragma once

#include <QLabel>
#include <QPushButton>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QWidget>

#include "app/window/pages/part_form.h"
#include "app/window/pages/parts_model.h"

namespace rackside {

// Shows a mistake in its cell, below what was typed.
class PartCellDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  using QStyledItemDelegate::QStyledItemDelegate;
  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const override;
  void setEditorData(QWidget* editor, const QModelIndex& index) const override;
  void setModelData(QWidget* editor, QAbstractItemModel* model,
                    const QModelIndex& index) const override;

 signals:
  void enterPressed();  // the cell has been taken over

 protected:
  bool eventFilter(QObject* editor, QEvent* event) override;
};

class PartsPage : public QWidget {
  Q_OBJECT
 public:
  PartsPage(Document& document, QWidget* parent = nullptr);
  QTableView& table() { return table_; }
  PartsModel& model() { return model_; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 signals:
  void said(const QString& text, bool bad);

 private:
  void build();
  void buildActions();
  void pasteHere();
  std::optional<PartsModel::Onto> ontoWhat(int row, const std::vector<QStringList>& cells);
  void takeCells(int row, int column, const std::vector<QStringList>& cells, PartsModel::Onto onto);
  void nextRow();
  void copySelection() const;
  void removeSelection();
  void readFile();
  void writeFile();
  void showMistake();

  Document& document_;
  PartsModel model_;
  QTableView table_;
  QLabel title_, mistake_;
  PartForm* form_ = nullptr;
  QPushButton paste_, read_, write_, remove_;
};

}  // namespace rackside
