// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/suggest_row.h"

#include <QActionGroup>
#include <algorithm>

#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/geometry/polygon.h"

namespace rackside {

namespace {

double leftOf(const MarkShape& shape) {
  double left = 1e9;
  for (const Polygon& p : polygonsOf(shape)) left = std::min(left, bounds(p).x0);
  return left;
}

}  // namespace

SuggestRow::SuggestRow(Document& document, Choice& choice, const ActionMaker& make, QWidget* parent)
    : QToolButton(parent), document_(document), choice_(choice), session_(document) {
  setObjectName(QStringLiteral("suggestButton"));
  setText(tr("Suggestions"));
  setPopupMode(QToolButton::InstantPopup);
  setMenu(&menu_);
  buildMenu(make);
  connect(&session_, &SuggestSession::started, this, &SuggestRow::refresh);
  connect(&session_, &SuggestSession::finished, this, [this](int count) {
    refresh();
    emit said(count == 0   ? tr("Nothing to suggest on this board.")
              : count == 1 ? tr("1 suggestion: Y accepts it, N refuses it.")
                           : tr("%1 suggestions: Y accepts one, N refuses it.").arg(count),
              false);
    const auto ids = open();
    if (!ids.empty()) choice_.setMark(ids.front());
  });
  connect(&session_, &SuggestSession::failed, this, [this](const QString& why) {
    refresh();
    emit said(why, true);
  });
  connect(&document_, &Document::opened, this, &SuggestRow::refresh);
  connect(&document_, &Document::changed, this, &SuggestRow::refresh);
  connect(&choice_, &Choice::boardChosen, this, &SuggestRow::refresh);
  connect(&choice_, &Choice::faceChanged, this, &SuggestRow::refresh);
  refresh();
}

void SuggestRow::buildMenu(const ActionMaker& make) {
  look_ = make(tr("Look for marks on this board"), QStringLiteral("G"));
  accept_ = make(tr("Accept the selected suggestion"), QStringLiteral("Y"));
  refuse_ = make(tr("Refuse the selected suggestion"), QStringLiteral("N"));
  takeSure_ = make(QString(), QStringLiteral("Shift+Y"));
  lookAll_ = make(tr("Look for marks on all boards"), QStringLiteral("Shift+G"));
  for (QAction* action : {look_, lookAll_, accept_, refuse_, takeSure_}) menu_.addAction(action);
  connect(look_, &QAction::triggered, this, &SuggestRow::look);
  connect(lookAll_, &QAction::triggered, this, [this] {
    SuggestOptions options;
    options.crayon = crayon_;
    session_.lookAtAll(options);
  });
  connect(accept_, &QAction::triggered, this, [this] { settle(true); });
  connect(refuse_, &QAction::triggered, this, [this] { settle(false); });
  connect(takeSure_, &QAction::triggered, this, &SuggestRow::takeSure);
  menu_.addSeparator();
  buildThresholdMenu();
  buildCrayonMenu();
}

void SuggestRow::buildThresholdMenu() {
  QMenu* sure = menu_.addMenu(tr("How sure, to accept all"));
  auto* group = new QActionGroup(this);
  for (const int percent : {95, 90, 80, 70, 60}) {
    QAction* action = sure->addAction(tr("%1 % or more").arg(percent));
    action->setCheckable(true);
    action->setChecked(percent == 80);
    group->addAction(action);
    connect(action, &QAction::triggered, this, [this, percent] {
      sureEnough_ = percent / 100.0;
      refresh();
    });
  }
}

void SuggestRow::buildCrayonMenu() {
  QMenu* crayon = menu_.addMenu(tr("Crayon strokes to read"));
  auto* group = new QActionGroup(this);
  const std::pair<QString, std::optional<CrayonColour>> colours[] = {
      {tr("None"), std::nullopt},
      {tr("White"), CrayonColour::white},
      {tr("Yellow"), CrayonColour::yellow},
      {tr("Red"), CrayonColour::red},
      {tr("Blue"), CrayonColour::blue}};
  for (const auto& [text, colour] : colours) {
    QAction* action = crayon->addAction(text);
    action->setCheckable(true);
    action->setChecked(!colour);
    group->addAction(action);
    connect(action, &QAction::triggered, this, [this, c = colour] { crayon_ = c; });
  }
}

void SuggestRow::look() {
  if (session_.running()) return session_.stop();
  const Board* here = board();
  if (!here || here->pictures.empty())
    return emit said(tr("This board has no picture to look at: measure it first."), true);
  SuggestOptions options;
  options.crayon = crayon_;
  session_.look(here->id, options);
}

std::vector<MarkId> SuggestRow::open() const {
  std::vector<std::pair<double, MarkId>> found;
  if (const Board* here = board())
    for (const Mark& m : here->marks)
      if (!m.confirmed && m.on(choice_.face()))
        found.emplace_back(leftOf(*m.on(choice_.face())), m.id);
  std::stable_sort(found.begin(), found.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<MarkId> ids;
  ids.reserve(found.size());
  for (auto& [left, id] : found) ids.push_back(std::move(id));
  return ids;
}

// The one in hand, or the first along the board; then the next one comes to hand.
void SuggestRow::settle(bool accept) {
  const std::vector<MarkId> ids = open();
  if (ids.empty())
    return emit said(tr("There is no suggestion on this face. G looks for some."), false);
  auto at = std::find(ids.begin(), ids.end(), choice_.mark());
  if (at == ids.end()) return choice_.setMark(ids.front());  // show it before it is settled
  const MarkId id = *at;
  const bool last = at + 1 == ids.end();
  const MarkId next = !last ? *(at + 1) : ids.size() > 1 ? ids.front() : MarkId{};
  const BoardId here = choice_.board();
  if (!accept) choice_.setMark({});
  if (document_.perform(accept ? acceptMarks(here, {id}) : refuseMarks(here, {id})))
    choice_.setMark(next);
}

void SuggestRow::takeSure() {
  const Board* here = board();
  std::vector<MarkId> ids;
  if (here)
    for (const Mark& m : here->marks)
      if (!m.confirmed && m.confidence >= sureEnough_) ids.push_back(m.id);
  if (ids.empty())
    return emit said(tr("No suggestion is at least %1 % sure.").arg(qRound(100 * sureEnough_)),
                     false);
  const auto count = static_cast<int>(ids.size());
  if (document_.perform(acceptMarks(here->id, std::move(ids))))
    emit said(tr("%1 accepted. Ctrl+Z takes them back.").arg(count), false);
}

void SuggestRow::refresh() {
  const Board* here = board();
  size_t waiting = 0;
  if (here)
    waiting = static_cast<size_t>(std::count_if(here->marks.begin(), here->marks.end(),
                                                [](const Mark& m) { return !m.confirmed; }));
  const int more = session_.waiting();
  setText(session_.running() && more > 0 ? tr("Looking … %1 boards to go").arg(more + 1)
          : session_.running()           ? tr("Looking …")
          : waiting > 0                  ? tr("Suggestions (%1)").arg(waiting)
                                         : tr("Suggestions"));
  look_->setText(session_.running() ? tr("Stop looking") : tr("Look for marks on this board"));
  takeSure_->setText(tr("Accept all above, %1 % or more").arg(qRound(100 * sureEnough_)));
  lookAll_->setEnabled(!session_.running());
  accept_->setEnabled(waiting > 0);
  refuse_->setEnabled(waiting > 0);
  takeSure_->setEnabled(waiting > 0);
}

}  // namespace rackside
