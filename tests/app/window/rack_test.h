// SPDX-License-Identifier: GPL-3.0-or-later
// Opening, listing, finding, saving; light and dark; keys from anywhere.
#pragma once

#include <QObject>

namespace rackside {

class RackTest : public QObject {
  Q_OBJECT
 private slots:
  void emptyWindowTeaches();
  void brokenRackIsToldAndNothingIsLost();
  void listShowsEveryBoard();
  void findsByTagAndWords();
  void sortsLongestFirst();
  void pageKeysWalkThroughBoards();
  void unitsChangeEverywhereAndCanBeUndone();
  void moistureIsEnteredAndTakenBack();
  void editsAreSavedByThemselves();
  void whatIsTypedStaysWithItsBoard();
  void unitKeyErasesNothing();
  void changesOfAnotherProgramAreTakenIn();
  void changesThatCouldNotBeWrittenAreNotCalledSaved();
  void darkKeepsTextLegible();
  void threeHundredBoardsStartInASecond();
};

}  // namespace rackside
