// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/window/main_window.h"

#include <QApplication>
#include <QCloseEvent>
#include <QDir>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenuBar>
#include <QMessageBox>
#include <QMimeData>
#include <QPointer>
#include <QSettings>
#include <QSplitter>
#include <QVBoxLayout>

#include "app/window/document/rack_places.h"
#include "app/window/look/text.h"
#include "app/window/look/theme.h"
#include "app/window/pages/board_page.h"
#include "app/window/pages/looks_page.h"
#include "app/window/pages/paper_page.h"
#include "app/window/pages/parts_page.h"
#include "app/window/pages/photos_page.h"
#include "app/window/pages/shop_page.h"
#include "app/window/pages/tape_dialog.h"
#include "app/window/pages/welcome_page.h"
#include "app/window/panels/cut_panel.h"
#include "app/window/panels/plan_panel.h"
#include "app/window/panels/rack_panel.h"
#include "app/window/tools/place_tool.h"
#include "app/window/window/cards_window.h"
#include "app/window/window/phone_window.h"
#include "core/document/edits.h"

namespace rackside {

MainWindow::MainWindow()
    : planSession_(document_), cutSession_(document_, planSession_), photoSession_(document_) {
  setWindowTitle(tr("Rackside"));
  setAcceptDrops(true);
  qApp->installEventFilter(this);
  resize(1360, 800);
  restoreGeometry(QSettings().value(QStringLiteral("window/geometry")).toByteArray());
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
  delete phoneWindow_;  // the phones write into the document
  delete takeCentralWidget();
}

void MainWindow::buildBody() {
  rackPanel_ = new RackPanel(document_, choice_);
  boardPage_ = new BoardPage(document_, choice_);
  partsPage_ = new PartsPage(document_);
  photosPage_ = new PhotosPage(document_, choice_, photoSession_);
  looksPage_ = new LooksPage(document_, choice_);
  paperPage_ = new PaperPage(document_);
  shopPage_ = new ShopPage(document_);
  welcome_ = new WelcomePage;
  pages_ = new QStackedWidget;
  pages_->addWidget(welcome_);
  pages_->addWidget(boardPage_);
  for (QWidget* page :
       std::initializer_list<QWidget*>{photosPage_, partsPage_, looksPage_, paperPage_, shopPage_})
    pages_->addWidget(page);
  stationPages_[static_cast<size_t>(Station::photographs)] = photosPage_;
  stationPages_[static_cast<size_t>(Station::looks)] = looksPage_;
  stationPages_[static_cast<size_t>(Station::paper)] = paperPage_;
  stationPages_[static_cast<size_t>(Station::shop)] = shopPage_;
  boardPage_->setPlanPanel(new PlanPanel(document_, choice_, planSession_));
  boardPage_->setCutPanel(new CutPanel(document_, choice_, planSession_, cutSession_));
  placeTool_ = std::make_unique<PlaceTool>(boardPage_->view(), planSession_);
  boardPage_->addPlanTool(placeTool_.get(), Qt::Key_7);
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
                           tr("Plan"),        tr("Paper"), tr("Cut"),   tr("Shop")};
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
  phoneWindow_ = new PhoneWindow(document_, planSession_, this);
  phoneButton_ = new QToolButton;
  phoneButton_->setObjectName(QStringLiteral("phoneButton"));
  phoneButton_->setText(tr("Phone …"));
  phoneButton_->setToolTip(tr("Photograph, mark and tick with the phone at the rack"));
  connect(phoneButton_, &QToolButton::clicked, this, &MainWindow::servePhones);
  connect(phoneWindow_, &PhoneWindow::servingChanged, this, [this] {
    phoneButton_->setText(phoneWindow_->serving() ? tr("Phone: on …") : tr("Phone …"));
  });
  row->addWidget(phoneButton_);
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
  connect(&document_, &Document::tookIn, this, [this](const QString& what) { say(what, false); });
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
  connect(&choice_, &Choice::boardChosen, this, [this] { paperPage_->setBoard(choice_.board()); });
  connect(paperPage_, &PaperPage::said, this, &MainWindow::say);
  connect(shopPage_, &ShopPage::said, this, &MainWindow::say);
  connect(photosPage_, &PhotosPage::boardWished, this, [this] { go(Station::wood); });
  connect(looksPage_, &LooksPage::placeWished, this,
          [this](const PartId& part, const Placement& place) {
            constexpr double kSeconds = 5;
            planSession_.placeAt(part, place, kSeconds);
            choice_.setBoard(place.board);
            go(Station::plan);
          });
  connect(looksPage_, &LooksPage::boardWished, this, [this] { go(Station::wood); });
  connect(&photoSession_, &PhotoSession::allDone, this, [this](int scanned, int toRetake) {
    say(toRetake == 0 ? tr("%1 boards measured.").arg(scanned)
                      : tr("%1 boards measured, %2 to retake.").arg(scanned).arg(toRetake),
        toRetake > 0);
  });
  connect(welcome_, &WelcomePage::cardsWished, this, &MainWindow::printCards);
  connect(welcome_, &WelcomePage::photosWished, this, [this] {
    go(Station::photographs);
    photosPage_->choosePhotographs();
  });
  connect(photosPage_, &PhotosPage::photosChosen, this, &MainWindow::addPhotographs);
  connect(welcome_, &WelcomePage::startWished, this, &MainWindow::startRack);
  connect(welcome_, &WelcomePage::openWished, this, &MainWindow::chooseRack);
  connect(welcome_, &WelcomePage::sampleWished, this, &MainWindow::openSample);
}

void MainWindow::openRack(const QString& folder) {
  settleTyping();
  if (!QDir().mkpath(folder))
    return say(tr("The folder %1 could not be made: choose one that you may write to.").arg(folder),
               true);
  document_.open(pathOf(folder));
}

// A board in view whenever there is one; the lesson when there is none.
void MainWindow::afterOpening() {
  const Rack& rack = document_.rack();
  if (!rack.findBoard(choice_.board())) choice_.setBoard({});
  if (choice_.board().empty() && !rack.boards.empty()) rackPanel_->step(0);
  if (document_.isOpen()) {
    const QString folder = qtPath(document_.folder());
    setWindowTitle(tr("%1 – Rackside").arg(QDir(folder).dirName()));
    rememberRack(folder);  // not before: one that cannot be opened is not tried at every start
  }
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
  message_.setText(inOwnUnits(text, document_.lengths()));
  message_.setProperty("role", bad ? QStringLiteral("bad") : QStringLiteral("good"));
  message_.style()->unpolish(&message_);
  message_.style()->polish(&message_);
  message_.show();
  hint_.hide();
  messageTimer_.start(bad ? 12000 : 5000);
}

// A folder that is not there yet is made.
void MainWindow::startRack() {
  QFileDialog dialog(this, tr("Start a rack"), racksFolder());
  dialog.setAcceptMode(QFileDialog::AcceptSave);
  dialog.setFileMode(QFileDialog::AnyFile);
  dialog.setOption(QFileDialog::ShowDirsOnly);
  dialog.setOption(QFileDialog::DontConfirmOverwrite);
  dialog.setLabelText(QFileDialog::FileName, tr("Name of the rack:"));
  dialog.setLabelText(QFileDialog::Accept, tr("Start"));
  dialog.selectFile(QFileInfo(freshRackFolder()).fileName());
  if (dialog.exec() == QDialog::Accepted) openRack(dialog.selectedFiles().value(0));
}

void MainWindow::chooseRack() {
  const QString folder =
      QFileDialog::getExistingDirectory(this, tr("Choose the folder of a rack"), racksFolder());
  if (!folder.isEmpty()) openRack(folder);
}

void MainWindow::fillRecent() {
  recent_->clear();
  for (const QString& folder : recentRacks())
    connect(recent_->addAction(QDir::toNativeSeparators(folder)), &QAction::triggered, this,
            [this, folder] { openRack(folder); });
  recent_->setEnabled(!recent_->isEmpty());
}

void MainWindow::enterByTape() {
  if (!document_.isOpen()) {
    connect(&document_, &Document::opened, this, &MainWindow::enterByTape,
            Qt::SingleShotConnection);
    return openRack(freshRackFolder());
  }
  auto* dialog = new TapeDialog(document_, this);
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  connect(dialog, &TapeDialog::added, this, [this](const BoardId& id) { choice_.setBoard(id); });
  dialog->show();
}

void MainWindow::removeBoard() {
  const Board* board = document_.rack().findBoard(choice_.board());
  if (!board) return;
  const QString name = qt(board->name);
  if (document_.perform(rackside::removeBoard(board->id)))
    say(tr("Board %1 is removed. Ctrl+Z brings it back.").arg(name), false);
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

// What is being typed, in a field or in a cell of a table, is taken over as when the hand leaves
// it.
void MainWindow::settleTyping() {
  const QPointer<QWidget> typing = QApplication::focusWidget();
  if (!typing || !isAncestorOf(typing)) return;
  typing->clearFocus();
  if (typing && typing->isVisible()) typing->setFocus();  // a cell has closed
}

void MainWindow::stepBoard(int by) {
  settleTyping();
  rackPanel_->step(by);
}

void MainWindow::servePhones() {
  phoneWindow_->show();
  phoneWindow_->raise();
  phoneWindow_->activateWindow();
}

void MainWindow::toggleUnits() {
  settleTyping();
  Shop shop = document_.rack().shop;
  shop.show.system =
      shop.show.system == UnitSystem::inches ? UnitSystem::millimetres : UnitSystem::inches;
  (void)document_.perform(changeShop(std::move(shop)));
}

// Some desktops let Ctrl+U erase the field it is typed in; here it switches the units, everywhere.
bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
  const bool pressed =
      event->type() == QEvent::ShortcutOverride || event->type() == QEvent::KeyPress;
  if (!pressed || !qobject_cast<QLineEdit*>(watched)) return false;
  const auto* key = static_cast<QKeyEvent*>(event);
  if (key->key() != Qt::Key_U || key->modifiers() != Qt::ControlModifier) return false;
  event->ignore();
  return true;
}

void MainWindow::closeEvent(QCloseEvent* event) {
  settleTyping();
  const Status saved = document_.saveNow();
  if (!saved) {
    const auto answer = QMessageBox::warning(
        this, tr("Not saved"),
        tr("%1\nClose all the same, and lose what was not saved?").arg(qt(saved.error().message)),
        QMessageBox::Close | QMessageBox::Cancel, QMessageBox::Cancel);
    if (answer == QMessageBox::Cancel) return event->ignore();
  }
  QSettings().setValue(QStringLiteral("window/geometry"), saveGeometry());
  event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
  if (!event->mimeData()->hasUrls()) return;
  event->setDropAction(Qt::CopyAction);
  event->accept();
}

// Photographs go to the photographs, a folder is a rack unless it holds photographs only. The files
// stay where they are, whatever the sender proposed.
void MainWindow::dropEvent(QDropEvent* event) {
  event->setDropAction(Qt::CopyAction);
  event->accept();
  QStringList photos;
  for (const QUrl& url : event->mimeData()->urls()) {
    const QString file = url.toLocalFile();
    if (file.isEmpty()) continue;
    const QStringList inside = QFileInfo(file).isDir() ? photographsIn(file) : QStringList(file);
    if (inside.isEmpty()) return openRack(file);
    photos << inside;
  }
  addPhotographs(photos);
}

// With no rack open a new one is begun, in a folder of its own.
void MainWindow::addPhotographs(const QStringList& photos) {
  if (photos.isEmpty()) return;
  if (!document_.isOpen()) {
    connect(
        &document_, &Document::opened, this, [this, photos] { addPhotographs(photos); },
        Qt::SingleShotConnection);
    const QString folder = freshRackFolder();
    openRack(folder);
    return say(tr("A new rack is begun in %1.").arg(folder), false);
  }
  photoSession_.add(photos);
  go(Station::photographs);
}

}  // namespace rackside
