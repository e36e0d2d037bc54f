// SPDX-License-Identifier: GPL-3.0-or-later
// One handle through which long work reports progress and learns that it should end.
#pragma once

#include <atomic>
#include <chrono>
#include <functional>
#include <optional>
#include <string>

namespace rackside {

// Shared by the caller (who stops, sets the deadline, listens) and the worker (who asks and
// reports). stop() may be called from any thread; `onProgress` is called on the worker's thread.
class RunControl {
 public:
  using Clock = std::chrono::steady_clock;

  RunControl() = default;
  explicit RunControl(double limitSeconds) { setLimit(limitSeconds); }

  void setLimit(double limitSeconds) {
    deadline_ = Clock::now() + std::chrono::duration_cast<Clock::duration>(
                                   std::chrono::duration<double>(limitSeconds));
  }
  void stop() { stopped_ = true; }
  bool stopRequested() const { return stopped_; }
  bool shouldEnd() const { return stopped_ || (deadline_ && Clock::now() >= *deadline_); }
  // Seconds left; a large number when there is no deadline.
  double secondsLeft() const {
    if (!deadline_) return 1e9;
    return std::chrono::duration<double>(*deadline_ - Clock::now()).count();
  }

  // fraction in 0..1, stage in plain words.
  std::function<void(double fraction, const std::string& stage)> onProgress;
  void report(double fraction, const std::string& stage) const {
    if (onProgress) onProgress(fraction, stage);
  }

 private:
  std::atomic<bool> stopped_{false};
  std::optional<Clock::time_point> deadline_;
};

}  // namespace rackside
