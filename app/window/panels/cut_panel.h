// SPDX-License-Identifier: GPL-3.0-or-later
// Cut day beside the board: its cuts in working order to be ticked as they are made, what each one
// frees, where the saw really went, and a new plan for the rest when wood turns out otherwise.
#pragma once

#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QWidget>

#include "app/window/document/choice.h"
#include "app/window/document/cut_session.h"
#include "app/window/panels/length_edit.h"

namespace rackside {

class CutPanel : public QWidget {
  Q_OBJECT
 public:
  CutPanel(Document& document, Choice& choice, PlanSession& planning, CutSession& session,
           QWidget* parent = nullptr);
  QListWidget& list() { return list_; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  void build();
  QWidget* buildMiscut();
  void colourBoxes();
  void refresh();
  void showCuts(const Board& board);
  void showNext();
  void showTrouble(const Board& board);
  void ticked(QListWidgetItem* item);
  void takeMiscut(double sign);
  int chosenNumber() const;

  Document& document_;
  Choice& choice_;
  PlanSession& planning_;
  CutSession& session_;
  QLabel title_, progress_, next_, refusal_, trouble_, marking_, caution_;
  QListWidget list_;
  LengthEdit by_;
  QWidget* miscut_ = nullptr;
  QPushButton forward_, back_, planRest_, done_;
  bool showing_ = false;
};

}  // namespace rackside
