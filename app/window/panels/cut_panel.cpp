// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/cut_panel.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>

#include "app/sheets/board_work.h"
#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/panels/plan_notes.h"
#include "core/trade/safety_words.h"

namespace rackside {

namespace {

constexpr int kNumberRole = Qt::UserRole;

QString freedWords(const sheets::BoardWork& work, const sheets::CutStep& step) {
  QStringList names;
  for (const std::string& code : step.freed)
    for (const sheets::PieceLine& line : work.pieces)
      if (line.code == code) names << qt(line.title());
  return names.isEmpty() ? QString()
                         : QObject::tr("frees %1").arg(names.join(QStringLiteral(", ")));
}

}  // namespace

CutPanel::CutPanel(Document& document, Choice& choice, PlanSession& planning, CutSession& session,
                   QWidget* parent)
    : QWidget(parent),
      document_(document),
      choice_(choice),
      planning_(planning),
      session_(session) {
  build();
  colourBoxes();
  connect(&Theme::instance(), &Theme::changed, this, &CutPanel::colourBoxes);
  connect(&document_, &Document::opened, this, &CutPanel::refresh);
  connect(&document_, &Document::changed, this, &CutPanel::refresh);
  connect(&choice_, &Choice::boardChosen, this, &CutPanel::refresh);
  connect(&planning_, &PlanSession::started, this, &CutPanel::refresh);
  connect(&planning_, &PlanSession::finished, this, &CutPanel::refresh);
  connect(&list_, &QListWidget::itemChanged, this, &CutPanel::ticked);
  connect(&list_, &QListWidget::currentRowChanged, this, [this] { showNext(); });
  connect(&forward_, &QPushButton::clicked, this, [this] { takeMiscut(1); });
  connect(&back_, &QPushButton::clicked, this, [this] { takeMiscut(-1); });
  connect(&planRest_, &QPushButton::clicked, &session_, &CutSession::planTheRest);
  connect(&done_, &QPushButton::clicked, this, [this] { session_.finish(choice_.board()); });
  connect(&session_, &CutSession::refused, this, [this](const QString& why) {
    refusal_.setText(inOwnUnits(why, document_.lengths()));
    refusal_.setVisible(!why.isEmpty());
  });
  refresh();
}

void CutPanel::build() {
  title_.setProperty("role", QStringLiteral("title"));
  refusal_.setProperty("role", QStringLiteral("bad"));
  trouble_.setProperty("role", QStringLiteral("bad"));
  for (QLabel* label : {&title_, &progress_, &next_, &refusal_, &trouble_, &marking_, &caution_})
    label->setWordWrap(true);
  caution_.setProperty("role", QStringLiteral("faint"));
  caution_.setObjectName(QStringLiteral("cutCaution"));
  caution_.setText(qt(sawingCaution()));
  progress_.setObjectName(QStringLiteral("cutProgress"));
  refusal_.setObjectName(QStringLiteral("cutRefusal"));
  trouble_.setObjectName(QStringLiteral("cutTrouble"));
  list_.setObjectName(QStringLiteral("cutList"));
  list_.setAccessibleName(tr("Cuts of the board in working order"));
  list_.setWordWrap(true);
  list_.setMinimumHeight(160);
  list_.installEventFilter(this);
  planRest_.setObjectName(QStringLiteral("cutPlanRest"));
  planRest_.setText(tr("Plan the &rest again"));
  done_.setObjectName(QStringLiteral("cutDone"));
  done_.setText(tr("&Finish this board"));
  done_.setToolTip(tr("Offcuts large enough to keep go back on the rack as boards."));
  marking_.setText(
      tr("A defect came to light? Mark it on the board as under Wood, then plan the rest again: "
         "what is cut stays, what no longer stands finds another place."));

  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(8);
  column->addWidget(&title_);
  column->addWidget(&progress_);
  column->addWidget(&list_, 1);
  column->addWidget(&refusal_);
  column->addWidget(&next_);
  column->addWidget(miscut_ = buildMiscut());
  column->addWidget(&trouble_);
  column->addWidget(&marking_);
  column->addWidget(&caution_);
  column->addWidget(&planRest_);
  column->addWidget(&done_);
  setMinimumWidth(290);
}

// The frame of an empty box is drawn from the window's colour, which is too dark to see at night.
void CutPanel::colourBoxes() {
  QPalette palette = QApplication::palette();
  palette.setColor(QPalette::Window, colours().faint);
  list_.setPalette(palette);
}

QWidget* CutPanel::buildMiscut() {
  by_.setObjectName(QStringLiteral("cutBy"));
  by_.setExample(3);
  by_.setAccessibleName(tr("How far off the line the cut is"));
  forward_.setObjectName(QStringLiteral("cutForward"));
  back_.setObjectName(QStringLiteral("cutBack"));
  auto* box = new QWidget;
  auto* column = new QVBoxLayout(box);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(4);
  column->addWidget(new QLabel(tr("Off the line by")));
  auto* row = new QHBoxLayout;
  row->addWidget(&by_, 1);
  row->addWidget(&back_);
  row->addWidget(&forward_);
  column->addLayout(row);
  return box;
}

// Behind another panel nothing is reckoned: what has changed is shown once it comes to the front.
void CutPanel::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  refresh();
}

void CutPanel::refresh() {
  if (!isVisible()) return;
  const Board* board = document_.rack().findBoard(choice_.board());
  refusal_.hide();
  for (QWidget* widget :
       std::initializer_list<QWidget*>{&list_, &next_, miscut_, &planRest_, &done_, &marking_})
    widget->setVisible(board != nullptr);
  trouble_.hide();
  if (!board) {
    title_.setText(tr("No board chosen"));
    progress_.clear();
    return;
  }
  title_.setText(tr("Cutting board %1").arg(qt(board->name)));
  by_.setStyle(document_.lengths());
  showCuts(*board);
  showNext();
  showTrouble(*board);
}

void CutPanel::showCuts(const Board& board) {
  showing_ = true;
  const int row = list_.currentRow();
  list_.clear();
  const Rack& rack = document_.rack();
  int made = 0;
  if (rack.plan) {
    const sheets::BoardWork work = sheets::boardWork(rack, board, document_.lengths());
    for (const sheets::CutStep& step : work.steps) {
      QString text =
          QStringLiteral("%1  %2  %3").arg(step.cut->order).arg(qt(step.what), qt(step.where));
      if (const QString freed = freedWords(work, step); !freed.isEmpty())
        text += QStringLiteral("\n     ") + freed;
      auto* item = new QListWidgetItem(text);
      item->setFlags(item->flags() | Qt::ItemIsUserCheckable);
      item->setCheckState(step.cut->made ? Qt::Checked : Qt::Unchecked);
      item->setData(kNumberRole, step.cut->order);
      list_.addItem(item);
      made += step.cut->made ? 1 : 0;
    }
  }
  const int count = list_.count();
  progress_.setText(board.cutUp    ? tr("This board has been cut up.")
                    : count == 0   ? tr("Nothing is planned on this board.")
                    : made < count ? tr("%1 of %2 cuts made.").arg(made).arg(count)
                                   : tr("All %1 cuts are made.").arg(count));
  if (count > 0) list_.setCurrentRow(std::clamp(row < 0 ? made : row, 0, count - 1));
  const bool idle = !planning_.running();
  list_.setEnabled(idle && count > 0 && !board.cutUp);
  miscut_->setEnabled(idle);
  planRest_.setEnabled(idle && rack.plan);
  done_.setEnabled(idle && count > 0 && made == count && !board.cutUp);
  showing_ = false;
}

int CutPanel::chosenNumber() const {
  const QListWidgetItem* item = list_.currentItem();
  return item ? item->data(kNumberRole).toInt() : 0;
}

// Which way "off" is, for the selected cut.
void CutPanel::showNext() {
  const Rack& rack = document_.rack();
  const Cut* cut = nullptr;
  if (rack.plan)
    for (const Cut& c : rack.plan->cuts)
      if (c.board == choice_.board() && c.order == chosenNumber()) cut = &c;
  miscut_->setVisible(cut && !cut->made);
  next_.setVisible(cut != nullptr);
  if (!cut) return;
  const Point d = cut->line.to - cut->line.from;
  const bool across = std::abs(d.y) > std::abs(d.x);
  forward_.setText(across ? tr("to the right") : tr("away"));
  back_.setText(across ? tr("to the left") : tr("nearer"));
  next_.setText(cut->made ? tr("Cut %1 is made. Untick it if that was a slip.").arg(cut->order)
                          : tr("Cut %1: tick it (Space) once it is made.").arg(cut->order));
}

void CutPanel::showTrouble(const Board& board) {
  const Rack& rack = document_.rack();
  QStringList why =
      rack.plan && !board.cutUp ? placementBreaches(rack, *rack.plan, board.id) : QStringList();
  // What this board's own breaches do not say yet.
  if (const QString words = planStateWords(rack); why.isEmpty() && !words.isEmpty()) why << words;
  trouble_.setText(inOwnUnits(why.join(QLatin1Char('\n')), document_.lengths()));
  trouble_.setVisible(!why.isEmpty());
  planRest_.setProperty("main", !why.isEmpty());
  planRest_.style()->unpolish(&planRest_);
  planRest_.style()->polish(&planRest_);
}

void CutPanel::ticked(QListWidgetItem* item) {
  if (showing_) return;
  const int row = list_.row(item);
  const bool made = item->checkState() == Qt::Checked;
  // The list is built anew by the change, so nothing is asked of the item afterwards.
  if (!session_.setMade(choice_.board(), item->data(kNumberRole).toInt(), made)) {
    const QString why = refusal_.text();
    const Board* board = document_.rack().findBoard(choice_.board());
    if (board) showCuts(*board);
    list_.setCurrentRow(row);
    refusal_.setText(why);
    refusal_.setVisible(!why.isEmpty());
    return;
  }
  if (made && row + 1 < list_.count()) list_.setCurrentRow(row + 1);
}

void CutPanel::takeMiscut(double sign) {
  const auto mm = parseLengthMm(plain(by_.text().trimmed()), document_.lengths().system);
  if (!mm) {
    refusal_.setText(qt(mm.error().message));
    refusal_.show();
    return;
  }
  session_.miscut(choice_.board(), chosenNumber(), sign * *mm);
  by_.setValue(std::nullopt);
}

// Enter ticks as Space does: gloves find it more easily.
bool CutPanel::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &list_ && event->type() == QEvent::KeyPress) {
    const auto key = static_cast<QKeyEvent*>(event)->key();
    QListWidgetItem* item = list_.currentItem();
    if (item && (key == Qt::Key_Return || key == Qt::Key_Enter)) {
      item->setCheckState(item->checkState() == Qt::Checked ? Qt::Unchecked : Qt::Checked);
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace rackside
