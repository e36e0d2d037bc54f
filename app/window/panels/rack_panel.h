// SPDX-License-Identifier: GPL-3.0-or-later
// The rack: every board drawn to one scale, as they would lie side by side, with its number, size,
// board feet and what is missing. Sorts and filters.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QStyledItemDelegate>
#include <QWidget>

#include "app/window/document/choice.h"
#include "app/window/panels/rack_model.h"
#include "app/window/panels/thumbnails.h"

namespace rackside {

class BoardDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  BoardDelegate(Document& document, RackFilter& filter, Thumbnails& thumbnails, QObject* parent);
  void paint(QPainter* painter, const QStyleOptionViewItem& option,
             const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

 private:
  const RackRow& rowAt(const QModelIndex& index) const;
  void paintBoard(QPainter& painter, const QRectF& box, const RackRow& row) const;

  Document& document_;
  RackFilter& filter_;
  Thumbnails& thumbnails_;
};

class RackPanel : public QWidget {
  Q_OBJECT
 public:
  RackPanel(Document& document, Choice& choice, QWidget* parent = nullptr);
  QListView& list() { return list_; }
  QLineEdit& search() { return search_; }
  void step(int by);  // to the next or the previous board of the list

 private:
  void build();
  void follow();
  void count();

  Document& document_;
  Choice& choice_;
  RackModel model_;
  RackFilter filter_;
  Thumbnails thumbnails_;
  QLineEdit search_;
  QComboBox order_, show_;
  QListView list_;
  QLabel total_;
};

}  // namespace rackside
