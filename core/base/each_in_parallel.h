// SPDX-License-Identifier: GPL-3.0-or-later
// Work on independent things by as many threads as there are cores, at most two: the maker's
// machine has other work as well. What is computed does not depend on which thread does what.
#pragma once

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>

namespace rackside {

// work(index, thread) for index in 0…count; thread is 0 or 1. The first exception is thrown on.
template <class Work>
void eachInParallel(int count, const Work& work) {
  std::atomic<int> next{0};
  std::exception_ptr fault;
  std::atomic<bool> failed{false};
  const auto run = [&](int thread) {
    try {
      for (int i = next++; i < count && !failed; i = next++) work(i, thread);
    } catch (...) {
      if (!failed.exchange(true)) fault = std::current_exception();
    }
  };
  if (count > 1 && std::thread::hardware_concurrency() > 1) {
    std::thread other(run, 1);
    run(0);
    other.join();
  } else {
    run(0);
  }
  if (fault) std::rethrow_exception(fault);
}

}  // namespace rackside
