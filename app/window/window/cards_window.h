// SPDX-License-Identifier: GPL-3.0-or-later
// Cards and tags to print.
#pragma once

#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <filesystem>
#include <functional>

#include "app/sheets/card_pdf.h"

namespace rackside {

class CardsWindow : public QDialog {
  Q_OBJECT
 public:
  explicit CardsWindow(QWidget* parent = nullptr);

 private:
  void build();
  sheets::Paper paper() const;
  void writeCards();
  void writeTags();
  void write(const QString& suggestion, std::function<Status(const std::filesystem::path&)> make);

  QComboBox paper_;
  QSpinBox cards_, firstTag_, lastTag_;
  QPushButton cardsButton_, tagsButton_;
  QLabel message_;
};

}  // namespace rackside
