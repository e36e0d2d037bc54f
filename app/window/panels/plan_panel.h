// SPDX-License-Identifier: GPL-3.0-or-later
// The plan beside the board: start and stop, how good it is and how much better one could be, what
// could not be placed and why, and the piece in hand.
#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QProgressBar>
#include <QPushButton>
#include <QSpinBox>
#include <QWidget>

#include "app/window/document/choice.h"
#include "app/window/document/plan_session.h"

namespace rackside {

class PlanPanel : public QWidget {
  Q_OBJECT
 public:
  PlanPanel(Document& document, Choice& choice, PlanSession& session, QWidget* parent = nullptr);

 private:
  void build();
  void refresh();
  void showProgress();
  void showFigures(const Plan* plan);
  void showBoards(const Plan* plan);
  void showUnplaced(const Plan* plan);
  void showPiece(const Plan* plan);
  void showNotes(const Plan* plan);
  void buildAim();
  void showCompared();
  void follow(const QString& link);

  Document& document_;
  Choice& choice_;
  PlanSession& session_;
  QPushButton start_;
  QSpinBox seconds_;
  QComboBox aim_;
  QLabel aimReason_, cautions_, comparedHead_, compared_;
  QPushButton compare_;
  QProgressBar progress_;
  QLabel stage_, figures_, failure_, boardsHead_, unplacedHead_, unplaced_, piece_, why_;
  // What the plan says for itself, each with its heading.
  struct Notes {
    QLabel head, text;
  };
  Notes score_, spares_, panels_, remarks_;
  QListWidget boards_;
  QCheckBox pinned_;
  bool showing_ = false;
};

}  // namespace rackside
