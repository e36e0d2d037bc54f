// SPDX-License-Identifier: GPL-3.0-or-later
// Random keys, clicks and drags on the real window. RACKSIDE_MONKEY_SECONDS says how long (3 when
// not set), RACKSIDE_MONKEY_SEED repeats a run.
#pragma once

#include <QObject>

namespace rackside {

class MonkeyTest : public QObject {
  Q_OBJECT
 private slots:
  void survivesRandomInput();
};

}  // namespace rackside
