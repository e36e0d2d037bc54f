// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/window/main_window.h"

#include <QApplication>
#include <QCloseEvent>
#include <QDir>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QMenuBar>
#include <QMessageBox>
#include <QMimeData>
#include <QSettings>
#include <QSplitter>
#include <QVBoxLayout>

#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/pages/board_page.h"
#include "app/window/pages/looks_page.h"
#include "app/window/pages/paper_page.h"
#include "app/window/pages/parts_page.h"
#include "app/window/pages/photos_page.h"
#include "app/window/pages/welcome_page.h"
#include "app/window/panels/cut_panel.h"
#include "app/window/panels/plan_panel.h"
#include "app/window/panels/rack_panel.h"
#include "app/window/tools/place_tool.h"
#include "app/window/window/cards_window.h"
#include "core/document/edits.h"

namespace rackside {

MainWindow::MainWindow()
    : planSession_(document_), cutSession_(document_, planSession_), photoSession_(document_) {
  setWindowTitle(tr("Rackside"));
  setAcceptDrops(true);
  resize(1360, 800);
  Theme::instance();
  buildBody();
  buildMenus();
  connectParts();
  afterOpening();
}

// The pages look at the document until they are gone, so they go first; the labels are members and
// not theirs to delete.
MainWindow::~MainWindow() {
  for (QLabel* label : {&hint_, &message_, &place_, &saved_}) label->setParent(nullptr);
  delete takeCentralWidget();
}

void MainWindow::buildBody() {
  rackPanel_ = new RackPanel(document_, choice_);
  boardPage_ = new BoardPage(document_, choice_);
  partsPage_ = new PartsPage(document_);
  photosPage_ = new PhotosPage(document_, choice_, photoSession_);
  looksPage_ = new LooksPage(document_, choice_);
  paperPage_ = new PaperPage(document_);
  welcome_ = new WelcomePage;
  pages_ = new QStackedWidget;
  pages_->addWidget(welcome_);
  pages_->addWidget(boardPage_);
  for (QWidget* page :
       std::initializer_list<QWidget*>{photosPage_, partsPage_, looksPage_, paperPage_})
    pages_->addWidget(page);
  stationPages_[static_cast<size_t>(Station::photographs)] = photosPage_;
  stationPages_[static_cast<size_t>(Station::looks)] = looksPage_;
  stationPages_[static_cast<size_t>(Station::paper)] = paperPage_;
  boardPage_->setPlanPanel(new PlanPanel(document_, choice_, planSession_));
  boardPage_->setCutPanel(new CutPanel(document_, choice_, planSession_, cutSession_));
  placeTool_ = std::make_unique<PlaceTool>(boardPage_->view(), planSession_);
  boardPage_->addPlanTool(placeTool_.get(), Qt::Key_P);
  boardPage_->view().setPlanSource([this] { return planSession_.shown(); });
  stationPages_[static_cast<size_t>(Station::parts)] = partsPage_;
  stationPages_[static_cast<size_t>(Station::wood)] = boardPage_;
  stationPages_[static_cast<size_t>(Station::plan)] = boardPage_;
  stationPages_[static_cast<size_t>(Station::cut)] = boardPage_;

  auto* split = new QSplitter;
  split->addWidget(rackPanel_);
  split->addWidget(pages_);
  split->setStretchFactor(1, 1);
  split->setSizes({280, 1080});
  split->setCollapsible(1, false);
  auto* body = new QWidget;
  auto* column = new QVBoxLayout(body);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(buildTopBar());
  column->addWidget(split, 1);
  column->addWidget(buildFoot());
  setCentralWidget(body);
}

QWidget* MainWindow::buildTopBar() {
  auto* bar = new QFrame;
  bar->setProperty("role", QStringLiteral("panel"));
  auto* row = new QHBoxLayout(bar);
  row->setContentsMargins(10, 6, 10, 6);
  stations_ = new QActionGroup(this);
  const QString names[] = {tr("Photographs"), tr("Wood"),  tr("Parts"), tr("Looks"),
                           tr("Plan"),        tr("Paper"), tr("Cut")};
  for (size_t i = 0; i < stationPages_.size(); ++i) {
    auto* action = new QAction(names[i], this);
    action->setCheckable(true);
    action->setShortcut(QKeySequence(QStringLiteral("Alt+%1").arg(i + 1)));
    action->setToolTip(QStringLiteral("%1 (Alt+%2)").arg(names[i]).arg(i + 1));
    stations_->addAction(action);
    connect(action, &QAction::triggered, this, [this, i] { go(static_cast<Station>(i)); });
    auto* button = new QToolButton;
    button->setDefaultAction(action);
    button->setObjectName(QStringLiteral("station%1").arg(i + 1));
    QFont font = button->font();
    font.setPointSizeF(font.pointSizeF() * 1.1);
    button->setFont(font);
    stationButtons_[i] = button;
    row->addWidget(button);
  }
  row->addStretch(1);
  saved_.setProperty("role", QStringLiteral("faint"));
  row->addWidget(&saved_);
  return bar;
}

QWidget* MainWindow::buildFoot() {
  auto* foot = new QFrame;
  foot->setProperty("role", QStringLiteral("panel"));
  auto* row = new QHBoxLayout(foot);
  row->setContentsMargins(12, 4, 12, 4);
  for (QLabel* label : {&hint_, &message_}) {
    label->setWordWrap(true);
    label->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    row->addWidget(label, 1);
  }
  message_.hide();
  message_.setObjectName(QStringLiteral("message"));
  hint_.setProperty("role", QStringLiteral("faint"));
  hint_.setMinimumHeight(2 * fontMetrics().height());
  place_.setMinimumWidth(
      fontMetrics().horizontalAdvance(QStringLiteral("along 888 88/88  across 88 88/88")));
  place_.setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  row->addWidget(&place_);
  messageTimer_.setSingleShot(true);
  connect(&messageTimer_, &QTimer::timeout, this, [this] {
    message_.hide();
    hint_.show();
  });
  return foot;
}

void MainWindow::connectParts() {
  connect(&document_, &Document::opened, this, &MainWindow::afterOpening);
  connect(&document_, &Document::changed, this, [this](const ChangeEvents& events) {
    for (const ChangeEvent& event : events)
      if (event.what == ChangeEvent::What::boardAdded ||
          event.what == ChangeEvent::What::boardRemoved)
        return afterOpening();
  });
  connect(&document_, &Document::openFailed, this, [this](const QString& why) { say(why, true); });
  connect(&document_, &Document::editRefused, this, [this](const QString& why) { say(why, true); });
  connect(&document_, &Document::saveFailed, this,
          [this](const QString& why) { say(tr("Not saved: %1").arg(why), true); });
  connect(&document_, &Document::historyChanged, this, &MainWindow::showHistory);
  connect(&document_, &Document::saveStateChanged, this, &MainWindow::showSaveState);
  connect(&boardPage_->view(), &FaceView::hintChanged, &hint_, &QLabel::setText);
  connect(&boardPage_->view(), &FaceView::cursorMoved, this, &MainWindow::showCursor);
  connect(&planSession_, &PlanSession::shownChanged, this,
          [this] { boardPage_->view().refreshPlan(); });
  connect(&planSession_, &PlanSession::failed, this,
          [this](const QString& why) { say(why, true); });
  connect(&cutSession_, &CutSession::said, this, [this](const QString& text) { say(text, false); });
  connect(&boardPage_->suggestions(), &SuggestRow::said, this, &MainWindow::say);
  connect(partsPage_, &PartsPage::said, this, &MainWindow::say);
  connect(paperPage_, &PaperPage::said, this, &MainWindow::say);
  connect(photosPage_, &PhotosPage::boardWished, this, [this] { go(Station::wood); });
  connect(looksPage_, &LooksPage::boardWished, this, [this] { go(Station::wood); });
  connect(&photoSession_, &PhotoSession::allDone, this, [this](int scanned, int toRetake) {
    say(toRetake == 0 ? tr("%1 boards measured.").arg(scanned)
                      : tr("%1 boards measured, %2 to take again.").arg(scanned).arg(toRetake),
        toRetake > 0);
  });
  connect(welcome_, &WelcomePage::cardsWished, this, &MainWindow::printCards);
  connect(welcome_, &WelcomePage::photosWished, this, [this] {
    go(Station::photographs);
    photosPage_->choosePhotographs();
  });
  connect(welcome_, &WelcomePage::openWished, this, &MainWindow::chooseRack);
  connect(welcome_, &WelcomePage::sampleWished, this, &MainWindow::openSample);
}

void MainWindow::openRack(const QString& folder) {
  QDir().mkpath(folder);
  QSettings().setValue(QStringLiteral("rack/latest"), folder);
  document_.open(pathOf(folder));
}

// A board in view whenever there is one; the lesson when there is none.
void MainWindow::afterOpening() {
  const Rack& rack = document_.rack();
  if (!rack.findBoard(choice_.board())) choice_.setBoard({});
  if (choice_.board().empty() && !rack.boards.empty()) rackPanel_->step(0);
  if (document_.isOpen())
    setWindowTitle(tr("%1 – Rackside").arg(QDir(qtPath(document_.folder())).dirName()));
  welcome_->setRackOpen(document_.isOpen());
  go(station_);
  showSaveState();
  boardPage_->view().showHint();
}

void MainWindow::go(Station station) {
  station_ = station;
  const auto at = static_cast<size_t>(station);
  stations_->actions()[static_cast<qsizetype>(at)]->setChecked(true);
  const bool teaches =
      document_.rack().boards.empty() &&
      (station == Station::wood || station == Station::plan || station == Station::cut);
  QWidget* page = teaches || !stationPages_[at] ? welcome_ : stationPages_[at];
  rackPanel_->setVisible(!document_.rack().boards.empty());
  if (page == boardPage_)
    boardPage_->setSide(station == Station::plan  ? BoardPage::Side::plan
                        : station == Station::cut ? BoardPage::Side::cut
                                                  : BoardPage::Side::wood);
  pages_->setCurrentWidget(page);
  hint_.setVisible(page == boardPage_ && message_.isHidden());
  place_.setVisible(page == boardPage_);
  if (page == boardPage_) boardPage_->view().setFocus();
}

void MainWindow::showHistory() {
  const History& history = document_.history();
  undo_->setEnabled(history.canUndo());
  redo_->setEnabled(history.canRedo());
  undo_->setText(history.canUndo() ? tr("&Undo: %1").arg(qt(history.undoTitle())) : tr("&Undo"));
  redo_->setText(history.canRedo() ? tr("&Redo: %1").arg(qt(history.redoTitle())) : tr("&Redo"));
}

void MainWindow::showSaveState() {
  saved_.setText(!document_.isOpen()            ? QString()
                 : document_.latestSaveFailed() ? tr("Not saved")
                 : document_.saved()            ? tr("All saved")
                                                : tr("Saving …"));
}

void MainWindow::showCursor(const std::optional<Point>& at) {
  if (!at) return place_.clear();
  const LengthStyle style = document_.lengths();
  place_.setText(
      tr("along %1   across %2").arg(lengthText(at->x, style), lengthText(at->y, style)));
}

void MainWindow::say(const QString& text, bool bad) {
  message_.setText(text);
  message_.setProperty("role", bad ? QStringLiteral("bad") : QStringLiteral("good"));
  message_.style()->unpolish(&message_);
  message_.style()->polish(&message_);
  message_.show();
  hint_.hide();
  messageTimer_.start(bad ? 12000 : 5000);
}

void MainWindow::chooseRack() {
  const QString folder = QFileDialog::getExistingDirectory(
      this, tr("Choose the folder of a rack, or an empty folder for a new one"));
  if (!folder.isEmpty()) openRack(folder);
}

void MainWindow::openSample() {
  const QString folder = sampleRackFolder();
  if (folder.isEmpty())
    return say(tr("The sample rack was not found beside the program. Run samples/demo.sh once; it "
                  "makes it."),
               true);
  openRack(folder);
}

void MainWindow::printCards() {
  auto* cards = new CardsWindow(this);
  cards->setAttribute(Qt::WA_DeleteOnClose);
  cards->show();
}

void MainWindow::toggleUnits() {
  Shop shop = document_.rack().shop;
  shop.show.system =
      shop.show.system == UnitSystem::inches ? UnitSystem::millimetres : UnitSystem::inches;
  (void)document_.perform(changeShop(std::move(shop)));
}

void MainWindow::closeEvent(QCloseEvent* event) {
  const Status saved = document_.saveNow();
  if (!saved) {
    const auto answer = QMessageBox::warning(
        this, tr("Not saved"),
        tr("%1\nClose all the same, and lose what was not saved?").arg(qt(saved.error().message)),
        QMessageBox::Close | QMessageBox::Cancel, QMessageBox::Cancel);
    if (answer == QMessageBox::Cancel) return event->ignore();
  }
  event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) event->acceptProposedAction();
}

// Photographs go to the photographs, a folder is a rack.
void MainWindow::dropEvent(QDropEvent* event) {
  event->acceptProposedAction();
  QStringList photos;
  for (const QUrl& url : event->mimeData()->urls()) {
    const QString file = url.toLocalFile();
    if (QFileInfo(file).isDir()) return openRack(file);
    if (!file.isEmpty()) photos << file;
  }
  addPhotographs(photos);
}

void MainWindow::addPhotographs(const QStringList& photos) {
  if (photos.isEmpty()) return;
  if (!document_.isOpen())
    return say(tr("First open a rack, or start one in an empty folder: the boards need a place."),
               true);
  photoSession_.add(photos);
  go(Station::photographs);
}

QString sampleRackFolder() {
  const QStringList places{QCoreApplication::applicationDirPath() + QStringLiteral("/sample-rack"),
                           QStringLiteral(RACKSIDE_SAMPLE_RACK)};
  for (const QString& place : places)
    if (QDir(place).exists()) return place;
  return {};
}

}  // namespace rackside
