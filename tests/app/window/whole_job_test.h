// SPDX-License-Identifier: GPL-3.0-or-later
// What a maker does beside photographs, marks and parts: the shop, boards by tape, faces looked
// over, aims, places used, paper, finding an action, another language.
#pragma once

#include <QObject>

namespace rackside {

class WholeJobTest : public QObject {
  Q_OBJECT
 private slots:
  void shopSettingsAreEnteredAndReset();
  void shopServesAnotherRack();
  void boardsAreEnteredByTape();
  void facesAreLookedOver();
  void aimsAreComparedAndOneIsTaken();
  void aPlaceChosenByItsLooksIsUsed();
  void pagesAreCountedAndOneBoardPrinted();
  void actionsAreFound();
  void germanIsComplete();
};

}  // namespace rackside
