// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// The page in a headless Chromium with the screen of a phone; skipped where there is none.
// RACKSIDE_PAGE_PICTURES names a folder for a picture of each stage.
class DriveTest : public QObject {
  Q_OBJECT
 private slots:
  // With the sample photographs: takes a board, keeps it, takes one again that will not do, goes
  // out of reach, marks, ticks. Every control on each page has a name and can be read.
  void aMakersRound();
};

}  // namespace rackside::serve
