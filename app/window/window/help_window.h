// SPDX-License-Identifier: GPL-3.0-or-later
// How a job goes, and every key.
#pragma once

#include <QDialog>

namespace rackside {

class HelpWindow : public QDialog {
  Q_OBJECT
 public:
  explicit HelpWindow(QWidget* parent = nullptr);
};

}  // namespace rackside
