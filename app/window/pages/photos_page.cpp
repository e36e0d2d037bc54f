// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/photos_page.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLocale>
#include <QScrollArea>
#include <QStyle>

#include "app/window/document/rack_places.h"
#include "app/window/look/text.h"
#include "app/window/pages/flow_layout.h"
#include "core/base/number_text.h"

namespace rackside {

namespace {

constexpr int kPictureWidth = 150;

void setRole(QLabel& label, const char* role) {
  if (label.property("role").toString() == QLatin1String(role)) return;
  label.setProperty("role", QString::fromLatin1(role));
  label.style()->unpolish(&label);
  label.style()->polish(&label);
}

double numberIn(const QLineEdit& edit) {
  return numberFrom(edit.text().toStdString()).value_or(0);
}

QString stateText(const BoardPhotos& group) {
  switch (group.state) {
    case BoardPhotos::State::ready: {
      const QString seen =
          group.cards == 1 ? QObject::tr(
                                 "1 card seen. Ready to be measured; two or three cards "
                                 "along the board measure better.")
                           : QObject::tr("%1 cards seen. Ready to be measured.").arg(group.cards);
      return group.found.isEmpty() ? seen : seen + QLatin1Char(' ') + group.found;
    }
    case BoardPhotos::State::scanning:
      return QObject::tr("Being measured …");
    default:
      return group.found;
  }
}

}  // namespace

PhotoGroupRow::PhotoGroupRow() {
  setProperty("role", QStringLiteral("panel"));
  picture_.setFixedWidth(kPictureWidth);
  picture_.setAlignment(Qt::AlignTop | Qt::AlignHCenter);
  title_.setProperty("role", QStringLiteral("group"));
  for (QLabel* label : {&title_, &found_, &advice_}) label->setWordWrap(true);
  advice_.setProperty("role", QStringLiteral("faint"));
  face_.setPlaceholderText(tr("Which face?"));
  face_.setAccessibleName(tr("Face that the photographs show"));
  face_.setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
  remove_.setText(tr("Remove from list"));
  go_.setText(tr("Look at it"));
  auto* text = new QVBoxLayout;
  text->addWidget(&title_);
  text->addWidget(&found_);
  text->addWidget(&advice_);
  text->addWidget(&face_);
  text->addWidget(buildDetails());
  text->addStretch(1);
  auto* buttons = new QVBoxLayout;
  buttons->addWidget(&go_);
  buttons->addWidget(&remove_);
  buttons->addStretch(1);
  auto* row = new QHBoxLayout(this);
  row->addWidget(&picture_);
  row->addLayout(text, 1);
  row->addLayout(buttons);
  connect(&face_, &QComboBox::activated, this,
          [this](int at) { at == 2 ? emit joinWished() : emit faceBWished(at == 1); });
  connect(&remove_, &QPushButton::clicked, this, &PhotoGroupRow::removeWished);
  connect(&go_, &QPushButton::clicked, this, &PhotoGroupRow::boardWished);
}

// One line, so that a list of hundreds stays short.
QWidget* PhotoGroupRow::buildDetails() {
  auto* box = new QWidget;
  auto* row = new QHBoxLayout(box);
  row->setContentsMargins(0, 0, 0, 0);
  const std::pair<QLineEdit*, QString> fields[] = {{&species_, tr("Species")},
                                                   {&thickness_, tr("Thickness")},
                                                   {&place_, tr("Location")},
                                                   {&price_, tr("Price per board foot")}};
  for (const auto& [edit, title] : fields) {
    edit->setAccessibleName(title);
    edit->setToolTip(title);
    edit->setPlaceholderText(title);
    row->addWidget(edit, 1);
    connect(edit, &QLineEdit::editingFinished, this, &PhotoGroupRow::enter);
  }
  return box;
}

void PhotoGroupRow::enter() {
  if (!species_.isModified() && !place_.isModified() && !price_.isModified() &&
      thickness_.value() == shownThickness_)
    return;
  for (QLineEdit* edit : {&species_, &place_, &price_}) edit->setModified(false);
  emit detailsEntered({species_.text().trimmed(), place_.text().trimmed(),
                       thickness_.value().value_or(0), numberIn(price_)});
}

void PhotoGroupRow::show(const BoardPhotos& group, const BoardDetails& details, bool canJoin,
                         const LengthStyle& style) {
  const auto put = [](QLineEdit& edit, const QString& text) {
    if (!edit.isModified()) edit.setText(text);
  };
  put(species_, details.species);
  put(place_, details.place);
  put(price_,
      details.pricePerBoardFoot > 0 ? QLocale().toString(details.pricePerBoardFoot) : QString());
  thickness_.setStyle(style);
  shownThickness_ = details.thicknessMm > 0 ? std::optional(details.thicknessMm) : std::nullopt;
  thickness_.setValue(shownThickness_);
  using State = BoardPhotos::State;
  QPixmap picture = QPixmap::fromImage(group.small);
  if (!picture.isNull())
    picture_.setPixmap(picture.scaledToWidth(kPictureWidth, Qt::SmoothTransformation));
  QStringList names;
  for (const QString& photo : group.photos) names << QFileInfo(photo).fileName();
  title_.setText((group.tag ? tr("Tag %1: ").arg(*group.tag) : tr("No tag: ")) + listed(names));
  found_.setText(inOwnUnits(stateText(group), style));
  setRole(found_, group.state == State::done     ? "good"
                  : group.state == State::retake ? "bad"
                  : group.state == State::asks   ? "warn"
                                                 : "plain");
  advice_.setText(inOwnUnits(group.advice.join(QLatin1Char('\n')), style));
  advice_.setVisible(!group.advice.isEmpty());
  const bool open =
      group.state == State::ready || group.state == State::stopped || group.state == State::asks;
  face_.clear();
  face_.addItems({tr("Face A"), tr("Face B")});
  if (canJoin) face_.addItem(tr("The same face as above: measure together"));
  face_.setCurrentIndex(group.state == State::asks ? -1 : group.asFaceB ? 1 : 0);
  face_.setVisible(open && group.tag);
  remove_.setVisible(group.state != State::scanning);
  go_.setVisible(group.state == State::done);
}

PhotosPage::PhotosPage(Document& document, Choice& choice, PhotoSession& session, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice), session_(session) {
  build();
  connect(&session_, &PhotoSession::changed, this, &PhotosPage::refresh);
  connect(&session_, &PhotoSession::progress, this, &PhotosPage::showProgress);
  connect(&document_, &Document::opened, this, &PhotosPage::refresh);
  connect(&document_, &Document::changed, this, &PhotosPage::refresh);
  connect(&choose_, &QPushButton::clicked, this, &PhotosPage::choosePhotographs);
  connect(&scan_, &QPushButton::clicked, this,
          [this] { session_.scanning() ? session_.stop() : session_.scanAll(); });
  refresh();
}

QWidget* PhotosPage::buildSettings() {
  auto* box = new QFrame;
  box->setProperty("role", QStringLiteral("panel"));
  auto* form = new QFormLayout(box);
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  auto* head = new QLabel(tr("For all boards of this batch"));
  head->setProperty("role", QStringLiteral("group"));
  form->addRow(head);
  species_.setPlaceholderText(tr("e.g. cherry"));
  place_.setPlaceholderText(tr("e.g. left bay"));
  cardsOn_.addItem(tr("on the board"));
  cardsOn_.addItem(tr("on the bench beside it"));
  mistake_.setProperty("role", QStringLiteral("bad"));
  mistake_.setWordWrap(true);
  mistake_.hide();
  form->addRow(tr("Spe&cies"), &species_);
  form->addRow(tr("&Thickness"), &thickness_);
  form->addRow(tr("&Location"), &place_);
  form->addRow(tr("&Price per board foot"), &price_);
  reference_.addItem(tr("printed cards"), -1);
  reference_.addItem(tr("a bank card"), static_cast<int>(PlainReference::bankCard));
  reference_.addItem(tr("a sheet of A4"), static_cast<int>(PlainReference::a4));
  reference_.addItem(tr("a sheet of US Letter"), static_cast<int>(PlainReference::letter));
  reference_.setToolTip(
      tr("No printer? A bank card or a sheet of paper will do, with a larger ±."));
  connect(&reference_, &QComboBox::currentIndexChanged, this, [this] {
    const int chosen = reference_.currentData().toInt();
    session_.settings().reference =
        chosen < 0 ? std::nullopt : std::optional(static_cast<PlainReference>(chosen));
  });
  form->addRow(tr("Sca&le from"), &reference_);
  form->addRow(tr("Cards &lie"), &cardsOn_);
  cardThickness_.setExample(3);
  form->addRow(tr("Thickness of the card&s"), &cardThickness_);
  bar_.setExample(printedBarMm());
  bar_.setObjectName(QStringLiteral("photosBar"));
  bar_.setToolTip(
      tr("Measure the bar printed on a card with a steel rule and enter what it "
         "measures: the ± gets smaller."));
  form->addRow(tr("Measured &bar"), &bar_);
  bow_.setExample(4);
  bow_.setToolTip(tr("How far the boards' ends stand up, where they do not lie flat."));
  form->addRow(tr("Bo&w"), &bow_);
  connect(&bar_, &LengthEdit::entered, this,
          [this](std::optional<double> mm) { session_.settings().barMm = mm.value_or(0); });
  connect(&bow_, &LengthEdit::entered, this,
          [this](std::optional<double> mm) { session_.settings().bowMm = mm.value_or(0); });
  form->addRow(&mistake_);
  cardThickness_.setToolTip(
      tr("Of a card with the strip it is glued to; leave empty for bare paper."));
  connect(&species_, &QLineEdit::textChanged, this,
          [this](const QString& text) { session_.settings().species = text.trimmed(); });
  connect(&place_, &QLineEdit::textChanged, this,
          [this](const QString& text) { session_.settings().place = text.trimmed(); });
  connect(&price_, &QLineEdit::textChanged, this,
          [this] { session_.settings().pricePerBoardFoot = numberIn(price_); });
  connect(&cardsOn_, &QComboBox::currentIndexChanged, this, [this](int at) {
    session_.settings().cardsOn = at == 0 ? CardsOn::board : CardsOn::bench;
  });
  connect(&thickness_, &LengthEdit::entered, this,
          [this](std::optional<double> mm) { session_.settings().thicknessMm = mm.value_or(0); });
  connect(&cardThickness_, &LengthEdit::entered, this, [this](std::optional<double> mm) {
    session_.settings().cardThicknessMm = mm.value_or(0);
  });
  for (LengthEdit* edit : {&thickness_, &cardThickness_, &bar_, &bow_})
    connect(edit, &LengthEdit::mistaken, this, [this](const QString& why) {
      mistake_.setText(why);
      mistake_.setVisible(!why.isEmpty());
    });
  return box;
}

void PhotosPage::build() {
  auto* title = new QLabel(tr("Photographs"));
  title->setProperty("role", QStringLiteral("title"));
  empty_.setWordWrap(true);
  empty_.setText(
      tr("Drop photographs here, of as many boards as you like. Each is looked at for its "
         "tag and its cards, so that the pictures of one board come together; then they "
         "are measured in the background, one board after another. What to retake, and "
         "why, is said beside it."));
  empty_.setProperty("role", QStringLiteral("faint"));
  choose_.setText(tr("Choose &photographs …"));
  scan_.setProperty("main", true);
  scan_.setObjectName(QStringLiteral("scanStart"));
  summary_.setWordWrap(true);
  stage_.setProperty("role", QStringLiteral("faint"));
  progress_.setRange(0, 1000);
  progress_.setTextVisible(false);
  auto* buttons = new QWidget;
  auto* flow = new FlowLayout(buttons);
  flow->setContentsMargins(0, 0, 0, 0);
  flow->addWidget(&choose_);
  flow->addWidget(&scan_);

  auto* list = new QWidget;
  rows_ = new QVBoxLayout(list);
  rows_->setContentsMargins(0, 0, 0, 0);
  rows_->setSpacing(8);
  rows_->addStretch(1);
  auto* scroll = new QScrollArea;
  scroll->setWidget(list);
  scroll->setWidgetResizable(true);
  auto* left = new QVBoxLayout;
  for (QWidget* widget :
       std::initializer_list<QWidget*>{title, &empty_, buttons, &summary_, &progress_, &stage_})
    left->addWidget(widget);
  left->addWidget(scroll, 1);
  auto* right = new QVBoxLayout;
  QWidget* settings = buildSettings();
  settings->setMaximumWidth(340);
  right->addWidget(settings);
  right->addStretch(1);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(18, 14, 18, 14);
  row->setSpacing(16);
  row->addLayout(left, 1);
  row->addLayout(right);
}

void PhotosPage::choosePhotographs() {
  const QStringList files = QFileDialog::getOpenFileNames(
      this, tr("Choose photographs"), {}, tr("Photographs (%1)").arg(photographPatterns()));
  if (!files.isEmpty()) emit photosChosen(files);
}

void PhotosPage::refresh() {
  const auto& groups = session_.groups();
  while (shown_.size() > groups.size()) {
    delete shown_.back();
    shown_.pop_back();
  }
  while (shown_.size() < groups.size()) {
    auto* row = new PhotoGroupRow;
    const size_t at = shown_.size();
    shown_.push_back(row);
    rows_->insertWidget(static_cast<int>(at), row);
    connect(row, &PhotoGroupRow::faceBWished, this,
            [this, at](bool faceB) { session_.setFaceB(session_.groups()[at].id, faceB); });
    connect(row, &PhotoGroupRow::detailsEntered, this, [this, at](const BoardDetails& details) {
      session_.setDetails(session_.groups()[at].id, details);
    });
    connect(
        row, &PhotoGroupRow::joinWished, this,
        [this, at] { session_.join(session_.groups()[at].id); }, Qt::QueuedConnection);
    connect(
        row, &PhotoGroupRow::removeWished, this,
        [this, at] { session_.remove(session_.groups()[at].id); }, Qt::QueuedConnection);
    connect(row, &PhotoGroupRow::boardWished, this, [this, at] {
      choice_.setBoard(session_.groups()[at].board);
      emit boardWished();
    });
  }
  int ready = 0;
  for (size_t i = 0; i < groups.size(); ++i) {
    shown_[i]->show(groups[i], session_.details(groups[i]), session_.canJoin(groups[i].id),
                    document_.lengths());
    ready += groups[i].state == BoardPhotos::State::ready ||
             groups[i].state == BoardPhotos::State::stopped;
  }
  scan_.setText(session_.scanning() ? tr("&Stop")
                : ready == 1        ? tr("&Measure 1 board")
                                    : tr("&Measure %1 boards").arg(ready));
  scan_.setEnabled(session_.scanning() || (ready > 0 && document_.isOpen()));
  scan_.setVisible(!groups.empty());
  thickness_.setStyle(document_.lengths());
  for (LengthEdit* edit : {&cardThickness_, &bar_, &bow_}) edit->setStyle(document_.lengths());
  showProgress();
}

// "3 measured, 2 to retake, 1 file is not a photograph."
QString PhotosPage::summaryText() const {
  const auto count = [this](BoardPhotos::State s) {
    return static_cast<int>(std::count_if(session_.groups().begin(), session_.groups().end(),
                                          [s](const BoardPhotos& g) { return g.state == s; }));
  };
  QStringList text;
  if (const int n = count(BoardPhotos::State::done)) text << tr("%1 measured").arg(n);
  if (const int n = count(BoardPhotos::State::asks)) text << tr("%1 to say the face of").arg(n);
  if (const int n = count(BoardPhotos::State::retake)) text << tr("%1 to retake").arg(n);
  if (const int n = count(BoardPhotos::State::noPhotograph))
    text << (n == 1 ? tr("1 file is not a photograph") : tr("%1 files are not photographs").arg(n));
  return text.isEmpty() ? QString() : text.join(QStringLiteral(", ")) + QLatin1Char('.');
}

void PhotosPage::showProgress() {
  summary_.setText(summaryText());
  summary_.setVisible(!summary_.text().isEmpty());
  progress_.setVisible(session_.busy());
  if (session_.scanning()) {
    progress_.setRange(0, 1000);
    progress_.setValue(static_cast<int>(session_.fraction() * 1000));
  } else {
    progress_.setRange(0, 0);
  }
  stage_.setVisible(session_.busy());
  stage_.setText(session_.scanning() ? session_.stage() : tr("Looking for tags and cards …"));
}

}  // namespace rackside
