// SPDX-License-Identifier: GPL-3.0-or-later
// The menus: everything the window does, with its key.
#include <QApplication>
#include <QMenuBar>

#include "app/window/look/language.h"
#include "app/window/look/theme.h"
#include "app/window/pages/board_page.h"
#include "app/window/panels/rack_panel.h"
#include "app/window/window/action_finder.h"
#include "app/window/window/help_window.h"
#include "app/window/window/main_window.h"

namespace rackside {

namespace {

template <class Act>
QAction* add(QMenu* menu, const QString& text, const QKeySequence& key, QObject* context, Act act) {
  QAction* action = menu->addAction(text);
  action->setShortcut(key);
  QObject::connect(action, &QAction::triggered, context, act);
  return action;
}

}  // namespace

void MainWindow::buildMenus() {
  buildRackMenu();
  buildEditMenu();
  buildViewMenu();
  buildHelpMenu();
}

void MainWindow::buildRackMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Rack"));
  add(menu, tr("&Start a rack …"), QKeySequence::New, this, [this] { startRack(); });
  add(menu, tr("&Open a rack …"), QKeySequence::Open, this, [this] { chooseRack(); });
  recent_ = menu->addMenu(tr("Recent rac&ks"));
  connect(recent_, &QMenu::aboutToShow, this, &MainWindow::fillRecent);
  add(menu, tr("Open the &sample rack"), {}, this, [this] { openSample(); });
  add(menu, tr("Print &cards and tags …"), {}, this, [this] { printCards(); });
  add(menu, tr("Enter boards by &tape …"), Qt::CTRL | Qt::Key_T, this, [this] { enterByTape(); });
  add(menu, tr("&Remove the selected board"), {}, this, [this] { removeBoard(); });
  add(menu, tr("&Phone at the rack …"), {}, this, [this] { servePhones(); });
  add(menu, tr("Save &now"), QKeySequence::Save, this, [this] {
    const Status saved = document_.saveNow();
    saved ? say(tr("Saved."), false) : say(QString::fromStdString(saved.error().message), true);
  });
  menu->addSeparator();
  add(menu, tr("&Quit"), QKeySequence::Quit, this, [this] { close(); });
}

void MainWindow::buildEditMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Edit"));
  undo_ = add(menu, tr("&Undo"), QKeySequence::Undo, this, [this] { document_.undo(); });
  redo_ = add(menu, tr("&Redo"), {}, this, [this] { document_.redo(); });
  redo_->setShortcuts(
      {QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), QKeySequence(Qt::CTRL | Qt::Key_Y)});
  showHistory();
}

void MainWindow::buildViewMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&View"));
  menu->addActions(stations_->actions());
  menu->addSeparator();
  add(menu, tr("&Next board"), Qt::Key_PageDown, this, [this] { stepBoard(1); });
  add(menu, tr("&Previous board"), Qt::Key_PageUp, this, [this] { stepBoard(-1); });
  add(menu, tr("&Find a board"), QKeySequence::Find, this, [this] {
    rackPanel_->search().setFocus();
    rackPanel_->search().selectAll();
  });
  add(menu, tr("Go to the &list of boards"), Qt::CTRL | Qt::Key_L, this,
      [this] { rackPanel_->list().setFocus(); });
  add(menu, tr("Go to the &board"), Qt::CTRL | Qt::Key_B, this,
      [this] { boardPage_->view().setFocus(); });
  menu->addSeparator();
  add(menu, tr("&Millimetres or inches"), Qt::CTRL | Qt::Key_U, this, [this] { toggleUnits(); });
  QMenu* themes = menu->addMenu(tr("&Light or dark"));
  auto* group = new QActionGroup(this);
  const std::pair<QString, Theme::Wish> wishes[] = {{tr("As the &system"), Theme::Wish::asSystem},
                                                    {tr("&Light"), Theme::Wish::light},
                                                    {tr("&Dark"), Theme::Wish::dark}};
  for (const auto& [text, wish] : wishes) {
    QAction* action = themes->addAction(text);
    action->setCheckable(true);
    action->setChecked(Theme::instance().wish() == wish);
    group->addAction(action);
    connect(action, &QAction::triggered, this, [w = wish] { Theme::instance().setWish(w); });
  }
  buildLanguageMenu(*menu->addMenu(tr("Lan&guage")));
  add(themes, tr("S&witch theme"), Qt::CTRL | Qt::Key_D, this, [] {
    Theme::instance().setWish(Theme::instance().dark() ? Theme::Wish::light : Theme::Wish::dark);
  });
}

void MainWindow::buildLanguageMenu(QMenu& menu) {
  auto* group = new QActionGroup(this);
  const auto addOne = [&](const QString& text, const QString& code) {
    QAction* action = menu.addAction(text);
    action->setCheckable(true);
    action->setChecked(languageWish() == code);
    group->addAction(action);
    connect(action, &QAction::triggered, this, [this, code] {
      setLanguageWish(code);
      say(tr("The language changes when Rackside is started again."), false);
    });
  };
  addOne(tr("As the s&ystem"), {});
  for (const auto& [code, name] : languages()) addOne(name, code);
}

void MainWindow::buildHelpMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Help"));
  add(menu, tr("&Find an action …"), Qt::Key_F4, this, [this] {
    auto* finder = new ActionFinder(findChildren<QAction*>(), this);
    finder->setAttribute(Qt::WA_DeleteOnClose);
    finder->show();
  });
  add(menu, tr("&Guide and shortcuts"), QKeySequence::HelpContents, this, [this] {
    auto* help = new HelpWindow(this);
    help->setAttribute(Qt::WA_DeleteOnClose);
    help->show();
  });
}

}  // namespace rackside
