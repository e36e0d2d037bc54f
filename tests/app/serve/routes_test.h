// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// What a maker does with the phone, from the photograph to the tick, by the routes alone.
class RoutesTest : public QObject {
  Q_OBJECT
 private slots:
  void aPhotographBecomesABoardOnlyWhenKept();
  void aTakenBoardIsLookedUpMarkedAndWrittenOn();
  void picturesThatWillNotDoSaySoAndStay();
  void aBoardTooMuchIsMeasuredAgainAsItself();
  void twoPhotographsMakeOneBoard();
  void aTagTellsTheBoard();
  void cutsAreTicked();
  void whatIsWrongChangesNothing();
  void aLockedRackIsSaid();
};

}  // namespace rackside::serve
