// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/photos_page.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QStyle>

#include "app/window/look/text.h"
#include "app/window/pages/flow_layout.h"

namespace rackside {

namespace {

constexpr int kPictureWidth = 150;

void setRole(QLabel& label, const char* role) {
  if (label.property("role").toString() == QLatin1String(role)) return;
  label.setProperty("role", QString::fromLatin1(role));
  label.style()->unpolish(&label);
  label.style()->polish(&label);
}

QString stateText(const BoardPhotos& group) {
  switch (group.state) {
    case BoardPhotos::State::reading:
      return QObject::tr("Being looked at …");
    case BoardPhotos::State::ready:
      return group.cards == 1
                 ? QObject::tr(
                       "1 card seen. Ready to be measured; two or three cards "
                       "along the board measure better.")
                 : QObject::tr("%1 cards seen. Ready to be measured.").arg(group.cards);
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
  faceB_.setText(tr("This is face B; otherwise face A is taken again"));
  remove_.setText(tr("Leave out"));
  go_.setText(tr("Look at it"));
  auto* text = new QVBoxLayout;
  text->addWidget(&title_);
  text->addWidget(&found_);
  text->addWidget(&advice_);
  text->addWidget(&faceB_);
  text->addStretch(1);
  auto* buttons = new QVBoxLayout;
  buttons->addWidget(&go_);
  buttons->addWidget(&remove_);
  buttons->addStretch(1);
  auto* row = new QHBoxLayout(this);
  row->addWidget(&picture_);
  row->addLayout(text, 1);
  row->addLayout(buttons);
  connect(&faceB_, &QCheckBox::clicked, this, &PhotoGroupRow::faceBWished);
  connect(&remove_, &QPushButton::clicked, this, &PhotoGroupRow::removeWished);
  connect(&go_, &QPushButton::clicked, this, &PhotoGroupRow::boardWished);
}

void PhotoGroupRow::show(const BoardPhotos& group, bool boardKnown) {
  using State = BoardPhotos::State;
  QPixmap picture = QPixmap::fromImage(group.small);
  if (!picture.isNull())
    picture_.setPixmap(picture.scaledToWidth(kPictureWidth, Qt::SmoothTransformation));
  QStringList names;
  for (const QString& photo : group.photos) names << QFileInfo(photo).fileName();
  title_.setText((group.tag ? tr("Tag %1: ").arg(*group.tag) : tr("No tag: ")) + listed(names));
  found_.setText(stateText(group));
  setRole(found_, group.state == State::done     ? "good"
                  : group.state == State::retake ? "bad"
                                                 : "plain");
  advice_.setText(group.advice.join(QLatin1Char('\n')));
  advice_.setVisible(!group.advice.isEmpty());
  const bool open = group.state == State::ready || group.state == State::stopped;
  faceB_.setVisible(open && boardKnown);
  faceB_.setChecked(group.asFaceB);
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
  form->addRow(tr("Stands &at"), &place_);
  form->addRow(tr("Cards &lie"), &cardsOn_);
  cardThickness_.setExample(3);
  form->addRow(tr("Thickness of the card&s"), &cardThickness_);
  form->addRow(&mistake_);
  cardThickness_.setToolTip(
      tr("Of a card with the strip it is glued to; leave empty for bare paper."));
  connect(&species_, &QLineEdit::textChanged, this,
          [this](const QString& text) { session_.settings().species = text.trimmed(); });
  connect(&place_, &QLineEdit::textChanged, this,
          [this](const QString& text) { session_.settings().place = text.trimmed(); });
  connect(&cardsOn_, &QComboBox::currentIndexChanged, this, [this](int at) {
    session_.settings().cardsOn = at == 0 ? CardsOn::board : CardsOn::bench;
  });
  connect(&thickness_, &LengthEdit::entered, this,
          [this](std::optional<double> mm) { session_.settings().thicknessMm = mm.value_or(0); });
  connect(&cardThickness_, &LengthEdit::entered, this, [this](std::optional<double> mm) {
    session_.settings().cardThicknessMm = mm.value_or(0);
  });
  for (LengthEdit* edit : {&thickness_, &cardThickness_})
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
         "are measured in the background, one board after another. What has to be taken "
         "again is said beside it."));
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
      this, tr("Choose photographs"), {},
      tr("Photographs (*.jpg *.jpeg *.png *.webp *.heic *.heif *.JPG *.JPEG *.HEIC)"));
  if (!files.isEmpty()) session_.add(files);
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
    const bool known =
        groups[i].tag && std::any_of(document_.rack().boards.begin(), document_.rack().boards.end(),
                                     [&](const Board& b) { return b.tag == groups[i].tag; });
    shown_[i]->show(groups[i], known);
    ready += groups[i].state == BoardPhotos::State::ready ||
             groups[i].state == BoardPhotos::State::stopped;
  }
  scan_.setText(session_.scanning() ? tr("&Stop")
                : ready == 1        ? tr("&Measure 1 board")
                                    : tr("&Measure %1 boards").arg(ready));
  scan_.setEnabled(session_.scanning() || (ready > 0 && document_.isOpen()));
  scan_.setVisible(!groups.empty());
  choose_.setEnabled(document_.isOpen());
  thickness_.setStyle(document_.lengths());
  cardThickness_.setStyle(document_.lengths());
  showProgress();
}

void PhotosPage::showProgress() {
  int done = 0, retake = 0;
  for (const BoardPhotos& group : session_.groups()) {
    done += group.state == BoardPhotos::State::done;
    retake += group.state == BoardPhotos::State::retake;
  }
  summary_.setVisible(done + retake > 0);
  summary_.setText(retake == 0 ? tr("%1 measured.").arg(done)
                               : tr("%1 measured, %2 to take again.").arg(done).arg(retake));
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
