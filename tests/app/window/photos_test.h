// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs: dropped, sorted by tag, measured in the background, stopped.
#pragma once

#include <QObject>

namespace rackside {

class PhotosTest : public QObject {
  Q_OBJECT
 private slots:
  void dropsAreSortedByTagAndWhatMustBeRetakenIsSaid();
  void measuresInTheBackground();
  void stopLeavesTheRackAsItWas();
};

}  // namespace rackside
