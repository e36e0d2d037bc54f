// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>

namespace rackside::serve {

// Who gets in, and what happens to those who should not.
class GateTest : public QObject {
  Q_OBJECT
 private slots:
  void thePageIsOpenAndTheRackIsNot();
  void theCodeServesOnePhone();
  void onlyThePageItselfMayWrite();
  void onlyTheRightNameIsAnswered();
  void nothingElseIsAnswered();
  void answersCarryTheirPolicies();
  void longHeadsAreCutOff();
  void slowSendersAreCutOff();
  void largeBodiesAreRefusedBeforeTheyCome();
  void oneConnectionCarriesOneRequest();
  void callersAreBounded();
  void wrongCodesAreSlowedDown();
  void nobodyIsLetInAfterTheEnd();
};

}  // namespace rackside::serve
