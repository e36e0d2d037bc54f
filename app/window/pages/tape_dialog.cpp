// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/tape_dialog.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLocale>
#include <QVBoxLayout>

#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/wood/taped_board.h"

namespace rackside {

TapeDialog::TapeDialog(Document& document, QWidget* parent) : QDialog(parent), document_(document) {
  setWindowTitle(tr("Enter boards by tape"));
  auto* lead = new QLabel(
      tr("For boards without photographs. Their faces are unseen: parts that show are not planned "
         "on them until they are photographed."));
  lead->setWordWrap(true);
  lead->setProperty("role", QStringLiteral("faint"));
  species_.setPlaceholderText(tr("e.g. cherry"));
  place_.setPlaceholderText(tr("e.g. left bay"));
  right_.setToolTip(tr("Leave empty when both ends are as wide."));
  name_.setObjectName(QStringLiteral("tapeName"));
  length_.setObjectName(QStringLiteral("tapeLength"));
  left_.setObjectName(QStringLiteral("tapeLeft"));
  thickness_.setObjectName(QStringLiteral("tapeThickness"));
  const std::pair<LengthEdit*, double> lengths[] = {
      {&length_, 2400}, {&left_, 200}, {&right_, 190}, {&thickness_, 27}};
  for (const auto& [edit, example] : lengths) {
    edit->setExample(example);
    edit->setStyle(document_.lengths());
  }
  auto* form = new QFormLayout;
  form->addRow(tr("Tag number or &name"), &name_);
  form->addRow(tr("&Length"), &length_);
  form->addRow(tr("Width at the left &end"), &left_);
  form->addRow(tr("Width at the &right end"), &right_);
  form->addRow(tr("&Thickness"), &thickness_);
  form->addRow(tr("&Species"), &species_);
  form->addRow(tr("L&ocation"), &place_);
  form->addRow(tr("&Price per board foot"), &price_);
  said_.setWordWrap(true);
  said_.setMinimumHeight(2 * fontMetrics().height());
  add_.setText(tr("&Add, and go on to the next"));
  add_.setObjectName(QStringLiteral("tapeAdd"));
  add_.setDefault(true);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  buttons->addButton(&add_, QDialogButtonBox::ActionRole);
  auto* column = new QVBoxLayout(this);
  column->addWidget(lead);
  column->addLayout(form);
  column->addWidget(&said_);
  column->addWidget(buttons);
  connect(&add_, &QPushButton::clicked, this, &TapeDialog::addBoard);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
}

std::optional<double> TapeDialog::lengthIn(const LengthEdit& edit) const {
  const auto mm = parseLengthMm(plain(edit.text().trimmed()), document_.lengths().system);
  return mm && *mm > 0 ? std::optional(*mm) : std::nullopt;
}

bool TapeDialog::refuse(const QString& why, QWidget& field) {
  said_.setProperty("role", QStringLiteral("bad"));
  said_.setText(why);
  field.setFocus();
  return false;
}

bool TapeDialog::addBoard() {
  const auto length = lengthIn(length_), left = lengthIn(left_), thickness = lengthIn(thickness_);
  if (!length) return refuse(tr("Enter the length."), length_);
  if (!left) return refuse(tr("Enter the width at the left end."), left_);
  const auto right = right_.text().trimmed().isEmpty() ? left : lengthIn(right_);
  if (!right) return refuse(tr("The width at the right end is not understood."), right_);
  if (!thickness && !thickness_.text().trimmed().isEmpty())
    return refuse(tr("The thickness is not understood."), thickness_);
  TapedBoard taped;
  std::optional<int> tag;
  bool number = false;
  const QString name = name_.text().trimmed();
  if (const int read = name.toInt(&number); number && read > 0) tag = read;
  if (tag)
    for (const Board& board : document_.rack().boards)
      if (board.tag == tag) return refuse(tr("Tag %1 is on the rack already.").arg(*tag), name_);
  taped.name =
      plain(name.isEmpty() ? tr("board %1").arg(document_.rack().boards.size() + 1) : name);
  taped.species = plain(species_.text().trimmed());
  taped.place = plain(place_.text().trimmed());
  taped.lengthMm = *length;
  taped.widthsMm = {*left, *right};
  taped.thicknessMm = thickness.value_or(0);
  taped.pricePerBoardFoot =
      price_.text().trimmed().replace(QLatin1Char(','), QLatin1Char('.')).toDouble();
  auto made = boardByTape(taped);
  if (!made) return refuse(qt(made.error().message), length_);
  Board board = std::move(made).value();
  board.tag = tag;
  if (const Status done = document_.perform(rackside::addBoard(board)); !done)
    return refuse(qt(done.error().message), name_);
  said_.setProperty("role", QStringLiteral("good"));
  said_.setText(tr("Board %1 is on the rack.").arg(qt(board.name)));
  for (QLineEdit* own : {&name_, static_cast<QLineEdit*>(&length_), static_cast<QLineEdit*>(&left_),
                         static_cast<QLineEdit*>(&right_)}) {
    own->clear();
    own->setModified(false);
  }
  name_.setFocus();
  emit added(board.id);
  return true;
}

}  // namespace rackside
