// SPDX-License-Identifier: GPL-3.0-or-later
// What an empty window teaches: from printed cards to the first board.
#pragma once

#include <QLabel>
#include <QPushButton>
#include <QWidget>

namespace rackside {

class WelcomePage : public QWidget {
  Q_OBJECT
 public:
  explicit WelcomePage(QWidget* parent = nullptr);
  void setRackOpen(bool open);

 signals:
  void startWished();
  void openWished();
  void sampleWished();
  void cardsWished();
  void photosWished();

 private:
  QLabel title_;
  QPushButton start_, open_, sample_, cards_, photos_;
};

}  // namespace rackside
