// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/mark_panel.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QVBoxLayout>

#include "app/window/look/mark_look.h"
#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/geometry/polygon.h"
#include "core/wood/looked_over.h"
#include "core/wood/mark_traits.h"

namespace rackside {

MarkPanel::MarkPanel(Document& document, Choice& choice, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice) {
  build();
  connectFields();
  connect(&document_, &Document::opened, this, &MarkPanel::refresh);
  connect(&document_, &Document::changed, this, &MarkPanel::refresh);
  connect(&choice_, &Choice::boardChosen, this, &MarkPanel::refresh);
  connect(&choice_, &Choice::thingChosen, this, &MarkPanel::refresh);
  refresh();
}

void MarkPanel::build() {
  head_.setProperty("role", QStringLiteral("group"));
  meaning_.setProperty("role", QStringLiteral("faint"));
  mistake_.setProperty("role", QStringLiteral("bad"));
  for (QLabel* label : {&head_, &meaning_, &mistake_}) label->setWordWrap(true);
  over_.setObjectName(QStringLiteral("faceLookedOver"));
  over_.setToolTip(
      tr("You have looked at this face, and all that a part may not hold is marked. "
         "Until then a face without marks is not taken for clear."));
  connect(&over_, &QCheckBox::clicked, this, [this](bool on) {
    const Board* board = document_.rack().findBoard(choice_.board());
    if (!board) return;
    Board changed = *board;
    setLookedOver(changed, choice_.face(), on);
    (void)document_.perform(changeBoard(std::move(changed)));
  });
  connect(&choice_, &Choice::faceChanged, this, &MarkPanel::refresh);
  list_.setObjectName(QStringLiteral("markList"));
  list_.setAccessibleName(tr("Marks of this board"));
  list_.setMinimumHeight(90);
  list_.setFrameShape(QFrame::StyledPanel);
  kind_.setObjectName(QStringLiteral("markKind"));
  for (const MarkKind kind : allMarkKinds())
    kind_.addItem(markSwatch(kind), markLook(kind).label, static_cast<int>(kind));
  soundness_.setObjectName(QStringLiteral("markSoundness"));
  depth_.setObjectName(QStringLiteral("markDepth"));
  through_.setText(tr("Goes through to the other face"));
  through_.setObjectName(QStringLiteral("markThrough"));
  live_.setText(tr("Live insects: sets the board aside"));
  depthFrom_.addItem(tr("from A"));
  depthFrom_.addItem(tr("from B"));
  widthLabel_.setText(tr("Li&ne width"));
  widthLabel_.setBuddy(&width_);
  soundLabel_.setText(tr("So&und or loose"));
  soundLabel_.setBuddy(&soundness_);
  keep_.setText(tr("Accept this suggestion (&Y)"));
  keep_.setProperty("main", true);
  remove_.setText(tr("Remove mark"));
  remove_.setObjectName(QStringLiteral("markRemove"));

  auto* form = new QFormLayout;
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
  form->addRow(tr("K&ind"), &kind_);
  form->addRow(&soundLabel_, &soundness_);
  auto* depthRow = new QHBoxLayout;
  depthRow->addWidget(&depth_, 1);
  depthRow->addWidget(&depthFrom_, 1);
  form->addRow(&through_);
  auto* depthLabel = new QLabel(tr("&Depth"));
  depthLabel->setBuddy(&depth_);
  form->addRow(depthLabel, depthRow);
  form->addRow(&widthLabel_, &width_);
  form->addRow(&live_);
  form->addRow(tr("N&ote"), &note_);
  auto* inside = new QVBoxLayout(&editor_);
  inside->setContentsMargins(0, 0, 0, 0);
  inside->addWidget(&meaning_);
  inside->addLayout(form);
  inside->addWidget(&mistake_);
  inside->addWidget(&keep_);
  inside->addWidget(&remove_);
  mistake_.hide();

  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(8);
  column->addWidget(&head_);
  column->addWidget(&over_);
  column->addWidget(&list_);
  column->addWidget(&editor_);
}

void MarkPanel::connectFields() {
  connect(&list_, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
    if (showing_ || !item) return;
    const MarkId id{plain(item->data(Qt::UserRole).toString())};
    const Board* board = document_.rack().findBoard(choice_.board());
    const Mark* mark = board ? board->findMark(id) : nullptr;
    if (mark && !mark->on(choice_.face())) choice_.setFace(otherFace(choice_.face()));
    choice_.setMark(id);
  });
  connect(&kind_, &QComboBox::activated, this, [this] {
    change([this](Mark& m) {  // what the new kind does not know is let go of
      m.kind = static_cast<MarkKind>(kind_.currentData().toInt());
      const Judged judged = traitsOf(m.kind).judged;
      if (judged == Judged::no) m.soundness = Soundness::unknown;
      if (judged != Judged::soundnessAndLife) m.live = false;
    });
  });
  connect(&soundness_, &QComboBox::activated, this,
          [this](int at) { change([at](Mark& m) { m.soundness = static_cast<Soundness>(at); }); });
  connect(&through_, &QCheckBox::clicked, this, [this](bool on) {
    change([on](Mark& m) {
      m.through = on;
      if (on) m.depthMm.reset();
    });
  });
  connect(&live_, &QCheckBox::clicked, this,
          [this](bool on) { change([on](Mark& m) { m.live = on; }); });
  connect(&depth_, &LengthEdit::entered, this, [this](std::optional<double> mm) {
    change([mm](Mark& m) {
      m.depthMm = mm;
      if (mm) m.through = false;
    });
  });
  connect(&depthFrom_, &QComboBox::activated, this,
          [this](int at) { change([at](Mark& m) { m.depthFrom = at == 0 ? Face::A : Face::B; }); });
  connect(&width_, &LengthEdit::entered, this, [this](std::optional<double> mm) {
    change([mm](Mark& m) {
      for (auto* shape : {&m.onA, &m.onB})
        if (*shape)
          if (auto* stroke = std::get_if<Stroke>(&**shape)) stroke->widthMm = mm.value_or(1);
    });
  });
  connect(&note_, &QLineEdit::editingFinished, this, [this] {
    if (note_.isModified()) change([this](Mark& m) { m.note = plain(note_.text().trimmed()); });
    note_.setModified(false);
  });
  const auto show = [this](const QString& why) {
    mistake_.setText(why);
    mistake_.setVisible(!why.isEmpty());
  };
  connect(&depth_, &LengthEdit::mistaken, this, show);
  connect(&width_, &LengthEdit::mistaken, this, show);
  connect(&keep_, &QPushButton::clicked, this, [this] {
    if (const Mark* mark = chosen())
      (void)document_.perform(acceptMarks(choice_.board(), {mark->id}));
  });
  connect(&remove_, &QPushButton::clicked, this, [this] {
    const Mark* mark = chosen();
    if (!mark) return;
    const MarkId id = mark->id;
    const bool suggested = !mark->confirmed;
    choice_.setMark({});
    (void)document_.perform(suggested ? refuseMarks(choice_.board(), {id})
                                      : removeMark(choice_.board(), id));
  });
}

const Mark* MarkPanel::chosen() const {
  const Board* board = document_.rack().findBoard(choice_.board());
  return board ? board->findMark(choice_.mark()) : nullptr;
}

template <class Change>
void MarkPanel::change(Change change) {
  const Mark* mark = chosen();
  if (!mark || showing_) return;
  Mark changed = *mark;
  change(changed);
  if (!document_.perform(changeMark(choice_.board(), std::move(changed)))) refresh();
}

QString MarkPanel::lineFor(const Mark& mark) const {
  const MarkLook& look = markLook(mark.kind);
  QString text = look.label;
  if (mark.soundness != Soundness::unknown)
    text += QStringLiteral(", ") + soundnessLabel(mark.kind, mark.soundness);
  text += mark.onA && mark.onB ? tr(", both faces") : mark.onA ? tr(", face A") : tr(", face B");
  if (mark.through) text += tr(", through");
  if (!mark.confirmed) text += tr(", suggested (%1 % sure)").arg(qRound(mark.confidence * 100));
  return text;
}

void MarkPanel::refresh() {
  showing_ = true;
  fillList();
  showMark();
  showing_ = false;
}

void MarkPanel::fillList() {
  const Board* board = document_.rack().findBoard(choice_.board());
  const auto count = board ? static_cast<int>(board->marks.size()) : 0;
  const Face face = choice_.face();
  const bool over = board && lookedOver(*board, face);
  over_.setVisible(board && board->seen(face));
  over_.setChecked(over);
  over_.setText(tr("Face %1 looked over").arg(qt(name(face))));
  head_.setText(count == 0   ? over ? tr("Looked over: clear") : tr("No marks yet")
                  : count == 1 ? tr("1 mark")
                             : tr("%1 marks").arg(count));
  list_.setVisible(count > 0);
  while (list_.count() > count) delete list_.takeItem(list_.count() - 1);
  while (list_.count() < count) list_.addItem(QString());
  int chosenRow = -1;
  for (int i = 0; i < count; ++i) {
    const Mark& mark = board->marks[static_cast<size_t>(i)];
    QListWidgetItem* item = list_.item(i);
    const QString text = lineFor(mark);
    if (item->text() != text) {
      item->setText(text);
      item->setIcon(markSwatch(mark.kind, 18));
    }
    item->setData(Qt::UserRole, qt(mark.id.text));
    if (mark.id == choice_.mark()) chosenRow = i;
  }
  list_.setCurrentRow(chosenRow);
}

void MarkPanel::showMark() {
  const Mark* mark = chosen();
  editor_.setVisible(mark != nullptr);
  if (!mark) return;
  meaning_.setText(markLook(mark->kind).meaning);
  kind_.setCurrentIndex(kind_.findData(static_cast<int>(mark->kind)));
  const bool judged = traitsOf(mark->kind).judged != Judged::no;
  soundness_.setVisible(judged);
  soundLabel_.setVisible(judged);
  soundness_.clear();
  for (const Soundness s : {Soundness::unknown, Soundness::sound, Soundness::loose})
    soundness_.addItem(soundnessLabel(mark->kind, s));
  soundness_.setCurrentIndex(static_cast<int>(mark->soundness));
  through_.setChecked(mark->through);
  live_.setVisible(traitsOf(mark->kind).judged == Judged::soundnessAndLife);
  live_.setChecked(mark->live);
  depth_.setStyle(document_.lengths());
  depth_.setValue(mark->depthMm);
  depth_.setEnabled(!mark->through);
  depthFrom_.setEnabled(!mark->through);
  depthFrom_.setCurrentIndex(mark->depthFrom == Face::A ? 0 : 1);
  const auto& shape = mark->onA ? mark->onA : mark->onB;
  const auto* stroke = shape ? std::get_if<Stroke>(&*shape) : nullptr;
  width_.setVisible(stroke != nullptr);
  widthLabel_.setVisible(stroke != nullptr);
  width_.setStyle(document_.lengths());
  if (stroke) width_.setValue(stroke->widthMm);
  if (!(note_.hasFocus() && note_.isModified())) note_.setText(qt(mark->note));
  keep_.setVisible(!mark->confirmed);
  remove_.setText(mark->confirmed ? tr("Remove mark") : tr("Refuse this suggestion (N)"));
}

}  // namespace rackside
