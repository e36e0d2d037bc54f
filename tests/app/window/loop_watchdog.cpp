// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/app/window/loop_watchdog.h"

#include <algorithm>
#include <fstream>

namespace rackside {

namespace {

constexpr int kTickMs = 4;

double runQueueDelayMs() {
  std::ifstream in("/proc/thread-self/schedstat");
  double ranNs = 0, delayNs = 0;
  in >> ranNs >> delayNs;
  return in ? delayNs / 1e6 : 0;
}

}  // namespace

LoopWatchdog::LoopWatchdog() {
  timer_.setTimerType(Qt::PreciseTimer);
  connect(&timer_, &QTimer::timeout, this, [this] { tick(); });
}

void LoopWatchdog::start() {
  longestStallMs_ = longestWallMs_ = 0;
  lastDelayMs_ = runQueueDelayMs();
  clock_.start();
  timer_.start(kTickMs);
}

void LoopWatchdog::tick() {
  const double wall = static_cast<double>(clock_.nsecsElapsed()) / 1e6;
  const double delay = runQueueDelayMs();
  clock_.restart();
  longestWallMs_ = std::max(longestWallMs_, wall);
  longestStallMs_ = std::max(longestStallMs_, wall - (delay - lastDelayMs_));
  lastDelayMs_ = delay;
}

}  // namespace rackside
