// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/rate_limit.h"

#include <algorithm>

namespace rackside::serve {

namespace {
constexpr size_t kMostBuckets = 256;  // more callers than a workshop has: the full ones go
}

bool RateLimit::allows(const std::string& caller, Clock::time_point now) {
  if (buckets_.size() > kMostBuckets) forgetFull(now);
  Bucket& bucket = buckets_.try_emplace(caller, Bucket{burst_, now}).first->second;
  const double seconds = std::chrono::duration<double>(now - bucket.at).count();
  bucket.left = std::min(burst_, bucket.left + seconds * perSecond_);
  bucket.at = now;
  if (bucket.left < 1) return false;
  bucket.left -= 1;
  return true;
}

void RateLimit::forgetFull(Clock::time_point now) {
  std::erase_if(buckets_, [&](const auto& entry) {
    const double seconds = std::chrono::duration<double>(now - entry.second.at).count();
    return entry.second.left + seconds * perSecond_ >= burst_;
  });
}

}  // namespace rackside::serve
