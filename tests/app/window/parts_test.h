// SPDX-License-Identifier: GPL-3.0-or-later
// The parts list: typed, pasted, mistaken, mended.
#pragma once

#include <QObject>

namespace rackside {

class PartsTest : public QObject {
  Q_OBJECT
 private slots:
  void typesARow();
  void pastesASpreadsheetInAnyOrder();
  void mistakeIsShownInItsCellAndMended();
  void pasteIsOneStepOfUndo();
  void removesRows();
  void everyColumnIsKept();
  void lengthIsNotRoundedByOtherCells();
  void unfinishedRowsOutliveTheWindow();
  void enterGoesDownAndEscapeLeavesTheCell();
  void typingReplacesAndUnitsStay();
  void pasteOntoFilledRowsAsks();
};

}  // namespace rackside
