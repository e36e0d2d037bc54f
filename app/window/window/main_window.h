// SPDX-License-Identifier: GPL-3.0-or-later
// The window: the rack on the left, the work in the middle, in the order a job is done:
// photographs, wood, parts, looks, plan, paper, cut day; and the shop it is done in.
#pragma once

#include <QActionGroup>
#include <QLabel>
#include <QMainWindow>
#include <QStackedWidget>
#include <QToolButton>
#include <array>
#include <memory>

#include "app/window/document/choice.h"
#include "app/window/document/cut_session.h"
#include "app/window/document/document.h"
#include "app/window/document/photo_session.h"
#include "app/window/document/plan_session.h"
#include "app/window/tools/tool.h"

namespace rackside {

class BoardPage;
class LooksPage;
class PaperPage;
class PartsPage;
class PhoneWindow;
class PhotosPage;
class RackPanel;
class ShopPage;
class WelcomePage;

class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  enum class Station { photographs, wood, parts, looks, plan, paper, cut, shop };
  MainWindow();
  ~MainWindow() override;

  Document& document() { return document_; }
  Choice& choice() { return choice_; }
  BoardPage& boardPage() { return *boardPage_; }
  RackPanel& rackPanel() { return *rackPanel_; }
  PartsPage& partsPage() { return *partsPage_; }
  LooksPage& looksPage() { return *looksPage_; }
  PaperPage& paperPage() { return *paperPage_; }
  ShopPage& shopPage() { return *shopPage_; }
  PlanSession& planSession() { return planSession_; }
  CutSession& cutSession() { return cutSession_; }
  PhotoSession& photoSession() { return photoSession_; }
  PhoneWindow& phoneWindow() { return *phoneWindow_; }
  Station station() const { return station_; }
  void go(Station station);
  void openRack(const QString& folder);
  void addPhotographs(const QStringList& photos);

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void closeEvent(QCloseEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void buildBody();
  QWidget* buildTopBar();
  QWidget* buildFoot();
  void buildMenus();
  void buildRackMenu();
  void buildEditMenu();
  void buildViewMenu();
  void buildHelpMenu();
  void buildLanguageMenu(QMenu& menu);
  void connectParts();
  void afterOpening();
  void showHistory();
  void showSaveState();
  void showCursor(const std::optional<Point>& at);
  void say(const QString& text, bool bad);
  void startRack();
  void chooseRack();
  void openSample();
  void fillRecent();
  void enterByTape();
  void removeBoard();
  void printCards();
  void settleTyping();
  void stepBoard(int by);
  void servePhones();
  void toggleUnits();

  Document document_;
  Choice choice_;
  PlanSession planSession_;
  CutSession cutSession_;
  PhotoSession photoSession_;
  std::unique_ptr<Tool> placeTool_;
  RackPanel* rackPanel_ = nullptr;
  BoardPage* boardPage_ = nullptr;
  PartsPage* partsPage_ = nullptr;
  PhotosPage* photosPage_ = nullptr;
  LooksPage* looksPage_ = nullptr;
  PaperPage* paperPage_ = nullptr;
  ShopPage* shopPage_ = nullptr;
  WelcomePage* welcome_ = nullptr;
  PhoneWindow* phoneWindow_ = nullptr;
  QToolButton* phoneButton_ = nullptr;
  QStackedWidget* pages_ = nullptr;
  std::array<QWidget*, 8> stationPages_{};
  std::array<QToolButton*, 8> stationButtons_{};
  QActionGroup* stations_ = nullptr;
  QMenu* recent_ = nullptr;
  QAction *undo_ = nullptr, *redo_ = nullptr;
  QLabel hint_, message_, place_, saved_;
  QTimer messageTimer_;
  Station station_ = Station::wood;
};

}  // namespace rackside
