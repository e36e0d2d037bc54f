// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/paper_page.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QVBoxLayout>

#include "app/sheets/pack.h"
#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/panels/plan_notes.h"

namespace rackside {

namespace {
constexpr double kMostPreviewPx = 2200;
constexpr int kPauseMs = 150;
}  // namespace

SheetView::SheetView(QWidget* parent) : QWidget(parent) {
  setMinimumSize(300, 220);
  setAccessibleName(tr("The page"));
}

void SheetView::show(const QImage& sheet) {
  sheet_ = sheet;
  text_.clear();
  update();
}

void SheetView::say(const QString& text) {
  sheet_ = {};
  text_ = text;
  update();
}

void SheetView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), colours().stage);
  if (sheet_.isNull()) {
    painter.setPen(colours().faint);
    painter.drawText(rect().adjusted(20, 20, -20, -20), Qt::AlignCenter | Qt::TextWordWrap, text_);
    return;
  }
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  const QSizeF size =
      QSizeF(sheet_.size()).scaled(QSizeF(width() - 28, height() - 28), Qt::KeepAspectRatio);
  const QRectF at((width() - size.width()) / 2, (height() - size.height()) / 2, size.width(),
                  size.height());
  painter.fillRect(at.translated(3, 3), QColor(0, 0, 0, 60));
  painter.drawImage(at, sheet_);
}

PaperPage::PaperPage(Document& document, QWidget* parent)
    : QWidget(parent), document_(document), others_(document, pool_, [this] { return paper(); }) {
  pool_.setMaxThreadCount(1);
  pool_.setThreadPriority(QThread::LowPriority);
  pause_.setSingleShot(true);
  pause_.setInterval(kPauseMs);
  connect(&pause_, &QTimer::timeout, this, &PaperPage::draw);
  build();
  const auto later = [this] {
    if (isVisible()) pause_.start();
  };
  connect(&document_, &Document::changed, this, later);
  connect(&document_, &Document::opened, this, later);
}

PaperPage::~PaperPage() {
  pool_.waitForDone();
}

void PaperPage::build() {
  paper_.addItem(tr("A4"));
  paper_.addItem(tr("US Letter"));
  paper_.setAccessibleName(tr("Paper"));
  overview_.setText(tr("Boards to pull, in order"));
  boards_.setText(tr("One page per board"));
  parts_.setText(tr("Parts"));
  cuts_.setText(tr("Cut list"));
  milling_.setText(tr("Milling"));
  fill_.setText(tr("Filling"));
  movement_.setText(tr("Movement through the seasons"));
  tally_.setText(tr("Tally"));
  labels_.setText(tr("Labels"));
  oneBoard_.setText(tr("Only the selected board"));
  count_.setProperty("role", QStringLiteral("group"));
  count_.setObjectName(QStringLiteral("paperCount"));
  connect(&oneBoard_, &QCheckBox::toggled, this, [this](bool one) {
    for (QCheckBox* box :
         {&overview_, &parts_, &cuts_, &milling_, &fill_, &movement_, &tally_, &labels_})
      box->setEnabled(!one);
    pause_.start();
  });
  for (QCheckBox* box :
       {&overview_, &boards_, &parts_, &cuts_, &milling_, &fill_, &movement_, &tally_, &labels_}) {
    connect(box, &QCheckBox::toggled, &pause_, qOverload<>(&QTimer::start));
  }
  const sheets::PackOptions usual;
  for (const auto& [box, wanted] : {std::pair{&overview_, usual.pull},
                                    {&boards_, usual.boards},
                                    {&parts_, usual.parts},
                                    {&cuts_, usual.cuts},
                                    {&milling_, usual.milling},
                                    {&fill_, usual.fill},
                                    {&movement_, usual.movement},
                                    {&tally_, usual.tally},
                                    {&labels_, usual.labels}})
    box->setChecked(wanted);
  connect(&paper_, &QComboBox::currentIndexChanged, &pause_, qOverload<>(&QTimer::start));
  write_.setText(tr("Save as &PDF …"));
  write_.setProperty("main", true);
  write_.setObjectName(QStringLiteral("paperWrite"));
  connect(&write_, &QPushButton::clicked, this, &PaperPage::chooseFile);
  print_.setText(tr("P&rint …"));
  print_.setObjectName(QStringLiteral("paperPrint"));
  connect(&print_, &QPushButton::clicked, this, &PaperPage::print);
  connect(&others_, &OtherPapers::said, this, &PaperPage::said);
  list_.setObjectName(QStringLiteral("paperList"));
  list_.setAccessibleName(tr("Pages"));
  connect(&list_, &QListWidget::currentRowChanged, this, [this](int row) {
    if (row >= 0 && !showing_) pause_.start();
  });
  state_.setObjectName(QStringLiteral("paperPlanState"));
  state_.setWordWrap(true);
  state_.setProperty("role", QStringLiteral("bad"));
  note_.setWordWrap(true);
  note_.setProperty("role", QStringLiteral("faint"));
  note_.setText(
      tr("Print at 100 %. The board pages say every cut from the fresh end, in the order "
         "to work in; the labels go on the ends of the pieces."));

  auto* side = new QWidget;
  side->setFixedWidth(250);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(8);
  auto* title = new QLabel(tr("Sheets for the bench"));
  title->setProperty("role", QStringLiteral("title"));
  for (QWidget* widget : std::initializer_list<QWidget*>{
           title, &paper_, &overview_, &boards_, &parts_, &cuts_, &milling_, &fill_, &movement_,
           &tally_, &labels_, &oneBoard_, &count_, &write_, &print_, &others_, &state_, &note_})
    column->addWidget(widget);
  column->addWidget(&list_, 1);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  row->addWidget(side);
  row->addWidget(&sheet_, 1);
}

sheets::Paper PaperPage::paper() const {
  return paper_.currentIndex() == 1 ? sheets::Paper::letter : sheets::Paper::a4;
}

sheets::PackOptions PaperPage::options() const {
  sheets::PackOptions o;
  o.paper = paper();
  o.lengths = document_.lengths();
  if (oneBoard_.isChecked()) {
    o = sheets::labelsAlone(o);
    o.pull = o.labels = false;
    o.boards = true;
    o.onlyBoard = board_;
    return o;
  }
  o.pull = overview_.isChecked();
  o.milling = milling_.isChecked();
  o.fill = fill_.isChecked();
  o.movement = movement_.isChecked();
  o.tally = tally_.isChecked();
  o.boards = boards_.isChecked();
  o.parts = parts_.isChecked();
  o.cuts = cuts_.isChecked();
  o.labels = labels_.isChecked();
  return o;
}

void PaperPage::setBoard(const BoardId& board) {
  board_ = board;
  if (oneBoard_.isChecked() && isVisible()) pause_.start();
}

void PaperPage::refresh() {
  pause_.start();
}

void PaperPage::showEvent(QShowEvent*) {
  refresh();
}

void PaperPage::resizeEvent(QResizeEvent*) {
  pause_.start();
}

void PaperPage::draw() {
  if (!isVisible()) return;
  write_.setEnabled(!document_.rack().boards.empty());
  print_.setEnabled(write_.isEnabled());
  others_.setEnabled(!document_.rack().boards.empty());
  state_.setText(planStateWords(document_.rack()));
  state_.setVisible(!state_.text().isEmpty());
  if (document_.rack().boards.empty()) {
    list_.clear();
    return sheet_.say(
        tr("There is no board yet, so there is nothing to print but cards and tags."));
  }
  const int number = ++drawing_;
  const auto wanted = options();
  const int page = std::max(0, list_.currentRow());
  const double widthPx =
      std::min(kMostPreviewPx, std::max(300.0, sheet_.width() * devicePixelRatioF()));
  inBackground(
      pool_, this,
      [rack = std::make_shared<const Rack>(document_.rack()), folder = document_.folder(), wanted,
       page, widthPx] {
        Drawn drawn;
        const auto pages = sheets::packPages(*rack, folder, wanted);
        for (const sheets::Page& p : pages) drawn.titles << p.title;
        if (pages.empty()) return drawn;
        drawn.page = std::min(page, static_cast<int>(pages.size()) - 1);
        const QSizeF mm = sheets::paperSizeMm(wanted.paper, true);
        const double pxPerMm = widthPx / mm.width();
        drawn.sheet = QImage((mm * pxPerMm).toSize(), QImage::Format_RGB32);
        drawn.sheet.fill(Qt::white);
        QPainter painter(&drawn.sheet);
        painter.setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
        sheets::paintPage(painter, pxPerMm, pages, static_cast<size_t>(drawn.page), *rack, wanted);
        return drawn;
      },
      [this, number](const Drawn& drawn) {
        if (number == drawing_) take(drawn);
      });
}

void PaperPage::take(const Drawn& drawn) {
  showing_ = true;
  QStringList now;
  for (int i = 0; i < list_.count(); ++i) now << list_.item(i)->text();
  if (now != drawn.titles) {
    list_.clear();
    list_.addItems(drawn.titles);
  }
  if (!drawn.titles.isEmpty()) list_.setCurrentRow(drawn.page);
  count_.setText(drawn.titles.size() == 1 ? tr("1 page") : tr("%1 pages").arg(drawn.titles.size()));
  showing_ = false;
  drawn.sheet.isNull() ? sheet_.say(tr("Nothing is chosen to print.")) : sheet_.show(drawn.sheet);
}

void PaperPage::print() {
  QPrinter printer(QPrinter::HighResolution);
  printer.setPageSize(
      QPageSize(paper() == sheets::Paper::letter ? QPageSize::Letter : QPageSize::A4));
  printer.setPageOrientation(QPageLayout::Landscape);
  printer.setFullPage(true);  // at 100 %: nothing is fitted into the printer's margins
  printer.setFromTo(1, std::max(1, pages()));
  QPrintDialog dialog(&printer, this);
  dialog.setOption(QAbstractPrintDialog::PrintPageRange);
  dialog.setOption(QAbstractPrintDialog::PrintCurrentPage);
  if (dialog.exec() == QDialog::Accepted) printTo(printer);
}

void PaperPage::printTo(QPrinter& printer) {
  const auto wanted = options();
  const Rack& rack = document_.rack();
  const auto all = sheets::packPages(rack, document_.folder(), wanted);
  int first = printer.fromPage(), last = printer.toPage();
  if (printer.printRange() == QPrinter::CurrentPage) first = last = list_.currentRow() + 1;
  if (printer.printRange() == QPrinter::AllPages || first < 1) {
    first = 1;
    last = static_cast<int>(all.size());
  }
  last = std::min(last, static_cast<int>(all.size()));
  QPainter painter(&printer);
  const double pxPerMm = printer.resolution() / kMmPerInch;
  for (int i = first; i <= last; ++i) {
    if (i > first) printer.newPage();
    sheets::paintPage(painter, pxPerMm, all, static_cast<size_t>(i - 1), rack, wanted);
  }
  emit said(tr("%1 pages sent to the printer. Check the scale with a rule.").arg(last - first + 1),
            false);
}

void PaperPage::chooseFile() {
  const QString pdf = QFileDialog::getSaveFileName(this, tr("Save the sheets as PDF"),
                                                   QStringLiteral("sheets.pdf"), tr("PDF (*.pdf)"));
  if (!pdf.isEmpty()) writeTo(pdf);
}

void PaperPage::writeTo(const QString& pdf) {
  write_.setEnabled(false);
  inBackground(
      pool_, this,
      [rack = std::make_shared<const Rack>(document_.rack()), folder = document_.folder(),
       wanted = options(), file = pathOf(pdf)] {
        return std::make_shared<Result<int>>(sheets::writePack(*rack, folder, wanted, file));
      },
      [this, pdf](const std::shared_ptr<Result<int>>& done) {
        write_.setEnabled(true);
        if (!done->ok()) return emit said(qt(done->error().message), true);
        emit said(tr("%1 pages saved to %2.").arg(done->value()).arg(pdf), false);
        emit written(pdf);
      });
}

}  // namespace rackside
