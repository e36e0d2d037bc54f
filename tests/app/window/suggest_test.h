// SPDX-License-Identifier: GPL-3.0-or-later
// Suggestions in the window: looking, taking and refusing with a key, all above a threshold, undo.
#pragma once

#include <QObject>

namespace rackside {

class SuggestTest : public QObject {
  Q_OBJECT
 private slots:
  void looksAtThePictureAndSuggests();
  void oneKeyTakesOneKeyRefuses();
  void takesAllThatAreSureEnoughInOneStep();
  void whatWasRefusedStaysAway();
  void panelAndDeleteSettleToo();
};

}  // namespace rackside
