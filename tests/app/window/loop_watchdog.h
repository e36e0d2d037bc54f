// SPDX-License-Identifier: GPL-3.0-or-later
// How long the main loop was kept from turning: a timer that should fire every few milliseconds,
// and the longest it was late.
#pragma once

#include <QElapsedTimer>
#include <QObject>
#include <QTimer>

namespace rackside {

class LoopWatchdog : public QObject {
 public:
  LoopWatchdog();
  void start();
  // Wall time between two turns, less the time in which the thread was ready to run and the machine
  // was busy with other programs (the kernel's run-queue delay, Linux schedstat); where that is not
  // to be had, the wall time.
  double longestStallMs() const { return longestStallMs_; }
  double longestWallMs() const { return longestWallMs_; }

 private:
  void tick();
  QTimer timer_;
  QElapsedTimer clock_;
  double lastDelayMs_ = 0;
  double longestStallMs_ = 0, longestWallMs_ = 0;
};

}  // namespace rackside
