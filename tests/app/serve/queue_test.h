// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// Nothing that a phone was told is taken gets lost: restarts, full disks, workers that die.
// RACKSIDE_UPLOADS says how many large photographs two phones send in a row.
class QueueTest : public QObject {
  Q_OBJECT
 private slots:
  void aRestartFindsEverything();
  void whatWasCutOffIsClearedAway();
  void damagedRecordsAreLeftWhereTheyAre();
  void aFullDiskTakesNothing();
  void aDiskThatFillsUpLeavesNothingHalfWritten();
  void tooManyWaitingAreRefused();
  void aWorkerThatDiesIsNotTriedForEver();
  void aWorkerThatHangsIsStopped();
  void manyUploadsFromTwoPhones();
};

}  // namespace rackside::serve
