// SPDX-License-Identifier: GPL-3.0-or-later
// What the window works out without a window: rulers, handles, stretches, tables.
#pragma once

#include <QObject>

namespace rackside {

class GeometryTest : public QObject {
  Q_OBJECT
 private slots:
  void textsAreReadInOwnUnits();
  void cameraGoesThereAndBack();
  void zoomKeepsThePointUnderThePointer();
  void inchRulerTicksFallOnFractions();
  void millimetreRulerTicksAreNeverCrowded();
  void ellipseHandleTurnsAndStretches();
  void vertexIsSetIntoTheNearestSide();
  void thinnedStaysWithinTolerance();
  void stretchReplacesTheShorterWay();
  void stretchThatCrossesIsRefused();
  void tableTextKeepsInchMarks();
  void tableTextGoesThereAndBack();
  void pyramidTilesAreThePicture();
};

}  // namespace rackside
