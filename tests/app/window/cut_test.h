// SPDX-License-Identifier: GPL-3.0-or-later
// Cut day in the window: ticks by click and key, refusals, a miscut, a defect, offcuts, undo.
#pragma once

#include <QObject>

namespace rackside {

class CutTest : public QObject {
  Q_OBJECT
 private slots:
  void ticksByClickAndKeyAndUndoes();
  void outOfTurnIsRefusedAndSaid();
  void miscutPlansTheRestAnew();
  void defectPlansTheRestAnew();
  void miscutCanBeSaidAfterPlanningTheRest();
  void doneReturnsOffcuts();
  void loopTurnsWhilePlanningTheRest();
  void planTellsItsScoreAndSpareStock();
  void planOlderThanItsPartsSaysSo();
};

}  // namespace rackside
