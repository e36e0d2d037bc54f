// SPDX-License-Identifier: GPL-3.0-or-later
// Drawing, moving, reshaping and describing marks by mouse and by keys; measuring; outlines; faces.
#pragma once

#include <QObject>

namespace rackside {

class MarksTest : public QObject {
  Q_OBJECT
 private slots:
  void drawsAnAreaByClicks();
  void drawsARoundSpotByDragging();
  void drawsALineInOneStroke();
  void drawsByKeysAlone();
  void dragIsOneStepOfUndo();
  void reshapesByAHandle();
  void deleteAndUndoBringBackTheSame();
  void panelSetsKindDepthAndSoundness();
  void mistakenDepthIsShownAndKept();
  void tabWalksThroughMarks();
  void measuresWithItsUncertainty();
  void redrawsAStretchOfTheOutline();
  void followsTheEdgeBetweenClicks();
  void flipKeepsThePlace();
  void zoomKeysAndWheel();
  void everyKindIsToldWithoutColour();
};

}  // namespace rackside
