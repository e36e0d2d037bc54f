// SPDX-License-Identifier: GPL-3.0-or-later
// Boards entered by tape, one after another: what is the same for the next one stays.
#pragma once

#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>

#include "app/window/document/document.h"
#include "app/window/panels/length_edit.h"

namespace rackside {

class TapeDialog : public QDialog {
  Q_OBJECT
 public:
  explicit TapeDialog(Document& document, QWidget* parent = nullptr);
  // Puts the board on the rack and empties what is its own; false, and why is shown, when something
  // is missing.
  bool addBoard();

 signals:
  void added(const rackside::BoardId& board);

 private:
  std::optional<double> lengthIn(const LengthEdit& edit) const;
  bool refuse(const QString& why, QWidget& field);

  Document& document_;
  QLineEdit name_, species_, place_, price_;
  LengthEdit length_, left_, right_, thickness_;
  QLabel said_;
  QPushButton add_;
};

}  // namespace rackside
