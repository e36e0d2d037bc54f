// SPDX-License-Identifier: GPL-3.0-or-later
// So many requests a second and no more, for each who asks.
#pragma once

#include <chrono>
#include <map>
#include <string>

namespace rackside::serve {

// A bucket a caller: `burst` at once, then `perSecond`.
class RateLimit {
 public:
  using Clock = std::chrono::steady_clock;
  RateLimit(double perSecond, double burst) : perSecond_(perSecond), burst_(burst) {}
  // Takes one from the caller's bucket; false when it is empty.
  bool allows(const std::string& caller, Clock::time_point now = Clock::now());

 private:
  struct Bucket {
    double left;
    Clock::time_point at;
  };
  void forgetFull(Clock::time_point now);

  double perSecond_, burst_;
  std::map<std::string, Bucket> buckets_;
};

}  // namespace rackside::serve
