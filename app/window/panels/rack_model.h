// SPDX-License-Identifier: GPL-3.0-or-later
// The boards of the rack as a list, with what each row shows worked out once.
#pragma once

#include <QAbstractListModel>
#include <QSize>
#include <QSortFilterProxyModel>

#include "app/window/document/board_facts.h"
#include "app/window/document/document.h"

namespace rackside {

struct RackRow {
  BoardFacts facts;
  QStringList lacks;
  QString pictureFile;                       // of face A, or B where there is no A
  std::array<double, 6> boardFromPicture{};  // of that picture
  QSize pictureSize;
  Polygon outline;
};

class RackModel : public QAbstractListModel {
  Q_OBJECT
 public:
  explicit RackModel(Document& document, QObject* parent = nullptr);
  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  const RackRow& row(int index) const { return rows_[static_cast<size_t>(index)]; }
  int rowOf(const BoardId& id) const;  // -1 when it is not there, as Qt's models have it
  double longestMm() const { return longestMm_; }

 private:
  void reload();
  void follow(const ChangeEvents& events);
  RackRow makeRow(const Board& board, BoardFacts facts) const;
  void findLongest();

  Document& document_;
  std::vector<RackRow> rows_;
  double longestMm_ = 0;
};

enum class RackOrder { number, length, width, boardFeet, thickness, missing };
enum class RackShow { all, missing, used, unused, spokenFor };

class RackFilter : public QSortFilterProxyModel {
  Q_OBJECT
 public:
  explicit RackFilter(RackModel& model, QObject* parent = nullptr);
  // Words that must all appear in the name, tag, species or place; a bare number is a tag.
  void setWords(const QString& words);
  void setOrder(RackOrder order);
  void setShow(RackShow show);
  RackModel& rack() const { return model_; }

 protected:
  bool filterAcceptsRow(int sourceRow, const QModelIndex& parent) const override;
  bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;

 private:
  RackModel& model_;
  QStringList words_;
  RackOrder order_ = RackOrder::number;
  RackShow show_ = RackShow::all;
};

}  // namespace rackside
