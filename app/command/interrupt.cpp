// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/interrupt.h"

#include <unistd.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <thread>

namespace rackside::command {
namespace {

volatile std::sig_atomic_t interrupted = 0;

constexpr int kSignals[] = {SIGINT, SIGTERM};

// The second one meets the usual handling.
void note(int signal) {
  interrupted = 1;
  std::signal(signal, SIG_DFL);
}

}  // namespace

// A handler may do little, so a thread looks whether it was called.
struct StopOnInterrupt::Watch {
  explicit Watch(RunControl& control)
      : thread([this, &control] {
          while (!done) {
            if (interrupted) control.stop();
            std::this_thread::sleep_for(std::chrono::milliseconds(50));
          }
        }) {}
  std::atomic<bool> done{false};
  std::thread thread;
};

StopOnInterrupt::StopOnInterrupt(RunControl& control) {
  interrupted = 0;
  for (const int signal : kSignals) std::signal(signal, note);
  watch_ = std::make_unique<Watch>(control);
}

StopOnInterrupt::~StopOnInterrupt() {
  for (const int signal : kSignals) std::signal(signal, SIG_DFL);
  watch_->done = true;
  watch_->thread.join();
}

void showProgress(RunControl& control, const char* what) {
  if (::isatty(STDERR_FILENO) == 0) return;
  control.onProgress = [what](double fraction, const std::string& stage) {
    std::fprintf(stderr, "\r\033[K%s: %.0f %%, %s", what, 100 * fraction, stage.c_str());
    if (fraction >= 1) std::fputs("\r\033[K", stderr);
  };
}

}  // namespace rackside::command
