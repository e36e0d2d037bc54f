// SPDX-License-Identifier: GPL-3.0-or-later
// Which board shows best, and laying the strips of a panel, in the window.
#pragma once

#include <QObject>

namespace rackside {

class LooksTest : public QObject {
  Q_OBJECT
 private slots:
  void boardsStandSideBySideBestFirst();
  void aBoardIsShownOnTheWood();
  void stripsAreMovedTurnedAndTurnedOver();
  void whatIsMissingIsSaid();
};

}  // namespace rackside
