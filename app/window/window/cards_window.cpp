// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/window/cards_window.h"

#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QVBoxLayout>

#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "vision/cards/card_model.h"

namespace rackside {

CardsWindow::CardsWindow(QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("Print cards and tags"));
  build();
  connect(&cardsButton_, &QPushButton::clicked, this, &CardsWindow::writeCards);
  connect(&tagsButton_, &QPushButton::clicked, this, &CardsWindow::writeTags);
}

void CardsWindow::build() {
  paper_.addItem(tr("A4"));
  paper_.addItem(tr("US Letter"));
  cards_.setRange(1, kLargestCardNumber);
  cards_.setValue(6);
  for (QSpinBox* box : {&firstTag_, &lastTag_}) box->setRange(1, kLargestTagNumber);
  lastTag_.setValue(20);
  cardsButton_.setText(tr("Save &cards as PDF …"));
  tagsButton_.setText(tr("Save &tags as PDF …"));
  message_.setWordWrap(true);
  auto* lead =
      new QLabel(tr("Print at 100 %, never fitted to the page, and check the bar on each "
                    "sheet with a steel rule. Cards are glued to flat strips and lie along "
                    "the board, three to a board; a tag stays on its board and gives it "
                    "its number."));
  lead->setWordWrap(true);
  auto* form = new QFormLayout;
  form->addRow(tr("&Paper"), &paper_);
  form->addRow(tr("Cards, &how many"), &cards_);
  form->addRow(QString(), &cardsButton_);
  form->addRow(tr("Tags &from"), &firstTag_);
  form->addRow(tr("t&o"), &lastTag_);
  form->addRow(QString(), &tagsButton_);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::close);
  auto* column = new QVBoxLayout(this);
  column->addWidget(lead);
  column->addLayout(form);
  column->addWidget(&message_);
  column->addWidget(buttons);
  resize(440, sizeHint().height());
}

sheets::Paper CardsWindow::paper() const {
  return paper_.currentIndex() == 1 ? sheets::Paper::letter : sheets::Paper::a4;
}

void CardsWindow::writeCards() {
  sheets::CardOptions options;
  options.paper = paper();
  options.count = cards_.value();
  write(QStringLiteral("cards.pdf"), [options](const std::filesystem::path& file) {
    return sheets::writeCardPdf(options, file);
  });
}

void CardsWindow::writeTags() {
  sheets::TagOptions options;
  options.paper = paper();
  options.firstNumber = std::min(firstTag_.value(), lastTag_.value());
  options.lastNumber = std::max(firstTag_.value(), lastTag_.value());
  write(QStringLiteral("tags.pdf"), [options](const std::filesystem::path& file) {
    return sheets::writeTagPdf(options, file);
  });
}

void CardsWindow::write(const QString& suggestion,
                        std::function<Status(const std::filesystem::path&)> make) {
  const QString file =
      QFileDialog::getSaveFileName(this, tr("Save as PDF"), suggestion, tr("PDF (*.pdf)"));
  if (file.isEmpty()) return;
  inBackground(
      *QThreadPool::globalInstance(), this, [make, path = pathOf(file)] { return make(path); },
      [this, file](const Status& done) {
        message_.setText(done ? tr("Saved to %1. Print it at 100 %.").arg(file)
                              : qt(done.error().message));
      });
}

}  // namespace rackside
