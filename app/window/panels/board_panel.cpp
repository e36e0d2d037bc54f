// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/board_panel.h"

#include <QDate>
#include <QFormLayout>
#include <QLocale>
#include <QVBoxLayout>

#include "app/window/document/board_facts.h"
#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/wood/measure.h"

namespace rackside {

namespace {

// Today's reading stands for itself, an older one stays as history; 0 takes them all away.
void meter(Board& board, double percent) {
  const std::string today = plain(QDate::currentDate().toString(Qt::ISODate));
  if (percent <= 0) {
    board.moisture.clear();
  } else if (!board.moisture.empty() && board.moisture.back().date == today) {
    board.moisture.back().percent = percent;
  } else {
    board.moisture.push_back({percent, {}, {}, today, {}});
  }
}

double latestReading(const Board& board) {
  return board.moisture.empty() ? 0 : board.moisture.back().percent;
}

QLabel* groupLabel(const QString& text) {
  auto* label = new QLabel(text);
  label->setProperty("role", QStringLiteral("group"));
  return label;
}

}  // namespace

BoardPanel::BoardPanel(Document& document, Choice& choice, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice) {
  build();
  connect(&document_, &Document::opened, this, &BoardPanel::refresh);
  connect(&document_, &Document::changed, this, &BoardPanel::refresh);
  connect(&choice_, &Choice::boardChosen, this, &BoardPanel::refresh);
  refresh();
}

void BoardPanel::build() {
  title_.setProperty("role", QStringLiteral("title"));
  title_.setWordWrap(true);
  for (QLabel* label : {&figures_, &lacks_, &mistake_}) label->setWordWrap(true);
  figures_.setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  lacks_.setProperty("role", QStringLiteral("warn"));
  mistake_.setProperty("role", QStringLiteral("bad"));
  name_.setObjectName(QStringLiteral("boardName"));
  thickness_.setObjectName(QStringLiteral("boardThickness"));
  species_.setObjectName(QStringLiteral("boardSpecies"));
  species_.setPlaceholderText(tr("e.g. cherry"));
  place_.setPlaceholderText(tr("e.g. left bay, shelf 2"));
  for (const Sawn s : {Sawn::unknown, Sawn::flat, Sawn::rift, Sawn::quarter})
    sawn_.addItem(s == Sawn::unknown ? tr("not entered") : qt(name(s)) + tr(" sawn"),
                  static_cast<int>(s));
  bark_.addItem(tr("not entered"));
  bark_.addItem(tr("face A"));
  bark_.addItem(tr("face B"));
  moisture_.setObjectName(QStringLiteral("boardMoisture"));
  moisture_.setRange(0, 60);
  moisture_.setDecimals(1);
  moisture_.setSingleStep(0.5);
  moisture_.setSuffix(tr(" %"));
  moisture_.setSpecialValueText(tr("not measured"));
  moisture_.setKeyboardTracking(false);
  moisture_.setToolTip(
      tr("What the moisture meter shows. Wood wetter than the shop shrinks before it is milled: "
         "its blanks are planned so much larger."));
  state_.setObjectName(QStringLiteral("boardState"));
  state_.addItem(tr("on the rack"), static_cast<int>(BoardState::onRack));
  state_.addItem(tr("set aside"), static_cast<int>(BoardState::setAside));
  state_.addItem(tr("sold"), static_cast<int>(BoardState::sold));
  state_.addItem(tr("reserved"), static_cast<int>(BoardState::reserved));
  state_.setToolTip(tr("Nothing is planned on a board that is set aside, sold or reserved."));
  stateNote_.setPlaceholderText(tr("the reason, the buyer or the project"));

  auto* form = new QFormLayout;
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
  form->addRow(tr("&Name"), &name_);
  form->addRow(tr("Spe&cies"), &species_);
  form->addRow(tr("&Thickness"), &thickness_);
  form->addRow(QString(), &mistake_);
  form->addRow(tr("&Location"), &place_);
  form->addRow(tr("Sa&wn"), &sawn_);
  form->addRow(tr("Bar&k side"), &bark_);
  form->addRow(tr("&Moisture"), &moisture_);
  form->addRow(tr("&Price per board foot"), &price_);
  form->addRow(tr("Note"), &note_);
  form->addRow(tr("S&tate"), &state_);
  form->addRow(QString(), &stateNote_);
  mistake_.hide();

  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(8);
  column->addWidget(&title_);
  column->addWidget(&figures_);
  column->addWidget(&lacks_);
  column->addWidget(groupLabel(tr("About the board")));
  column->addLayout(form);

  takeText(name_, &Board::name);
  takeText(species_, &Board::species);
  takeText(place_, &Board::place);
  takeText(note_, &Board::note);
  connect(&price_, &QLineEdit::editingFinished, this, [this] {
    if (!price_.isModified()) return;
    price_.setModified(false);
    const double price =
        price_.text().trimmed().replace(QLatin1Char(','), QLatin1Char('.')).toDouble();
    change([price](Board& b) { b.pricePerBoardFoot = std::max(0.0, price); });
  });
  connect(&thickness_, &LengthEdit::entered, this, [this](std::optional<double> mm) {
    change([mm, said = thickness_.said()](Board& b) {
      b.thicknessMm = mm.value_or(0);
      b.thicknessSaid = said;
    });
  });
  connect(&thickness_, &LengthEdit::mistaken, this, [this](const QString& why) {
    mistake_.setText(why);
    mistake_.setVisible(!why.isEmpty());
  });
  connect(&sawn_, &QComboBox::activated, this, [this] {
    change([this](Board& b) { b.sawn = static_cast<Sawn>(sawn_.currentData().toInt()); });
  });
  connect(&bark_, &QComboBox::activated, this, [this](int at) {
    change([at](Board& b) {
      b.barkSide = at == 0 ? std::optional<Face>() : at == 1 ? Face::A : Face::B;
    });
  });
  connect(&moisture_, &QDoubleSpinBox::valueChanged, this, [this](double percent) {
    if (showing_) return;
    change([percent](Board& b) {
      if (percent != latestReading(b)) meter(b, percent);
    });
  });
  connect(&state_, &QComboBox::activated, this, [this] {
    change([this](Board& b) { b.state = static_cast<BoardState>(state_.currentData().toInt()); });
  });
  takeText(stateNote_, &Board::stateNote);
}

void BoardPanel::takeText(QLineEdit& edit, std::string Board::*field) {
  connect(&edit, &QLineEdit::editingFinished, this, [this, &edit, field] {
    edit.setModified(false);
    change([&](Board& b) { b.*field = plain(edit.text().trimmed()); });
  });
}

// A field left as it was makes no step of undo.
template <class Change>
void BoardPanel::change(Change change) {
  const Board* board = document_.rack().findBoard(shown_);
  if (!board || showing_) return;
  Board changed = *board;
  change(changed);
  const bool same = changed.name == board->name && changed.species == board->species &&
                    changed.place == board->place && changed.note == board->note &&
                    changed.thicknessMm == board->thicknessMm &&
                    changed.thicknessSaid == board->thicknessSaid && changed.sawn == board->sawn &&
                    changed.barkSide == board->barkSide && changed.state == board->state &&
                    changed.stateNote == board->stateNote &&
                    changed.pricePerBoardFoot == board->pricePerBoardFoot &&
                    latestReading(changed) == latestReading(*board);
  if (!same) (void)document_.perform(changeBoard(std::move(changed)));
}

QString BoardPanel::measuredLines(const Board& board) const {
  const LengthStyle style = document_.lengths();
  const BoardFacts facts = boardFacts(document_.rack(), board);
  QStringList lines;
  lines << tr("Length %1").arg(measuredText(board.lengthMm, style));
  if (!board.widthsMm.empty()) {
    double worst = 0;
    for (const Measured& m : board.widthsMm) worst = std::max(worst, m.u95);
    const auto [least, most] =
        std::minmax_element(board.widthsMm.begin(), board.widthsMm.end(),
                            [](const Measured& a, const Measured& b) { return a.value < b.value; });
    lines << tr("Width %1 to %2 %3")
                 .arg(lengthText(least->value, style), lengthText(most->value, style),
                      worst > 0 ? plusMinusText(worst, style) : QString());
  }
  lines << tr("%1 board feet, surface measure %2 ft²")
               .arg(facts.boardFeet, 0, 'f', 1)
               .arg(facts.boardFeet > 0 ? area({board.outline.polygon()}) / 92903.04 : 0, 0, 'f',
                    1);
  if (board.faceB)
    lines << tr("Face B lies on face A within %1").arg(plusMinusText(board.faceB->u95Mm, style));
  return lines.join(QLatin1Char('\n'));
}

// What is still being typed belongs to the board it was typed for.
void BoardPanel::takeTyped() {
  for (QLineEdit* edit : {&name_, &species_, &place_, &price_, &note_, &stateNote_})
    if (edit->isModified()) emit edit->editingFinished();
  thickness_.take();
  thickness_.forget();
}

void BoardPanel::refresh() {
  if (shown_ != choice_.board()) takeTyped();
  shown_ = choice_.board();
  show(document_.rack().findBoard(choice_.board()));
}

void BoardPanel::show(const Board* board) {
  setEnabled(board != nullptr);
  if (!board) {
    title_.setText(tr("No board chosen"));
    figures_.clear();
    lacks_.hide();
    return;
  }
  showing_ = true;
  title_.setText(board->tag ? tr("Board %1 · tag %2").arg(qt(board->name)).arg(*board->tag)
                            : tr("Board %1").arg(qt(board->name)));
  figures_.setText(measuredLines(*board));
  QStringList lacks;
  for (const Lack& lack : lacksOf(*board)) lacks << tr("Missing: %1. %2").arg(lack.what, lack.toDo);
  if (const std::string note = unknownWoodNote(board->species, document_.rack().shop.ownSpecies);
      !note.empty())
    lacks << qt(note);
  lacks_.setText(lacks.join(QLatin1Char('\n')));
  lacks_.setVisible(!lacks.isEmpty());
  const auto put = [](QLineEdit& edit, const std::string& text) {
    if (!edit.isModified()) edit.setText(qt(text));
  };
  put(name_, board->name);
  put(species_, board->species);
  put(place_, board->place);
  put(note_, board->note);
  thickness_.setTakesQuarters(true);
  put(price_, board->pricePerBoardFoot > 0 ? plain(QLocale().toString(board->pricePerBoardFoot))
                                           : std::string());
  thickness_.setStyle(document_.lengths());
  thickness_.setValue(board->thicknessMm > 0 ? std::optional(board->thicknessMm) : std::nullopt);
  sawn_.setCurrentIndex(sawn_.findData(static_cast<int>(board->sawn)));
  bark_.setCurrentIndex(!board->barkSide ? 0 : *board->barkSide == Face::A ? 1 : 2);
  moisture_.setValue(latestReading(*board));
  state_.setCurrentIndex(state_.findData(static_cast<int>(board->state)));
  put(stateNote_, board->stateNote);
  stateNote_.setVisible(board->state != BoardState::onRack);
  showing_ = false;
}

}  // namespace rackside
