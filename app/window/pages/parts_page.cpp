// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/parts_page.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QMessageBox>
#include <QPainter>
#include <QSplitter>
#include <QVBoxLayout>
#include <set>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/pages/flow_layout.h"
#include "app/window/pages/table_text.h"
#include "core/job/parts_table.h"
#include "core/storage/atomic_file.h"

namespace rackside {

QSize PartCellDelegate::sizeHint(const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const {
  QSize size = QStyledItemDelegate::sizeHint(option, index);
  size.setHeight(option.fontMetrics.height() + 12);
  if (!index.data(PartsModel::kMistakeRole).toString().isEmpty())
    size.setHeight(2 * option.fontMetrics.height() + 14);
  return size;
}

void PartCellDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
  const QString mistake = index.data(PartsModel::kMistakeRole).toString();
  if (mistake.isEmpty()) return QStyledItemDelegate::paint(painter, option, index);
  const Colours& c = colours();
  painter->save();
  painter->fillRect(option.rect, c.card);
  QColor wash = c.bad;
  wash.setAlpha(30);
  painter->fillRect(option.rect, wash);
  painter->setPen(QPen(c.bad, 2));
  painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
  const QRect in = option.rect.adjusted(6, 3, -4, -3);
  const int line = option.fontMetrics.height();
  painter->setPen(c.ink);
  const QString typed = index.data().toString();
  painter->drawText(QRect(in.left(), in.top(), in.width(), line), Qt::AlignLeft,
                    option.fontMetrics.elidedText(typed, Qt::ElideRight, in.width()));
  painter->setPen(c.bad);
  painter->drawText(QRect(in.left(), in.top() + line, in.width(), line), Qt::AlignLeft,
                    option.fontMetrics.elidedText(mistake, Qt::ElideRight, in.width()));
  painter->restore();
}

QWidget* PartCellDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                                        const QModelIndex& index) const {
  const auto* model = qobject_cast<const PartsModel*>(index.model());
  const QStringList choices = model ? model->choices(index.column()) : QStringList();
  if (choices.isEmpty()) return QStyledItemDelegate::createEditor(parent, option, index);
  auto* box = new QComboBox(parent);
  box->addItems(choices);
  box->setEditable(true);
  return box;
}

void PartCellDelegate::setEditorData(QWidget* editor, const QModelIndex& index) const {
  if (auto* box = qobject_cast<QComboBox*>(editor))
    return box->setCurrentText(index.data().toString());
  QStyledItemDelegate::setEditorData(editor, index);
}

void PartCellDelegate::setModelData(QWidget* editor, QAbstractItemModel* model,
                                    const QModelIndex& index) const {
  if (auto* box = qobject_cast<QComboBox*>(editor)) {
    model->setData(index, box->currentText(), Qt::EditRole);
    return;
  }
  QStyledItemDelegate::setModelData(editor, model, index);
}

bool PartCellDelegate::eventFilter(QObject* watched, QEvent* event) {
  auto* editor = qobject_cast<QWidget*>(watched);
  if (editor && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter) {
      emit commitData(editor);
      emit closeEditor(editor, QAbstractItemDelegate::NoHint);
      emit enterPressed();
      return true;
    }
  }
  return QStyledItemDelegate::eventFilter(watched, event);
}

PartsPage::PartsPage(Document& document, QWidget* parent)
    : QWidget(parent), document_(document), model_(document) {
  build();
  buildActions();
  connect(table_.selectionModel(), &QItemSelectionModel::currentChanged, this,
          [this](const QModelIndex& now) {
            form_->setRow(now.row());
            showMistake();
          });
  const auto settle = [this] {
    table_.resizeRowsToContents();
    showMistake();
  };
  connect(&model_, &QAbstractItemModel::dataChanged, this, settle);
  connect(&model_, &QAbstractItemModel::modelReset, this, settle);
  connect(&model_, &QAbstractItemModel::rowsInserted, this, settle);
  settle();
}

void PartsPage::build() {
  title_.setProperty("role", QStringLiteral("title"));
  title_.setText(tr("Parts wanted"));
  auto* lead = new QLabel(tr(
      "Finished sizes; the allowances for milling are added when planning. Type, or paste from a "
      "spreadsheet. Lengths are read as you write them: 23 5/8, 7/8\", 2' 3 1/2\", 600 mm, "
      "60 cm."));
  lead->setWordWrap(true);
  lead->setProperty("role", QStringLiteral("faint"));
  table_.setModel(&model_);
  auto* delegate = new PartCellDelegate(this);
  connect(delegate, &PartCellDelegate::enterPressed, this, &PartsPage::nextRow);
  table_.setItemDelegate(delegate);
  table_.installEventFilter(this);
  table_.setObjectName(QStringLiteral("partsTable"));
  table_.setAccessibleName(tr("Parts wanted"));
  table_.setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                         QAbstractItemView::AnyKeyPressed);
  table_.setSelectionMode(QAbstractItemView::ContiguousSelection);
  table_.horizontalHeader()->setMinimumSectionSize(70);
  table_.verticalHeader()->setDefaultAlignment(Qt::AlignCenter);
  table_.setColumnWidth(0, 180);
  for (int column = 1; column < model_.columnCount(); ++column)
    table_.setColumnWidth(column, column < 5 ? 96 : 104);
  table_.horizontalHeader()->setStretchLastSection(true);
  mistake_.setProperty("role", QStringLiteral("bad"));
  mistake_.setWordWrap(true);
  mistake_.setObjectName(QStringLiteral("partsMistake"));
  mistake_.setMinimumHeight(fontMetrics().height() + 4);

  paste_.setText(tr("Paste from a spreadsheet"));
  read_.setText(tr("Read CSV …"));
  write_.setText(tr("Save as CSV …"));
  remove_.setText(tr("Remove rows"));
  auto* row = new QWidget;
  auto* flow = new FlowLayout(row);
  flow->setContentsMargins(0, 0, 0, 0);
  for (QPushButton* button : {&paste_, &read_, &write_, &remove_}) flow->addWidget(button);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 14, 18, 10);
  column->setSpacing(8);
  column->addWidget(&title_);
  column->addWidget(lead);
  column->addWidget(row);
  form_ = new PartForm(model_, document_);
  form_->setMinimumWidth(250);
  for (int at = 0; at < model_.columnCount(); ++at) table_.setColumnHidden(at, isRareColumn(at));
  auto* split = new QSplitter;
  split->addWidget(&table_);
  split->addWidget(form_);
  split->setStretchFactor(0, 1);
  split->setSizes({760, 290});
  split->setChildrenCollapsible(false);
  column->addWidget(split, 1);
  column->addWidget(&mistake_);
}

void PartsPage::buildActions() {
  const auto key = [this](const QKeySequence& keys, auto act) {
    auto* action = new QAction(&table_);
    action->setShortcut(keys);
    action->setShortcutContext(Qt::WidgetShortcut);
    table_.addAction(action);
    connect(action, &QAction::triggered, this, act);
  };
  key(QKeySequence::Paste, [this] { pasteHere(); });
  key(QKeySequence::Copy, [this] { copySelection(); });
  key(Qt::Key_Delete, [this] { model_.clearCells(table_.selectionModel()->selectedIndexes()); });
  key(Qt::CTRL | Qt::Key_Delete, [this] { removeSelection(); });
  remove_.setToolTip(tr("The rows of the chosen cells (Ctrl+Delete)"));
  paste_.setToolTip(
      tr("From the chosen cell on (Ctrl+V). A first row of column names sorts the "
         "columns by itself."));
  connect(&paste_, &QPushButton::clicked, this, &PartsPage::pasteHere);
  connect(&remove_, &QPushButton::clicked, this, &PartsPage::removeSelection);
  connect(&read_, &QPushButton::clicked, this, &PartsPage::readFile);
  connect(&write_, &QPushButton::clicked, this, &PartsPage::writeFile);
}

void PartsPage::pasteHere() {
  const auto cells = readTable(QApplication::clipboard()->text());
  if (cells.empty())
    return emit said(tr("Nothing to paste: copy cells in the spreadsheet first."), true);
  const QModelIndex at = table_.currentIndex();
  const int row = at.isValid() ? at.row() : model_.rowCount() - 1;
  const auto onto = ontoWhat(row, cells);
  if (onto) takeCells(row, at.isValid() ? at.column() : 0, cells, *onto);
}

// One row over another is what a maker means to do; several over filled ones may be a slip.
std::optional<PartsModel::Onto> PartsPage::ontoWhat(int row,
                                                    const std::vector<QStringList>& cells) {
  int filled = 0;
  for (int i = 0; i < static_cast<int>(cells.size()); ++i) filled += model_.filled(row + i) ? 1 : 0;
  if (cells.size() < 2 || filled == 0 || PartsModel::hasHeadings(cells))
    return PartsModel::Onto::replaceRows;
  QMessageBox ask(QMessageBox::Question, tr("Paste rows"),
                  filled == 1 ? tr("One of the rows there is filled in already.")
                              : tr("%1 of the rows there are filled in already.").arg(filled),
                  QMessageBox::Cancel, this);
  const auto* fresh = ask.addButton(tr("&Insert as new rows"), QMessageBox::AcceptRole);
  const auto* over = ask.addButton(tr("&Replace what is there"), QMessageBox::DestructiveRole);
  ask.exec();
  if (ask.clickedButton() == fresh) return PartsModel::Onto::newRows;
  if (ask.clickedButton() == over) return PartsModel::Onto::replaceRows;
  return std::nullopt;
}

void PartsPage::takeCells(int row, int column, const std::vector<QStringList>& cells,
                          PartsModel::Onto onto) {
  const QStringList unknown = model_.paste(row, column, cells, onto);
  const int wrong = model_.mistakes();
  QStringList text;
  if (!unknown.isEmpty())
    text << tr("Columns not known here, and left out: %1.").arg(listed(unknown));
  if (wrong > 0) text << tr("%1 rows have a mistake, marked in their cells.").arg(wrong);
  if (!text.isEmpty()) emit said(text.join(QLatin1Char(' ')), true);
}

// As in a spreadsheet: down the column that is being filled in.
void PartsPage::nextRow() {
  const QModelIndex at = table_.currentIndex();
  if (at.isValid() && at.row() + 1 < model_.rowCount())
    table_.setCurrentIndex(model_.index(at.row() + 1, at.column()));
  table_.setFocus();
}

bool PartsPage::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &table_ && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter) {
      nextRow();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

void PartsPage::copySelection() const {
  std::vector<QStringList> rows;
  int last = -1;
  QModelIndexList cells = table_.selectionModel()->selectedIndexes();
  std::sort(cells.begin(), cells.end(), [](const QModelIndex& a, const QModelIndex& b) {
    return std::pair(a.row(), a.column()) < std::pair(b.row(), b.column());
  });
  for (const QModelIndex& cell : cells) {
    if (cell.row() != last) rows.emplace_back();
    last = cell.row();
    rows.back() << cell.data().toString();
  }
  QApplication::clipboard()->setText(writeTable(rows, QLatin1Char('\t')));
}

void PartsPage::removeSelection() {
  std::set<int> rows;
  for (const QModelIndex& cell : table_.selectionModel()->selectedIndexes())
    rows.insert(cell.row());
  model_.dropRows({rows.begin(), rows.end()});
}

void PartsPage::readFile() {
  const QString file = QFileDialog::getOpenFileName(this, tr("Read a parts list"), {},
                                                    tr("CSV (*.csv *.txt *.tsv)"));
  if (file.isEmpty()) return;
  const auto bytes = rackside::readFile(pathOf(file));
  if (!bytes) return emit said(qt(bytes.error().message), true);
  const auto cells = readTable(qt(*bytes));
  emit said(tr("%1 rows read.").arg(cells.size() - (PartsModel::hasHeadings(cells) ? 1 : 0)),
            false);
  takeCells(model_.rowCount() - 1, 0, cells, PartsModel::Onto::newRows);
}

void PartsPage::writeFile() {
  const QString file = QFileDialog::getSaveFileName(this, tr("Save the parts list"),
                                                    QStringLiteral("parts.csv"), tr("CSV (*.csv)"));
  if (file.isEmpty()) return;
  const Status written =
      writeFileAtomically(pathOf(file), partsToCsv(document_.rack().parts, document_.lengths()));
  written ? emit said(tr("Saved to %1.").arg(file), false)
          : emit said(qt(written.error().message), true);
}

void PartsPage::showMistake() {
  QString text = model_.mistakeAt(table_.currentIndex());
  const int rows = model_.mistakes();
  if (text.isEmpty() && rows > 0)
    text = rows == 1 ? tr("1 row is unfinished: kept, but not planned until it is put right.")
                     : tr("%1 rows are unfinished: kept, but not planned until they are put right.")
                           .arg(rows);
  mistake_.setText(text);
}

}  // namespace rackside
