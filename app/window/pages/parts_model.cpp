// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/parts_model.h"

#include <algorithm>

#include "app/window/look/text.h"
#include "core/document/edits.h"

namespace rackside {

namespace {

using What = ChangeEvent::What;

const PartsColumn& columnAt(int column) {
  return *PartsRow::columns()[static_cast<size_t>(column)];
}

// Parts and drafts in the order they stand in the list.
std::vector<PartsRow> rowsOf(const Rack& rack) {
  std::vector<PartsRow> rows;
  for (const Part& part : rack.parts) rows.emplace_back(part);
  for (const PartDraft& draft : partDrafts(rack)) {
    const auto at = static_cast<std::ptrdiff_t>(std::min(draft.row, rows.size()));
    rows.insert(rows.begin() + at, PartsRow(draft, rack.shop.show.system));
  }
  return rows;
}

bool happened(const ChangeEvents& events, What what) {
  return std::any_of(events.begin(), events.end(),
                     [what](const ChangeEvent& e) { return e.what == what; });
}

}  // namespace

PartsModel::PartsModel(Document& document, QObject* parent)
    : QAbstractTableModel(parent), document_(document) {
  connect(&document_, &Document::opened, this, &PartsModel::reload);
  connect(&document_, &Document::changed, this, [this](const ChangeEvents& events) {
    if (committing_) return;
    if (happened(events, What::parts))
      reload();
    else if (happened(events, What::shop))
      showAll();
  });
  reload();
}

int PartsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int PartsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(PartsRow::columns().size());
}

// As many rows as before: a cell that is being typed into stays open.
void PartsModel::reload() {
  std::vector<PartsRow> rows = rowsOf(document_.rack());
  rows.emplace_back();
  if (rows.size() == rows_.size()) {
    rows_ = std::move(rows);
    return showAll();
  }
  beginResetModel();
  rows_ = std::move(rows);
  endResetModel();
}

void PartsModel::showAll() {
  emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
}

// There is always a blank row to go on in.
void PartsModel::grow() {
  if (!rows_.empty() && rows_.back().blank()) return;
  beginInsertRows({}, rowCount(), rowCount());
  rows_.emplace_back();
  endInsertRows();
}

QVariant PartsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const PartsRow& row = rows_[static_cast<size_t>(index.row())];
  if (role == Qt::DisplayRole || role == Qt::EditRole)
    return row.text(index.column(), document_.lengths());
  if (role == kMistakeRole || (role == Qt::ToolTipRole && !row.mistake(index.column()).isEmpty()))
    return row.mistake(index.column());
  return {};
}

QVariant PartsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (role != Qt::DisplayRole) return {};
  if (orientation == Qt::Vertical)
    return section + 1 == rowCount() ? QVariant(QStringLiteral("+")) : QVariant(section + 1);
  return PartsRow::title(section);
}

Qt::ItemFlags PartsModel::flags(const QModelIndex&) const {
  return Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable;
}

QString PartsModel::mistakeAt(const QModelIndex& index) const {
  return index.isValid() ? index.data(kMistakeRole).toString() : QString();
}

int PartsModel::mistakes() const {
  return static_cast<int>(
      std::count_if(rows_.begin(), rows_.end(), [](const PartsRow& row) { return row.wrong(); }));
}

const PartsRow* PartsModel::rowAt(int row) const {
  return row >= 0 && row < rowCount() ? &rows_[static_cast<size_t>(row)] : nullptr;
}

bool PartsModel::filled(int row) const {
  const PartsRow* at = rowAt(row);
  return at && !at->blank();
}

QStringList PartsModel::choices(int column) const {
  const QString name = qt(columnAt(column).headings.front());
  const auto words = [](auto names) {
    QStringList list;
    for (const auto& value : names) list << qt(rackside::name(value));
    return list;
  };
  if (name == QLatin1String("grain")) return words(std::vector{GrainRule::along, GrainRule::free});
  if (name == QLatin1String("shows"))
    return words(std::vector{Showing::none, Showing::oneFace, Showing::bothFaces});
  if (name.endsWith(QLatin1String("sapwood")))
    return words(std::vector{SapwoodRule::no, SapwoodRule::yes, SapwoodRule::wantedOnEdge});
  if (name == QLatin1String("look"))
    return words(
        std::vector{Look::any, Look::straight, Look::archCentred, Look::lively, Look::evenColour});
  if (name.endsWith(QLatin1String("knots")) || name.endsWith(QLatin1String("holes")) ||
      name.endsWith(QLatin1String("stain")) || name == QLatin1String("glue up"))
    return {QStringLiteral("no"), QStringLiteral("yes")};
  return {};
}

// A new row starts with what is usual.
void PartsModel::startRow(PartsRow& row) const {
  std::vector<int> usual{PartsRow::columnNamed(QStringLiteral("copies"))};
  for (int column = 0; column < columnCount(); ++column)
    if (!choices(column).isEmpty()) usual.push_back(column);
  row.fillUsual(usual);
}

void PartsModel::commit() {
  std::vector<Part> parts;
  std::vector<PartDraft> drafts;
  for (size_t i = 0, place = 0; i < rows_.size(); ++i) {
    if (rows_[i].blank()) continue;
    if (const Part* part = rows_[i].part()) {
      parts.push_back(*part);
    } else {
      drafts.push_back(rows_[i].draft());
      drafts.back().row = place;
    }
    ++place;
  }
  committing_ = true;
  std::vector<std::unique_ptr<Edit>> edits;
  edits.push_back(changeParts(std::move(parts)));
  edits.push_back(changePartsExtra(withPartDrafts(document_.rack(), drafts)));
  (void)document_.perform(together("Change parts list", std::move(edits)));
  committing_ = false;
  grow();
}

bool PartsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !index.isValid()) return false;
  PartsRow& row = rows_[static_cast<size_t>(index.row())];
  const QString text = value.toString().trimmed();
  if (text == row.text(index.column(), document_.lengths())) return false;
  if (row.blank()) startRow(row);
  row.type(index.column(), text, bare());
  commit();
  emit dataChanged(this->index(index.row(), 0), this->index(index.row(), columnCount() - 1));
  return true;
}

bool PartsModel::hasHeadings(const std::vector<QStringList>& cells) {
  if (cells.empty()) return false;
  int known = 0;
  for (const QString& heading : cells.front()) known += PartsRow::columnNamed(heading) >= 0 ? 1 : 0;
  return 2 * known > cells.front().size();
}

QStringList PartsModel::paste(int row, int column, const std::vector<QStringList>& cells,
                              Onto onto) {
  if (cells.empty()) return {};
  const bool named = hasHeadings(cells);
  QStringList unknown;
  std::vector<int> target;
  std::vector<UnitSystem> units;
  qsizetype across = 0;
  for (const QStringList& line : cells) across = std::max(across, line.size());
  for (qsizetype j = 0; j < across; ++j) {
    const QString heading = cells.front().value(j);
    target.push_back(named ? PartsRow::columnNamed(heading) : column + static_cast<int>(j));
    units.push_back(named ? partsHeading(plain(heading.trimmed()), bare()).unit : bare());
    if (named && target.back() < 0 && !heading.isEmpty()) unknown << heading;
  }
  const size_t first = named ? 1 : 0;
  const size_t count = cells.size() - first;
  const bool fresh = named || onto == Onto::newRows;
  beginResetModel();
  const auto at = static_cast<size_t>(std::clamp(row, 0, std::max(0, rowCount() - 1)));
  if (fresh) rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(at), count, PartsRow());
  if (rows_.size() < at + count) rows_.resize(at + count);
  for (size_t i = 0; i < count; ++i) {
    PartsRow& into = rows_[at + i];
    if (into.blank()) startRow(into);
    const QStringList& from = cells[first + i];
    for (qsizetype j = 0; j < from.size(); ++j) {
      const int to = target[static_cast<size_t>(j)];
      if (to < 0 || to >= columnCount() || (fresh && from[j].isEmpty())) continue;
      into.type(to, from[j].trimmed(), units[static_cast<size_t>(j)]);
    }
  }
  endResetModel();
  commit();
  return unknown;
}

void PartsModel::dropRows(std::vector<int> rows) {
  std::sort(rows.rbegin(), rows.rend());
  for (const int row : rows) {
    if (row < 0 || row >= rowCount() - 1) continue;
    beginRemoveRows({}, row, row);
    rows_.erase(rows_.begin() + row);
    endRemoveRows();
  }
  commit();
}

void PartsModel::clearCells(const QModelIndexList& cells) {
  std::map<int, int> cleared;
  for (const QModelIndex& cell : cells) {
    PartsRow& row = rows_[static_cast<size_t>(cell.row())];
    if (row.blank()) continue;
    ++cleared[cell.row()];
    row.type(cell.column(), {}, bare());
  }
  for (const auto& [row, count] : cleared)
    if (count == columnCount()) rows_[static_cast<size_t>(row)] = PartsRow();
  if (cleared.empty()) return;
  commit();
  showAll();
}

}  // namespace rackside
