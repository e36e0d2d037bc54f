// SPDX-License-Identifier: GPL-3.0-or-later
// What is known of the board in view, and what it still lacks.
#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QWidget>

#include "app/window/document/choice.h"
#include "app/window/document/document.h"
#include "app/window/panels/length_edit.h"

namespace rackside {

class BoardPanel : public QWidget {
  Q_OBJECT
 public:
  BoardPanel(Document& document, Choice& choice, QWidget* parent = nullptr);

 private:
  void build();
  void show(const Board* board);
  void refresh();
  QString measuredLines(const Board& board) const;
  void takeTyped();
  void takeText(QLineEdit& edit, std::string Board::*field);
  template <class Change>
  void change(Change change);

  Document& document_;
  Choice& choice_;
  BoardId shown_;
  QLabel title_, figures_, lacks_, mistake_;
  QLineEdit name_, species_, place_, price_, note_;
  LengthEdit thickness_;
  QComboBox sawn_, bark_;
  QDoubleSpinBox moisture_;
  QComboBox state_;
  QLineEdit stateNote_;
  bool showing_ = false;
};

}  // namespace rackside
