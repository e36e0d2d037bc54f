// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// The head of a request and the small things that keep strangers out, each by itself.
class HeadTest : public QObject {
  Q_OBJECT
 private slots:
  void readsWhatABrowserSends();
  void refuses_data();
  void refuses();
  void findsTheTokenAmongCookies();
  void secretsAreRandomAndCompared();
  void aCodeServesOnce();
  void bucketsFillAgain();
  void picturesAreKnownByTheirBytes();
  void wordsAreChecked();
  void codesForTheTerminalHaveTheirQuietZone();
};

}  // namespace rackside::serve
