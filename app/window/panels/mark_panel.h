// SPDX-License-Identifier: GPL-3.0-or-later
// The marks of the board in view, and the one in hand with all that can be said of it.
#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QWidget>

#include "app/window/document/choice.h"
#include "app/window/document/document.h"
#include "app/window/panels/length_edit.h"

namespace rackside {

class MarkPanel : public QWidget {
  Q_OBJECT
 public:
  MarkPanel(Document& document, Choice& choice, QWidget* parent = nullptr);

 private:
  void build();
  void connectFields();
  void refresh();
  void fillList();
  void showMark();
  const Mark* chosen() const;
  QString lineFor(const Mark& mark) const;
  template <class Change>
  void change(Change change);

  Document& document_;
  Choice& choice_;
  QWidget editor_;  // before what lies in it, so that it is destroyed after
  QCheckBox over_;
  QLabel head_, meaning_, mistake_;
  QListWidget list_;
  QComboBox kind_, soundness_, depthFrom_;
  QCheckBox through_, live_;
  LengthEdit depth_, width_;
  QLabel widthLabel_, soundLabel_;
  QLineEdit note_;
  QPushButton keep_, remove_;
  bool showing_ = false;
};

}  // namespace rackside
