// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/board_page.h"

#include <QButtonGroup>
#include <QHBoxLayout>
#include <QLabel>
#include <QScrollArea>
#include <QSplitter>
#include <QVBoxLayout>

#include "app/window/look/mark_look.h"
#include "app/window/look/tool_icons.h"
#include "app/window/pages/flow_layout.h"
#include "app/window/panels/board_panel.h"
#include "app/window/panels/mark_panel.h"
#include "core/wood/mark_traits.h"

namespace rackside {

namespace {

QFrame* upright() {
  auto* rule = new QFrame;
  rule->setProperty("role", QStringLiteral("rule"));
  rule->setFixedWidth(1);
  rule->setMinimumHeight(22);
  return rule;
}

}  // namespace

BoardPage::BoardPage(Document& document, Choice& choice, QWidget* parent)
    : QWidget(parent),
      document_(document),
      choice_(choice),
      view_(document, choice),
      select_(view_),
      area_(view_, DrawTool::Form::area),
      round_(view_, DrawTool::Form::round),
      line_(view_, DrawTool::Form::line),
      measure_(view_),
      outline_(view_),
      toolGroup_(this) {
  auto* middle = new QWidget;
  auto* column = new QVBoxLayout(middle);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(buildToolRow());
  column->addWidget(&view_, 1);
  sides_.addWidget(buildWoodPanel());
  auto* split = new QSplitter;
  split->addWidget(middle);
  split->addWidget(&sides_);
  split->setStretchFactor(0, 1);
  split->setStretchFactor(1, 0);
  split->setCollapsible(0, false);
  split->setSizes({900, 300});
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(split);
  connect(&choice_, &Choice::faceChanged, this, &BoardPage::showFace);
  for (DrawTool* tool : {&area_, &round_, &line_})
    connect(tool, &DrawTool::drawn, this, [this] { view_.showHint(); });
  setKind(MarkKind::knot);
  showFace();
  take(&select_);
}

BoardPage::~BoardPage() {
  view_.setTool(nullptr);
}

QAction* BoardPage::viewAction(const QString& text, const QString& key) {
  auto* action = new QAction(text, this);
  action->setShortcut(QKeySequence(key));
  // Letters act only where the board is, so that they can be typed everywhere else.
  action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
  action->setToolTip(key.isEmpty() ? text : QStringLiteral("%1 (%2)").arg(text, key));
  addAction(action);
  return action;
}

QAction* BoardPage::addTool(Tool* tool, const QString& key, Side side, bool both) {
  QAction* action = viewAction(tool->name(), key);
  action->setCheckable(true);
  action->setIcon(toolIcon(QLatin1String(tool->id())));
  toolGroup_.addAction(action);
  auto* button = new QToolButton;
  button->setDefaultAction(action);
  button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  button->setObjectName(QStringLiteral("tool_") + QLatin1String(tool->id()));
  tools_.push_back({tool, action, button, side, both});
  connect(action, &QAction::triggered, this, [this, tool] { take(tool); });
  return action;
}

QWidget* BoardPage::buildToolRow() {
  toolRow_ = new QWidget;
  auto* flow = new FlowLayout(toolRow_);
  flow->setContentsMargins(10, 6, 10, 6);
  addTool(&select_, QStringLiteral("1"), Side::wood, true);
  addTool(&area_, QStringLiteral("2"), Side::wood, false);
  addTool(&round_, QStringLiteral("3"), Side::wood, false);
  addTool(&line_, QStringLiteral("4"), Side::wood, false);
  for (const ToolEntry& entry : tools_) flow->addWidget(entry.button);
  buildKindMenu();
  flow->addWidget(&kindButton_);
  suggest_ = new SuggestRow(document_, choice_, [this](const QString& text, const QString& key) {
    return viewAction(text, key);
  });
  flow->addWidget(suggest_);
  addTool(&outline_, QStringLiteral("5"), Side::wood, false);
  flow->addWidget(tools_.back().button);
  addTool(&measure_, QStringLiteral("6"), Side::wood, true);
  flow->addWidget(tools_.back().button);
  flow->addWidget(upright());
  flow->addWidget(buildFaceRow());
  return toolRow_;
}

QWidget* BoardPage::buildFaceRow() {
  auto* box = new QWidget;
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(4);
  faceA_.setText(tr("Face A"));
  faceB_.setText(tr("Face B"));
  auto* faces = new QButtonGroup(this);
  for (QToolButton* button : {&faceA_, &faceB_}) {
    button->setCheckable(true);
    faces->addButton(button);
    row->addWidget(button);
  }
  faceA_.setToolTip(tr("F goes to the other face"));
  faceB_.setToolTip(tr("F goes to the other face"));
  connect(&faceA_, &QToolButton::clicked, this, [this] { choice_.setFace(Face::A); });
  connect(&faceB_, &QToolButton::clicked, this, [this] { choice_.setFace(Face::B); });
  flip_ = viewAction(tr("Other face"), QStringLiteral("F"));
  connect(flip_, &QAction::triggered, this, [this] { choice_.setFace(otherFace(choice_.face())); });

  QAction* turn = viewAction(tr("Flip view"), QStringLiteral("T"));
  turn->setCheckable(true);
  turn->setToolTip(
      tr("Left and right change places, as when the board is rolled over end for end "
         "(T). Measures and marks stay where they are in the wood."));
  turned_.setDefaultAction(turn);
  turned_.setText(tr("Flipped"));
  turn->setIconText(tr("Flipped"));
  connect(turn, &QAction::toggled, this, [this](bool on) { view_.turnOver(on); });
  row->addWidget(&turned_);
  buildLayerMenu();
  row->addWidget(&layerButton_);
  const auto zoomButton = [&](const QString& text, const QString& tip, auto act) {
    auto* button = new QToolButton;
    button->setText(text);
    button->setToolTip(tip);
    connect(button, &QToolButton::clicked, this, act);
    row->addWidget(button);
  };
  zoomButton(QStringLiteral("−"), tr("Zoom out (−)"), [this] { view_.zoom(1 / 1.25); });
  zoomButton(QStringLiteral("+"), tr("Zoom in (+)"), [this] { view_.zoom(1.25); });
  zoomButton(tr("Fit"), tr("Fit the board (0)"), [this] { view_.fitBoard(); });
  return box;
}

void BoardPage::buildKindMenu() {
  kindButton_.setPopupMode(QToolButton::InstantPopup);
  kindButton_.setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
  kindButton_.setMenu(&kindMenu_);
  kindButton_.setObjectName(QStringLiteral("kindButton"));
  kindButton_.setToolTip(tr("The kind of mark to draw (K)"));
  for (const MarkKind kind : allMarkKinds()) {
    const MarkLook& look = markLook(kind);
    QAction* action = kindMenu_.addAction(markSwatch(kind), look.label);
    action->setToolTip(look.meaning);
    connect(action, &QAction::triggered, this, [this, kind] { setKind(kind); });
  }
  kindMenu_.setToolTipsVisible(true);
  QAction* open = viewAction(tr("Kind of mark"), QStringLiteral("K"));
  connect(open, &QAction::triggered, this, [this] { kindButton_.showMenu(); });
}

void BoardPage::setKind(MarkKind kind) {
  for (DrawTool* tool : {&area_, &round_, &line_}) tool->setKind(kind);
  kindButton_.setIcon(markSwatch(kind));
  kindButton_.setText(markLook(kind).label);
  // A kind is chosen in order to draw it: its usual form comes to hand.
  if (view_.tool() != &select_ && view_.tool() != &measure_) return;
  if (isVisible())
    take(traitsOf(kind).form == MarkForm::line    ? &line_
         : traitsOf(kind).form == MarkForm::round ? &round_
                                                  : &area_);
}

void BoardPage::buildLayerMenu() {
  layerButton_.setText(tr("Show"));
  layerButton_.setPopupMode(QToolButton::InstantPopup);
  layerButton_.setMenu(&layerMenu_);
  struct Entry {
    QString text;
    QString key;
    bool FaceLayers::*layer;
  };
  const Entry entries[] = {{tr("Picture"), QStringLiteral("Shift+P"), &FaceLayers::picture},
                           {tr("Outline"), QStringLiteral("Shift+O"), &FaceLayers::outline},
                           {tr("Marks"), QStringLiteral("Shift+M"), &FaceLayers::marks},
                           {tr("Planned parts"), QStringLiteral("Shift+A"), &FaceLayers::pieces},
                           {tr("Cuts"), QStringLiteral("Shift+C"), &FaceLayers::cuts}};
  size_t at = 0;
  for (const Entry& entry : entries) {
    QAction* action = viewAction(entry.text, entry.key);
    action->setCheckable(true);
    action->setChecked(true);
    layerMenu_.addAction(action);
    layerActions_[at++] = action;
    connect(action, &QAction::toggled, this, [this, layer = entry.layer](bool on) {
      FaceLayers layers = view_.layers();
      layers.*layer = on;
      view_.setLayers(layers);
    });
  }
}

QWidget* BoardPage::buildWoodPanel() {
  auto* inside = new QWidget;
  auto* column = new QVBoxLayout(inside);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(new MarkPanel(document_, choice_));
  auto* rule = new QFrame;
  rule->setProperty("role", QStringLiteral("rule"));
  rule->setFixedHeight(1);
  column->addWidget(rule);
  column->addWidget(new BoardPanel(document_, choice_));
  column->addStretch(1);
  auto* scroll = new QScrollArea;
  scroll->setWidget(inside);
  scroll->setWidgetResizable(true);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setMinimumWidth(270);
  return scroll;
}

void BoardPage::setPlanPanel(QWidget* panel) {
  sides_.addWidget(panel);
}

void BoardPage::setCutPanel(QWidget* panel) {
  sides_.addWidget(panel);
}

void BoardPage::addPlanTool(Tool* tool, const QKeySequence& key) {
  addTool(tool, key.toString(), Side::plan, false);
  static_cast<FlowLayout*>(toolRow_->layout())->insertWidget(0, tools_.back().button);
}

void BoardPage::setSide(Side side) {
  side_ = side;
  sides_.setCurrentIndex(std::min(static_cast<int>(side), sides_.count() - 1));
  Tool* first = nullptr;
  // On cut day defects are marked as under Wood; the outline is what it is.
  const bool marking = side != Side::plan;
  for (const ToolEntry& entry : tools_) {
    const bool onCutDay = side == Side::cut && entry.side == Side::wood && entry.tool != &outline_;
    const bool here = entry.both || entry.side == side || onCutDay;
    entry.button->setVisible(here);
    entry.action->setEnabled(here);
    if (here && (!first || entry.side == Side::plan)) first = entry.tool;
  }
  kindButton_.setVisible(marking);
  suggest_->setVisible(side == Side::wood);
  for (const size_t layer : {size_t{3}, size_t{4}})
    layerActions_[layer]->setChecked(side != Side::wood);
  if (first) take(first);
}

void BoardPage::take(Tool* tool) {
  for (const ToolEntry& entry : tools_)
    if (entry.tool == tool) entry.action->setChecked(true);
  view_.setTool(tool);
}

void BoardPage::showFace() {
  faceA_.setChecked(choice_.face() == Face::A);
  faceB_.setChecked(choice_.face() == Face::B);
}

}  // namespace rackside
