// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// Requests and pictures changed at random: nothing falls over, nothing appears outside the rack,
// nothing is written onto it. RACKSIDE_FUZZ_REQUESTS and RACKSIDE_FUZZ_PICTURES say how many.
class FuzzTest : public QObject {
  Q_OBJECT
 private slots:
  void requests();
  void pictures();
};

}  // namespace rackside::serve
