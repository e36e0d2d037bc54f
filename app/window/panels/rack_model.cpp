// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/rack_model.h"

#include <limits>

#include "app/window/look/text.h"

namespace rackside {

RackModel::RackModel(Document& document, QObject* parent)
    : QAbstractListModel(parent), document_(document) {
  connect(&document_, &Document::opened, this, &RackModel::reload);
  connect(&document_, &Document::changed, this, &RackModel::follow);
  reload();
}

int RackModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

QVariant RackModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const RackRow& r = row(index.row());
  if (role == Qt::DisplayRole) return r.facts.name;
  if (role == Qt::ToolTipRole && !r.lacks.isEmpty())
    return tr("Still missing: %1").arg(listed(r.lacks));
  if (role == Qt::AccessibleTextRole)
    return tr("Board %1, %2 board feet").arg(r.facts.name).arg(r.facts.boardFeet, 0, 'f', 1);
  return {};
}

int RackModel::rowOf(const BoardId& id) const {
  for (size_t i = 0; i < rows_.size(); ++i)
    if (rows_[i].facts.id == id) return static_cast<int>(i);
  return -1;
}

RackRow RackModel::makeRow(const Board& board, BoardFacts facts) const {
  RackRow r;
  r.facts = std::move(facts);
  for (const Lack& lack : lacksOf(board)) r.lacks << lack.what;
  const Picture* picture = board.newestPicture(Face::A);
  if (!picture) picture = board.newestPicture(Face::B);
  if (picture) {
    r.pictureFile = qtPath(document_.pictureFile(board, *picture));
    r.boardFromPicture = picture->boardFromPicture;
    r.pictureSize = QSize(picture->widthPx, picture->heightPx);
  }
  r.outline = board.outline.polygon();
  return r;
}

void RackModel::findLongest() {
  longestMm_ = 0;
  for (const RackRow& r : rows_) longestMm_ = std::max(longestMm_, r.facts.lengthMm);
}

void RackModel::reload() {
  beginResetModel();
  rows_.clear();
  const Rack& rack = document_.rack();
  auto facts = rackFacts(rack);
  for (size_t i = 0; i < facts.size(); ++i)
    rows_.push_back(makeRow(rack.boards[i], std::move(facts[i])));
  findLongest();
  endResetModel();
}

// One board's change touches one row; boards coming or going, or a plan, all.
void RackModel::follow(const ChangeEvents& events) {
  using What = ChangeEvent::What;
  for (const ChangeEvent& event : events) {
    if (event.what == What::boardAdded || event.what == What::boardRemoved) return reload();
  }
  for (const ChangeEvent& event : events) {
    if (event.what == What::plan) {
      const auto facts = rackFacts(document_.rack());
      for (size_t i = 0; i < rows_.size() && i < facts.size(); ++i) rows_[i].facts = facts[i];
      if (!rows_.empty()) emit dataChanged(index(0), index(rowCount() - 1));
    } else if (const Board* board = document_.rack().findBoard(event.board)) {
      const int at = rowOf(board->id);
      if (at < 0) continue;
      rows_[static_cast<size_t>(at)] = makeRow(*board, boardFacts(document_.rack(), *board));
      emit dataChanged(index(at), index(at));
    } else if (event.what == What::shop && !rows_.empty()) {
      emit dataChanged(index(0), index(rowCount() - 1));
    }
  }
  findLongest();
}

RackFilter::RackFilter(RackModel& model, QObject* parent)
    : QSortFilterProxyModel(parent), model_(model) {
  setSourceModel(&model);
  setDynamicSortFilter(true);
  sort(0);
}

void RackFilter::setWords(const QString& words) {
  words_ = words.split(QLatin1Char(' '), Qt::SkipEmptyParts);
  invalidateFilter();
}

void RackFilter::setOrder(RackOrder order) {
  order_ = order;
  invalidate();
}

void RackFilter::setShow(RackShow show) {
  show_ = show;
  invalidateFilter();
}

bool RackFilter::filterAcceptsRow(int sourceRow, const QModelIndex&) const {
  const RackRow& r = model_.row(sourceRow);
  const bool shown = show_ == RackShow::all || (show_ == RackShow::missing && !r.lacks.isEmpty()) ||
                     (show_ == RackShow::used && r.facts.pieces > 0) ||
                     (show_ == RackShow::unused && r.facts.pieces == 0) ||
                     (show_ == RackShow::spokenFor && !r.facts.state.isEmpty());
  if (!shown) return false;
  for (const QString& word : words_) {
    bool number = false;
    const int tag = word.toInt(&number);
    const bool found = (number && r.facts.tag == tag) ||
                       r.facts.name.contains(word, Qt::CaseInsensitive) ||
                       r.facts.species.contains(word, Qt::CaseInsensitive) ||
                       r.facts.place.contains(word, Qt::CaseInsensitive);
    if (!found) return false;
  }
  return true;
}

// Sizes run from large to small, numbers and names upwards.
bool RackFilter::lessThan(const QModelIndex& left, const QModelIndex& right) const {
  const RackRow& a = model_.row(left.row());
  const RackRow& b = model_.row(right.row());
  switch (order_) {
    case RackOrder::length:
      if (a.facts.lengthMm != b.facts.lengthMm) return a.facts.lengthMm > b.facts.lengthMm;
      break;
    case RackOrder::width:
      if (a.facts.widthMm != b.facts.widthMm) return a.facts.widthMm > b.facts.widthMm;
      break;
    case RackOrder::boardFeet:
      if (a.facts.boardFeet != b.facts.boardFeet) return a.facts.boardFeet > b.facts.boardFeet;
      break;
    case RackOrder::thickness:
      if (a.facts.thicknessMm != b.facts.thicknessMm)
        return a.facts.thicknessMm > b.facts.thicknessMm;
      break;
    case RackOrder::missing:
      if (a.lacks.size() != b.lacks.size()) return a.lacks.size() > b.lacks.size();
      break;
    case RackOrder::number:
      break;
  }
  const int none = std::numeric_limits<int>::max();
  const int ta = a.facts.tag.value_or(none), tb = b.facts.tag.value_or(none);
  return ta != tb ? ta < tb : QString::localeAwareCompare(a.facts.name, b.facts.name) < 0;
}

}  // namespace rackside
