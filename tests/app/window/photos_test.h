// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs: dropped, sorted by tag, measured in the background, stopped; faces told apart.
#pragma once

#include <QObject>

namespace rackside {

class PhotosTest : public QObject {
  Q_OBJECT
 private slots:
  void dropsAreSortedByTagAndWhatMustBeRetakenIsSaid();
  void measuresInTheBackground();
  void stopLeavesTheRackAsItWas();
  void dropNeverAsksTheSenderToMove();
  void dropWithNoRackOpenBeginsOne();
  void facesAreToldApartOrAskedAbout();
};

}  // namespace rackside
