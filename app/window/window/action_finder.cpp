// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/window/action_finder.h"

#include <QKeyEvent>
#include <QTimer>
#include <QVBoxLayout>

namespace rackside {

namespace {

QString plainText(const QAction& action) {
  QString text = action.text();
  return text.remove(QLatin1Char('&'));
}

}  // namespace

ActionFinder::ActionFinder(const QList<QAction*>& actions, QWidget* parent) : QDialog(parent) {
  setWindowTitle(tr("Find an action"));
  resize(460, 420);
  for (QAction* action : actions)
    if (!action->text().isEmpty() && !action->menu() && !actions_.contains(action))
      actions_ << action;
  words_.setObjectName(QStringLiteral("actionWords"));
  words_.setPlaceholderText(tr("What do you want to do?"));
  words_.installEventFilter(this);
  list_.setObjectName(QStringLiteral("actionList"));
  list_.setAccessibleName(tr("Actions"));
  auto* column = new QVBoxLayout(this);
  column->addWidget(&words_);
  column->addWidget(&list_);
  connect(&words_, &QLineEdit::textChanged, this, &ActionFinder::filter);
  connect(&words_, &QLineEdit::returnPressed, this, &ActionFinder::run);
  connect(&list_, &QListWidget::itemActivated, this, &ActionFinder::run);
  filter();
}

// Words in any order; the arrow keys choose while one goes on typing.
void ActionFinder::filter() {
  const QStringList words = words_.text().split(QLatin1Char(' '), Qt::SkipEmptyParts);
  list_.clear();
  for (qsizetype i = 0; i < actions_.size(); ++i) {
    const QAction& action = *actions_[i];
    QString text = plainText(action);
    bool all = true;
    for (const QString& word : words) all = all && text.contains(word, Qt::CaseInsensitive);
    if (!all) continue;
    if (!action.shortcut().isEmpty())
      text += QStringLiteral("    ") + action.shortcut().toString(QKeySequence::NativeText);
    auto* item = new QListWidgetItem(text, &list_);
    item->setData(Qt::UserRole, i);
    if (!action.isEnabled()) item->setFlags(item->flags() & ~Qt::ItemIsEnabled);
  }
  list_.setCurrentRow(0);
}

void ActionFinder::run() {
  const QListWidgetItem* item = list_.currentItem();
  if (!item || !item->flags().testFlag(Qt::ItemIsEnabled)) return;
  QAction* action = actions_[item->data(Qt::UserRole).toLongLong()];
  close();
  QTimer::singleShot(0, action, [action] { action->trigger(); });
}

bool ActionFinder::eventFilter(QObject* watched, QEvent* event) {
  if (watched == &words_ && event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Up || key == Qt::Key_Down) {
      const int to = list_.currentRow() + (key == Qt::Key_Down ? 1 : -1);
      if (to >= 0 && to < list_.count()) list_.setCurrentRow(to);
      return true;
    }
  }
  return QDialog::eventFilter(watched, event);
}

}  // namespace rackside
