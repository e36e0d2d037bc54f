// SPDX-License-Identifier: GPL-3.0-or-later
// The settings of the shop as a maker reads them: what each is, in which unit, and why it matters.
#pragma once

#include <QString>
#include <vector>

#include "core/job/shop.h"

namespace rackside {

struct ShopField {
  enum class Unit { length, percent, plain };
  double Shop::*member;
  Unit unit;
  QString label;
  QString why;
};

struct ShopGroup {
  QString title;
  QString lead;  // may be empty
  std::vector<ShopField> fields;
};

std::vector<ShopGroup> shopGroups();

}  // namespace rackside
