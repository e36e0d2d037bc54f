// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// The page as it is served, read without a browser.
class PageTest : public QObject {
  Q_OBJECT
 private slots:
  void isSmallAndNeedsNothingElse();
  void coloursAreReadable();
  void everyRouteItAsksForIsThere();
};

}  // namespace rackside::serve
