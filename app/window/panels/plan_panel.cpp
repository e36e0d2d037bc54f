// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/plan_panel.h"

#include <QHBoxLayout>
#include <QScrollArea>
#include <QVBoxLayout>
#include <map>

#include "app/window/document/apply_remedy.h"
#include "app/window/document/plan_aim.h"
#include "app/window/look/text.h"
#include "app/window/panels/plan_notes.h"
#include "core/document/edits.h"
#include "core/document/pinned.h"

namespace rackside {

namespace {

const QString kDoThat = QStringLiteral("do:");

const Piece* findPiece(const Plan* plan, const PieceId& id) {
  if (!plan) return nullptr;
  for (const Piece& piece : plan->pieces)
    if (piece.id == id) return &piece;
  return nullptr;
}

QString sentence(QString text) {
  if (!text.isEmpty() && !text.endsWith(QLatin1Char('.'))) text += QLatin1Char('.');
  return text;
}

QString partName(const Rack& rack, const PartId& id, int copy) {
  const Part* part = rack.findPart(id);
  if (!part) return QObject::tr("part deleted");
  return part->copies > 1
             ? QStringLiteral("%1 %2/%3").arg(qt(part->name)).arg(copy).arg(part->copies)
             : qt(part->name);
}

// A list as tall as its rows, so that the panel scrolls as one.
void fitHeight(QListWidget& list) {
  int height = 2 * list.frameWidth() + 2;
  for (int i = 0; i < list.count(); ++i) height += list.sizeHintForRow(i);
  list.setFixedHeight(std::min(height, 420));
}

}  // namespace

PlanPanel::PlanPanel(Document& document, Choice& choice, PlanSession& session, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice), session_(session) {
  build();
  connect(&document_, &Document::opened, this, &PlanPanel::refresh);
  connect(&document_, &Document::changed, this, &PlanPanel::refresh);
  connect(&choice_, &Choice::thingChosen, this, &PlanPanel::refresh);
  connect(&choice_, &Choice::boardChosen, this, &PlanPanel::refresh);
  connect(&session_, &PlanSession::shownChanged, this, &PlanPanel::refresh);
  connect(&session_, &PlanSession::progress, this, &PlanPanel::showProgress);
  connect(&session_, &PlanSession::started, this, [this] {
    failure_.clear();
    refresh();
  });
  connect(&session_, &PlanSession::finished, this, &PlanPanel::refresh);
  connect(&session_, &PlanSession::failed, this, [this](const QString& why) {
    failure_.setText(why);
    refresh();
  });
  connect(&start_, &QPushButton::clicked, this,
          [this] { session_.running() ? session_.stop() : session_.start(seconds_.value()); });
  connect(&boards_, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
    if (item && !showing_) choice_.setBoard(BoardId{plain(item->data(Qt::UserRole).toString())});
  });
  for (QLabel* label : {&unplaced_, &spares_.text, &panels_.text, &remarks_.text})
    connect(label, &QLabel::linkActivated, this, [this](const QString& link) { follow(link); });
  connect(&pinned_, &QCheckBox::clicked, this,
          [this](bool on) { session_.setPinned(choice_.piece(), on); });
  refresh();
}

void PlanPanel::buildAim() {
  for (const PlanAim aim : kPlanAims) aim_.addItem(label(aim), static_cast<int>(aim));
  aim_.setObjectName(QStringLiteral("planAim"));
  aim_.setAccessibleName(tr("What the plan aims at"));
  aimReason_.setWordWrap(true);
  aimReason_.setProperty("role", QStringLiteral("faint"));
  compare_.setText(tr("&Compare the aims"));
  compare_.setObjectName(QStringLiteral("planCompare"));
  compare_.setToolTip(tr("A plan by each aim, side by side in figures; you choose."));
  comparedHead_.setText(tr("One plan by each aim"));
  comparedHead_.setProperty("role", QStringLiteral("group"));
  compared_.setWordWrap(true);
  compared_.setObjectName(QStringLiteral("planCompared"));
  compared_.setTextInteractionFlags(Qt::TextBrowserInteraction);
  connect(&compare_, &QPushButton::clicked, this, [this] { session_.compare(seconds_.value()); });
  connect(&compared_, &QLabel::linkActivated, this,
          [this](const QString& row) { session_.take(row.toULongLong()); });
  connect(&aim_, &QComboBox::activated, this, [this] {
    const auto aim = static_cast<PlanAim>(aim_.currentData().toInt());
    if (aim != planAim(document_.rack().shop))
      (void)document_.perform(changeShop(withPlanAim(document_.rack().shop, aim)));
  });
}

void PlanPanel::build() {
  buildAim();
  cautions_.setWordWrap(true);
  cautions_.setProperty("role", QStringLiteral("warn"));
  cautions_.setObjectName(QStringLiteral("planCautions"));
  start_.setObjectName(QStringLiteral("planStart"));
  start_.setProperty("main", true);
  seconds_.setRange(1, 600);
  seconds_.setValue(10);
  seconds_.setSuffix(tr(" s"));
  seconds_.setToolTip(
      tr("How long to search. A longer search may find a better plan; the best so "
         "far can be kept at any time."));
  seconds_.setAccessibleName(tr("Seconds to search"));
  seconds_.setObjectName(QStringLiteral("planSeconds"));
  progress_.setRange(0, 1000);
  progress_.setTextVisible(false);
  for (QLabel* label : {&stage_, &figures_, &failure_, &piece_, &why_}) label->setWordWrap(true);
  stage_.setProperty("role", QStringLiteral("faint"));
  failure_.setProperty("role", QStringLiteral("bad"));
  why_.setProperty("role", QStringLiteral("bad"));
  figures_.setObjectName(QStringLiteral("planFigures"));
  boardsHead_.setProperty("role", QStringLiteral("group"));
  unplacedHead_.setProperty("role", QStringLiteral("group"));
  piece_.setProperty("role", QStringLiteral("group"));
  pinned_.setText(tr("Pinned here (N)"));
  unplaced_.setWordWrap(true);
  unplaced_.setTextInteractionFlags(Qt::TextBrowserInteraction);
  unplaced_.setObjectName(QStringLiteral("planUnplaced"));
  boards_.setObjectName(QStringLiteral("planBoards"));
  boards_.setAccessibleName(tr("Boards of the plan"));
  unplaced_.setAccessibleName(tr("Parts not placed"));

  const std::pair<Notes*, const char*> notes[] = {{&score_, "planScore"},
                                                  {&spares_, "planSpares"},
                                                  {&panels_, "planPanels"},
                                                  {&remarks_, "planRemarks"}};
  for (const auto& [note, objectName] : notes) {
    note->head.setProperty("role", QStringLiteral("group"));
    note->text.setWordWrap(true);
    note->text.setTextInteractionFlags(Qt::TextBrowserInteraction);
    note->text.setObjectName(QLatin1String(objectName));
  }
  score_.head.setText(tr("What this plan weighs"));
  spares_.head.setText(tr("Spare stock for the parts that show"));
  spares_.head.setToolTip(tr("Cut these parts first, while the spare wood is there."));
  panels_.head.setText(tr("Panels, from the near edge"));
  remarks_.head.setText(tr("Warnings"));

  auto* inside = new QWidget;
  auto* column = new QVBoxLayout(inside);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(8);
  auto* row = new QHBoxLayout;
  row->addWidget(&start_, 1);
  row->addWidget(&seconds_);
  auto* aimRow = new QHBoxLayout;
  auto* aimLabel = new QLabel(tr("&Aim"));
  aimLabel->setBuddy(&aim_);
  aimRow->addWidget(aimLabel);
  aimRow->addWidget(&aim_, 1);
  column->addLayout(aimRow);
  column->addWidget(&aimReason_);
  column->addLayout(row);
  column->addWidget(&compare_);
  for (QWidget* widget : std::initializer_list<QWidget*>{
           &progress_,     &stage_,       &failure_,     &cautions_,   &figures_,
           &comparedHead_, &compared_,    &piece_,       &why_,        &pinned_,
           &unplacedHead_, &unplaced_,    &boardsHead_,  &boards_,     &panels_.head,
           &panels_.text,  &spares_.head, &spares_.text, &score_.head, &score_.text,
           &remarks_.head, &remarks_.text})
    column->addWidget(widget);
  column->addStretch(1);
  auto* scroll = new QScrollArea;
  scroll->setWidget(inside);
  scroll->setWidgetResizable(true);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addWidget(scroll);
  setMinimumWidth(270);
}

void PlanPanel::refresh() {
  showing_ = true;
  const Plan* plan = session_.shown();
  const bool running = session_.running();
  start_.setText(running ? tr("&Stop, keep the best so far")
                 : plan  ? tr("&Plan again")
                         : tr("&Plan the parts"));
  start_.setEnabled(running ||
                    (!document_.rack().parts.empty() && !document_.rack().boards.empty()));
  seconds_.setEnabled(!running);
  aim_.setEnabled(!running);
  compare_.setEnabled(!running && start_.isEnabled());
  showCompared();
  const PlanAim aim = planAim(document_.rack().shop);
  aim_.setCurrentIndex(aim_.findData(static_cast<int>(aim)));
  aimReason_.setText(reason(aim));
  const QStringList cautions =
      plan && !running ? planCautions(document_.rack(), *plan) : QStringList();
  cautions_.setText(cautions.join(QLatin1Char('\n')));
  cautions_.setVisible(!cautions.isEmpty());
  progress_.setVisible(running);
  stage_.setVisible(running);
  showProgress();
  failure_.setVisible(!failure_.text().isEmpty());
  showFigures(plan);
  showPiece(plan);
  showUnplaced(plan);
  showBoards(plan);
  showNotes(plan);
  showing_ = false;
}

void PlanPanel::showProgress() {
  progress_.setValue(static_cast<int>(session_.fraction() * 1000));
  stage_.setText(session_.stage());
}

void PlanPanel::showFigures(const Plan* plan) {
  if (!plan) {
    figures_.setText(document_.rack().parts.empty()
                         ? tr("There are no parts yet: type or paste them under Parts (Alt+3).")
                         : tr("No plan yet. Planning places the parts on the boards, clear of what "
                              "you marked."));
    return;
  }
  const PlanFigures f = figuresOf(document_.rack(), *plan);
  QString text = session_.running() ? tr("<b>Best so far.</b> ") : QString();
  text += placedWords(f) + QStringLiteral("<br>") + figuresWords(f);
  if (plan->bound > 0) {
    const double gap = std::max(0.0, plan->gap()) * 100;
    text += gap < 0.05 ? tr("<br>This is the best plan for these boards.")
                       : tr("<br>No plan for these boards can be more than %1 % better.")
                             .arg(100 * (plan->bound / std::max(plan->value, 1e-9) - 1), 0, 'f', 1);
  }
  if (!session_.running() && !plan->stopped.empty())
    text +=
        QStringLiteral("<br>") +
        tr("The search ended after %1 s: %2.").arg(plan->seconds, 0, 'f', 1).arg(qt(plan->stopped));
  figures_.setText(text);
}

// One row a plan: pieces, boards, cuts, yield, cost, poorest look.
void PlanPanel::showCompared() {
  const auto& plans = session_.compared();
  comparedHead_.setVisible(!plans.empty());
  compared_.setVisible(!plans.empty());
  QString html = QStringLiteral("<table cellpadding=\"3\">");
  for (size_t i = 0; i < plans.size(); ++i)
    html +=
        QStringLiteral("<tr><td><b>%1</b><br>%2 %3<br><a href=\"%4\">%5</a></td></tr>")
            .arg(label(plans[i].aim), placedWords(plans[i].figures), figuresWords(plans[i].figures))
            .arg(i)
            .arg(tr("Use this plan"));
  compared_.setText(html + QStringLiteral("</table>"));
}

void PlanPanel::showNotes(const Plan* plan) {
  const auto put = [](Notes& notes, const QString& html) {
    if (notes.text.text() != html) notes.text.setText(html);
    notes.head.setVisible(!html.isEmpty());
    notes.text.setVisible(!html.isEmpty());
  };
  // Of the plan that is kept; while the search goes on it would change under the reading eye.
  if (session_.running()) plan = nullptr;
  const Rack& rack = document_.rack();
  put(score_, plan ? scoreNotes(*plan) : QString());
  put(spares_, plan ? spareNotes(rack, *plan, document_.lengths()) : QString());
  put(panels_, plan ? panelNotes(rack, *plan, document_.lengths()) : QString());
  put(remarks_, plan ? remarkNotes(rack, *plan, document_.lengths()) : QString());
}

void PlanPanel::showPiece(const Plan* plan) {
  const Piece* piece = findPiece(plan, choice_.piece());
  for (QWidget* widget : std::initializer_list<QWidget*>{&piece_, &why_, &pinned_})
    widget->setVisible(piece != nullptr);
  if (!piece) return;
  const LengthStyle style = document_.lengths();
  piece_.setText(tr("Selected: %1, %2 × %3")
                     .arg(partName(document_.rack(), piece->part, piece->copy),
                          lengthText(piece->lengthMm, style), lengthText(piece->widthMm, style)));
  pinned_.setChecked(isPinned(*plan, piece->id));
  pinned_.setEnabled(!session_.running());
  const auto& trial = session_.trial();
  const bool forbidden = trial && trial->piece == piece->id && !trial->legal();
  why_.setText(forbidden ? inOwnUnits(trial->why.join(QLatin1Char('\n')), style) : QString());
  why_.setVisible(forbidden);
}

void PlanPanel::showUnplaced(const Plan* plan) {
  const size_t count = plan ? plan->unplaced.size() : 0;
  unplacedHead_.setVisible(count > 0);
  unplaced_.setVisible(count > 0);
  unplacedHead_.setText(tr("Not placed (%1)").arg(count));
  if (!plan) return;
  const Rack& rack = document_.rack();
  QString html;
  for (const Unplaced& u : plan->unplaced) {
    html += QStringLiteral("<p><b>%1</b>: %2")
                .arg(partName(rack, u.part, u.copy).toHtmlEscaped(),
                     sentence(inOwnUnits(qt(u.why), document_.lengths())).toHtmlEscaped());
    if (u.nearest && u.nearest->shortByMm > 0) {
      const Board* board = rack.findBoard(u.nearest->board);
      html +=
          tr("<br>Nearest is <a href=\"%1\">board %2</a>, short by %3 in %4.")
              .arg(qt(u.nearest->board.text), board ? qt(board->name) : QString(),
                   lengthText(u.nearest->shortByMm, document_.lengths()), qt(u.nearest->direction));
    }
    for (const Unplaced::Remedy& r : u.remedies) {
      const Board* board = rack.findBoard(r.board);
      const QString length = lengthText(r.byMm, document_.lengths());
      html += tr("<br>Would fit: %1 (board %2).")
                  .arg(qt(r.words).replace(QStringLiteral("{}"), length).toHtmlEscaped(),
                       board ? qt(board->name).toHtmlEscaped() : QString());
      html += QStringLiteral(" <a href=\"%1%2/%3\">%4</a>")
                  .arg(kDoThat)
                  .arg(&u - plan->unplaced.data())
                  .arg(&r - u.remedies.data())
                  .arg(tr("Do that"));
    }
    html += QStringLiteral("</p>");
  }
  unplaced_.setText(html);
}

// To a board, or a remedy that is to be done: then the plan is made anew.
void PlanPanel::follow(const QString& link) {
  if (!link.startsWith(kDoThat)) return choice_.setBoard(BoardId{plain(link)});
  const Plan* plan = session_.shown();
  const auto at = link.mid(kDoThat.size()).split(QLatin1Char('/'));
  if (!plan || session_.running() || at.size() != 2) return;
  const size_t which = at[0].toULongLong(), remedy = at[1].toULongLong();
  if (which >= plan->unplaced.size() || remedy >= plan->unplaced[which].remedies.size()) return;
  const Unplaced& unplaced = plan->unplaced[which];
  auto edit = editFor(document_.rack(), unplaced.part, unplaced.remedies[remedy]);
  if (edit && !document_.perform(std::move(edit))) return;
  session_.start(seconds_.value());
}

void PlanPanel::showBoards(const Plan* plan) {
  std::map<BoardId, int> pieces;
  if (plan)
    for (const Piece& piece : plan->pieces) ++pieces[piece.board];
  boardsHead_.setVisible(!pieces.empty());
  boards_.setVisible(!pieces.empty());
  boardsHead_.setText(tr("Boards used (%1)").arg(pieces.size()));
  boards_.clear();
  for (const Board& board : document_.rack().boards) {
    const auto found = pieces.find(board.id);
    if (found == pieces.end()) continue;
    auto* item = new QListWidgetItem(
        found->second == 1 ? tr("Board %1: 1 piece").arg(qt(board.name))
                           : tr("Board %1: %2 pieces").arg(qt(board.name)).arg(found->second));
    item->setData(Qt::UserRole, qt(board.id.text));
    boards_.addItem(item);
    if (board.id == choice_.board()) boards_.setCurrentItem(item);
  }
  fitHeight(boards_);
}

}  // namespace rackside
