// SPDX-License-Identifier: GPL-3.0-or-later
// The page for phones, served by the open window.
#pragma once

#include <QObject>

namespace rackside {

class PhoneTest : public QObject {
  Q_OBJECT
 private slots:
  void whatThePhoneWritesIsShownAtOnceAndUndone();
  void aPhotographIsKeptOntoTheOpenRack();
  void itIsOffUntilStartedAndEndsWithTheRack();
};

}  // namespace rackside
