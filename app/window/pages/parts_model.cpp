// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/parts_model.h"

#include <algorithm>

#include "app/window/look/text.h"
#include "app/window/pages/table_text.h"
#include "core/document/edits.h"
#include "core/job/parts_table.h"

namespace rackside {

namespace {

Part faultlessPart() {
  Part part;
  part.name = "sample part";
  part.lengthMm = 500;
  part.widthMm = 100;
  part.thicknessMm = 20;
  return part;
}

std::vector<QStringList> asTable(const Part& part, const LengthStyle& style) {
  return readTable(qt(partsToCsv({part}, style)));
}

// The reader names row and column; beside the cell they are not needed.
QString withoutPlace(QString message) {
  const qsizetype colon = message.indexOf(QLatin1String(": "));
  const QString head = message.left(colon);
  if (colon > 0 && head.startsWith(QLatin1String("row"), Qt::CaseInsensitive))
    message = message.mid(colon + 2);
  return message;
}

}  // namespace

bool PartsModel::Row::blank() const {
  return std::all_of(cells.begin(), cells.end(), [](const QString& c) { return c.isEmpty(); });
}

PartsModel::PartsModel(Document& document, QObject* parent)
    : QAbstractTableModel(parent), document_(document) {
  const auto table = asTable(faultlessPart(), LengthStyle{});
  columns_ = table.at(0);
  model_ = table.at(1);
  connect(&document_, &Document::opened, this, &PartsModel::reload);
  connect(&document_, &Document::changed, this, [this](const ChangeEvents& events) {
    const bool ours = std::any_of(events.begin(), events.end(), [](const ChangeEvent& e) {
      return e.what == ChangeEvent::What::parts || e.what == ChangeEvent::What::shop;
    });
    if (ours && !committing_) reload();
  });
  reload();
}

int PartsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int PartsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(columns_.size());
}

PartsModel::Row PartsModel::rowOf(const Part& part) const {
  Row row;
  row.part = part;
  row.cells = asTable(part, document_.lengths()).at(1);
  row.cells.resize(columns_.size());
  row.mistakes.resize(columns_.size());
  return row;
}

// Rows that are not yet parts stay at the end; what was typed is never thrown away.
void PartsModel::reload() {
  beginResetModel();
  std::vector<Row> drafts;
  for (Row& row : rows_)
    if (!row.part && !row.blank()) drafts.push_back(std::move(row));
  rows_.clear();
  for (const Part& part : document_.rack().parts) rows_.push_back(rowOf(part));
  for (Row& draft : drafts) rows_.push_back(std::move(draft));
  endResetModel();
  grow(rowCount() + 1);
}

void PartsModel::grow(int rows) {
  if (!rows_.empty() && rows_.back().blank() && rowCount() >= rows) return;
  beginInsertRows({}, rowCount(), std::max(rowCount(), rows - 1));
  do {
    Row row;
    row.cells.resize(columns_.size());
    row.mistakes.resize(columns_.size());
    rows_.push_back(row);
  } while (rowCount() < rows);
  endInsertRows();
}

QVariant PartsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const Row& row = rows_[static_cast<size_t>(index.row())];
  if (role == Qt::DisplayRole || role == Qt::EditRole) return row.cells[index.column()];
  if (role == kMistakeRole) return row.mistakes[index.column()];
  if (role == Qt::ToolTipRole && !row.mistakes[index.column()].isEmpty())
    return row.mistakes[index.column()];
  return {};
}

QVariant PartsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (role != Qt::DisplayRole) return {};
  if (orientation == Qt::Vertical)
    return section + 1 == rowCount() ? QVariant(QStringLiteral("+")) : QVariant(section + 1);
  QString name = columns_[section];
  name[0] = name[0].toUpper();
  return name;
}

Qt::ItemFlags PartsModel::flags(const QModelIndex&) const {
  return Qt::ItemIsEnabled | Qt::ItemIsSelectable | Qt::ItemIsEditable;
}

QString PartsModel::mistakeAt(const QModelIndex& index) const {
  return index.isValid() ? index.data(kMistakeRole).toString() : QString();
}

int PartsModel::mistakes() const {
  return static_cast<int>(std::count_if(rows_.begin(), rows_.end(), [](const Row& row) {
    return std::any_of(row.mistakes.begin(), row.mistakes.end(),
                       [](const QString& m) { return !m.isEmpty(); });
  }));
}

QStringList PartsModel::choices(int column) const {
  const QString& name = columns_[column];
  const auto words = [](auto names) {
    QStringList list;
    for (const auto& value : names) list << qt(rackside::name(value));
    return list;
  };
  if (name == QLatin1String("grain")) return words(std::vector{GrainRule::along, GrainRule::free});
  if (name == QLatin1String("shows"))
    return words(std::vector{Showing::none, Showing::oneFace, Showing::bothFaces});
  if (name == QLatin1String("sapwood"))
    return words(std::vector{SapwoodRule::no, SapwoodRule::yes, SapwoodRule::wantedOnEdge});
  if (name == QLatin1String("look"))
    return words(
        std::vector{Look::any, Look::straight, Look::archCentred, Look::lively, Look::evenColour});
  if (name == QLatin1String("sound knots") || name == QLatin1String("filled holes") ||
      name == QLatin1String("glue up"))
    return {QStringLiteral("no"), QStringLiteral("yes")};
  return {};
}

// One cell in a row that is otherwise faultless, so that whatever is wrong is wrong with it.
QString PartsModel::mistakeOf(int column, const QString& text) const {
  QStringList cells = model_;
  cells[column] = text;
  const auto parts = partsFromCsv(plain(writeTable({columns_, cells}, QLatin1Char(','))),
                                  document_.lengths().system);
  return parts ? QString() : withoutPlace(qt(parts.error().message));
}

void PartsModel::judge(Row& row) const {
  for (QString& mistake : row.mistakes) mistake.clear();
  if (row.blank()) return;
  bool fine = true;
  for (int column = 0; column < columns_.size(); ++column) {
    row.mistakes[column] = mistakeOf(column, row.cells[column]);
    fine = fine && row.mistakes[column].isEmpty();
  }
  if (!fine) return;
  const auto parts = partsFromCsv(plain(writeTable({columns_, row.cells}, QLatin1Char(','))),
                                  document_.lengths().system);
  if (!parts || parts->size() != 1) {
    row.mistakes[0] =
        parts ? tr("This row is not one part.") : withoutPlace(qt(parts.error().message));
    return;
  }
  Part part = parts->front();
  if (row.part) {  // what the table does not show stays as it was
    part.id = row.part->id;
    part.grainToleranceDeg = row.part->grainToleranceDeg;
    part.back = row.part->back;
    part.outline = row.part->outline;
    part.value = row.part->value;
    part.extra = row.part->extra;
    part.glueUp.leastStripMm = row.part->glueUp.leastStripMm;
    part.glueUp.greatestStripMm = row.part->glueUp.greatestStripMm;
  }
  row.part = part;
}

void PartsModel::commit() {
  std::vector<Part> parts;
  for (const Row& row : rows_)
    if (row.part && !row.blank()) parts.push_back(*row.part);
  committing_ = true;
  (void)document_.perform(changeParts(std::move(parts)));
  committing_ = false;
  grow(rowCount() + (rows_.back().blank() ? 0 : 1));
}

bool PartsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || !index.isValid()) return false;
  Row& row = rows_[static_cast<size_t>(index.row())];
  const QString text = value.toString().trimmed();
  if (text == row.cells[index.column()]) return false;
  row.cells[index.column()] = text;
  // A new row starts with what is usual.
  if (!row.part && row.cells.count(QString()) == columns_.size() - 1)
    for (int column = 0; column < columns_.size(); ++column)
      if (row.cells[column].isEmpty() &&
          (column == columnNamed(QStringLiteral("copies")) || !choices(column).isEmpty()))
        row.cells[column] = model_[column];
  judge(row);
  if (row.part || row.blank()) commit();
  grow(rowCount() + (rows_.back().blank() ? 0 : 1));
  emit dataChanged(this->index(index.row(), 0), this->index(index.row(), columnCount() - 1));
  return true;
}

int PartsModel::columnNamed(const QString& name) const {
  for (int column = 0; column < columns_.size(); ++column)
    if (columns_[column].compare(name.trimmed(), Qt::CaseInsensitive) == 0) return column;
  return -1;
}

void PartsModel::paste(int row, int column, const std::vector<QStringList>& cells) {
  if (cells.empty()) return;
  std::vector<int> target;
  bool named = !cells.front().isEmpty();
  for (const QString& name : cells.front()) {
    target.push_back(columnNamed(name));
    named = named && target.back() >= 0;
  }
  const size_t first = named ? 1 : 0;
  grow(row + static_cast<int>(cells.size() - first) + 1);
  for (size_t i = first; i < cells.size(); ++i) {
    Row& into = rows_[static_cast<size_t>(row) + i - first];
    for (int j = 0; j < cells[i].size(); ++j) {
      const int at = named ? target[static_cast<size_t>(j)] : column + j;
      if (j < static_cast<int>(target.size()) || !named)
        if (at >= 0 && at < columns_.size()) into.cells[at] = cells[i][j];
    }
    if (into.cells[columnNamed(QStringLiteral("copies"))].isEmpty())
      into.cells[columnNamed(QStringLiteral("copies"))] = QStringLiteral("1");
    for (int at = 0; at < columns_.size(); ++at)
      if (into.cells[at].isEmpty() && !choices(at).isEmpty()) into.cells[at] = model_[at];
    judge(into);
  }
  commit();
  emit dataChanged(index(row, 0), index(rowCount() - 1, columnCount() - 1));
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
  for (const QModelIndex& cell : cells) {
    Row& row = rows_[static_cast<size_t>(cell.row())];
    row.cells[cell.column()].clear();
    judge(row);
    if (row.blank()) row.part.reset();
  }
  commit();
  if (!rows_.empty()) emit dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
}

}  // namespace rackside
