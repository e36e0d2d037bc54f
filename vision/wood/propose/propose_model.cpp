// SPDX-License-Identifier: GPL-3.0-or-later
// The model is a file beside this one, taken into the program as it is built.
#include <stdexcept>

#include "vision/wood/propose/propose.h"

asm(".section .rodata\n"
    ".balign 16\n"
    ".global racksideProposeModel, racksideProposeModelEnd\n"
    "racksideProposeModel:\n"
    ".incbin \"" RACKSIDE_PROPOSE_MODEL
    "\"\n"
    "racksideProposeModelEnd:\n"
    ".previous\n");
extern "C" {
extern const unsigned char racksideProposeModel[];     // NOLINT
extern const unsigned char racksideProposeModelEnd[];  // NOLINT
}

namespace rackside {

std::vector<uint8_t> ProposeModel::toBytes() const {
  std::vector<uint8_t> out;
  for (const BoostedTrees* trees : {&pixels.gate, &pixels.kinds, &judge}) {
    const std::vector<uint8_t> part = trees->toBytes();
    out.insert(out.end(), part.begin(), part.end());
  }
  return out;
}

Result<ProposeModel> ProposeModel::fromBytes(const std::vector<uint8_t>& bytes) {
  ProposeModel model;
  size_t at = 0;
  for (BoostedTrees* trees : {&model.pixels.gate, &model.pixels.kinds, &model.judge}) {
    auto part = BoostedTrees::fromBytes(bytes, at);
    if (!part) return part.error();
    *trees = std::move(part).value();
  }
  return model;
}

const ProposeModel& builtInProposeModel() {
  static const ProposeModel model = [] {
    auto read = ProposeModel::fromBytes({racksideProposeModel, racksideProposeModelEnd});
    if (!read) throw std::logic_error(read.error().message);
    return std::move(read).value();
  }();
  return model;
}

}  // namespace rackside
