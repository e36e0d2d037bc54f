// SPDX-License-Identifier: GPL-3.0-or-later
// How much the gate (gate.h) takes of whom.
#pragma once

#include <cstddef>

namespace rackside::serve {

struct GateLimits {
  int connections = 32;
  int connectionsOfOne = 12;  // a browser opens six at a time
  int longBodies = 4;         // at a time, so that memory stays bounded
  size_t longBody = 65536;    // bytes from which a body is long
  size_t headBytes = 8192;
  int headSeconds = 5;     // for the whole head
  int idleSeconds = 15;    // without a byte of the body
  int bodySeconds = 180;   // for the whole body: 30 MB over a weak radio link
  int answerSeconds = 60;  // until the answer is taken
};

}  // namespace rackside::serve
