// SPDX-License-Identifier: GPL-3.0-or-later
// Planning from the window: best so far, stopping, pinning, dragging, no stall meanwhile;
// and what is written of the plan.
#pragma once

#include <QObject>

namespace rackside {

class PlanTest : public QObject {
  Q_OBJECT
 private slots:
  void plansAndUndoes();
  void loopTurnsWhilePlanning();
  void illegalPlaceIsToldAtOnce();
  void draggedPieceStaysWhereItWasPut();
  void pinIsAnEdit();
  void otherPapersAreWritten();
};

}  // namespace rackside
