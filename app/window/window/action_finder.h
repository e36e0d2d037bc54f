// SPDX-License-Identifier: GPL-3.0-or-later
// Everything the window does, found by typing a few letters of it.
#pragma once

#include <QAction>
#include <QDialog>
#include <QLineEdit>
#include <QListWidget>

namespace rackside {

class ActionFinder : public QDialog {
  Q_OBJECT
 public:
  explicit ActionFinder(const QList<QAction*>& actions, QWidget* parent = nullptr);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void filter();
  void run();

  QList<QAction*> actions_;
  QLineEdit words_;
  QListWidget list_;
};

}  // namespace rackside
