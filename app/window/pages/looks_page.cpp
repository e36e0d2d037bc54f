// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/looks_page.h"

#include <QHBoxLayout>
#include <QPushButton>

#include "app/window/look/text.h"

namespace rackside {
namespace {

constexpr int kPauseMs = 150;
constexpr int kSideWidth = 270;

QLabel* words(const QString& text, const char* role = nullptr) {
  auto* label = new QLabel(text);
  label->setWordWrap(true);
  if (role) label->setProperty("role", QString::fromLatin1(role));
  return label;
}

QString joined(const std::vector<std::string>& reasons) {
  QStringList list;
  for (const std::string& r : reasons) list << qt(r);
  return list.join(QStringLiteral("; "));
}

// A picture that keeps its shape as the page grows; all on the page share one scale.
class ScaledPicture : public QLabel {
 public:
  ScaledPicture(const QImage& image, const QString& alternative) : image_(image) {
    setAccessibleName(alternative);
    setMinimumSize(200, 10);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  }

 protected:
  void resizeEvent(QResizeEvent*) override {
    const QPixmap shown = QPixmap::fromImage(
        image_.scaledToWidth(std::min(width(), image_.width()), Qt::SmoothTransformation));
    setFixedHeight(shown.height());
    setPixmap(shown);
  }

 private:
  QImage image_;
};

}  // namespace

LooksPage::LooksPage(Document& document, Choice& choice, QWidget* parent)
    : QWidget(parent), document_(document), choice_(choice), session_(document) {
  pause_.setSingleShot(true);
  pause_.setInterval(kPauseMs);
  connect(&pause_, &QTimer::timeout, this, &LooksPage::ask);
  build();
  const auto anew = [this] {
    if (!isVisible()) return;
    fillParts();
    pause_.start();
  };
  connect(&document_, &Document::changed, this, anew);
  connect(&document_, &Document::opened, this, anew);
  connect(&session_, &LookSession::started, this,
          [this] { title_.setText(tr("Looking at the boards …")); });
  connect(&session_, &LookSession::ranked, this, [this](const auto& looks) { showRanked(*looks); });
  connect(&session_, &LookSession::panelLaid, this, &LooksPage::showPanel);
  connect(&session_, &LookSession::failed, this, &LooksPage::say);
}

void LooksPage::build() {
  auto* inside = new QWidget;
  list_ = new QVBoxLayout(inside);
  list_->setContentsMargins(18, 14, 18, 14);
  list_->setSpacing(10);
  list_->addStretch(1);
  scroll_.setWidget(inside);
  scroll_.setWidgetResizable(true);
  scroll_.setFrameShape(QFrame::NoFrame);
  scroll_.setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll_.setAccessibleName(tr("The part out of each board, the best first"));
  auto* right = new QVBoxLayout;
  right->setContentsMargins(0, 12, 0, 0);
  title_.setProperty("role", QStringLiteral("title"));
  title_.setContentsMargins(18, 0, 18, 0);
  title_.setWordWrap(true);
  title_.setObjectName(QStringLiteral("looksTitle"));
  right->addWidget(&title_);
  right->addWidget(&scroll_, 1);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  row->addWidget(buildSide());
  row->addLayout(right, 1);
}

QWidget* LooksPage::buildSide() {
  parts_.setAccessibleName(tr("Part"));
  parts_.setObjectName(QStringLiteral("looksPart"));
  wishes_.setAccessibleName(tr("What it should look like"));
  wishes_.setObjectName(QStringLiteral("looksWish"));
  for (const std::string& name : wishNames())
    wishes_.addItem(qt(rackside::words(*wishFromName(name))), qt(name));
  panel_.setText(tr("As a panel glued up from strips"));
  panel_.setObjectName(QStringLiteral("looksPanel"));
  note_.setWordWrap(true);
  note_.setProperty("role", QStringLiteral("faint"));
  note_.setText(
      tr("All at one scale and in one light, as the wood might look planed. Marks that "
         "the part may not hold are kept clear."));
  connect(&parts_, &QComboBox::currentIndexChanged, this, [this] {
    if (!filling_) partChosen();
  });
  connect(&wishes_, &QComboBox::currentIndexChanged, &pause_, qOverload<>(&QTimer::start));
  connect(&panel_, &QCheckBox::toggled, &pause_, qOverload<>(&QTimer::start));
  auto* side = new QWidget;
  side->setFixedWidth(kSideWidth);
  auto* column = new QVBoxLayout(side);
  column->setContentsMargins(14, 12, 14, 12);
  column->setSpacing(8);
  column->addWidget(words(tr("Which board shows best"), "title"));
  column->addWidget(words(tr("for the part")));
  column->addWidget(&parts_);
  column->addWidget(words(tr("that should look")));
  column->addWidget(&wishes_);
  column->addWidget(&panel_);
  column->addWidget(&note_);
  column->addStretch(1);
  return side;
}

void LooksPage::showEvent(QShowEvent*) {
  fillParts();
  pause_.start();
}

const Part* LooksPage::part() const {
  return document_.rack().findPart(PartId{plain(parts_.currentData().toString())});
}

void LooksPage::choosePart(const PartId& id) {
  const int at = parts_.findData(qt(id.text));
  if (at >= 0) parts_.setCurrentIndex(at);
}

void LooksPage::fillParts() {
  filling_ = true;
  const QString before = parts_.currentData().toString();
  parts_.clear();
  for (const Part& p : document_.rack().parts) parts_.addItem(qt(p.name), qt(p.id.text));
  const int at = parts_.findData(before);
  parts_.setCurrentIndex(at >= 0 ? at : parts_.count() > 0 ? 0 : -1);
  filling_ = false;
  if (at < 0) partChosen();
}

// A new part starts with the wish of its own columns.
void LooksPage::partChosen() {
  const Part* p = part();
  if (!p) return pause_.start();
  wishes_.setCurrentIndex(wishes_.findData(qt(std::string(name(wishOf(*p))))));
  const bool glued = p->glueUp.allowed && !p->outline;
  panel_.setEnabled(glued);
  if (!glued) panel_.setChecked(false);
  panel_.setToolTip(glued ? QString()
                          : tr("The parts list says that this part may not be glued up."));
  pause_.start();
}

void LooksPage::ask() {
  if (!isVisible()) return;
  if (document_.rack().boards.empty()) return say(tr("There is no board in the rack yet."));
  const Part* p = part();
  if (!p) return say(tr("There are no parts yet: type or paste them under Parts (Alt+3)."));
  const Wish wish = *wishFromName(plain(wishes_.currentData().toString()));
  panel_.isChecked() ? session_.layPanel(p->id, wish) : session_.rank(p->id, wish);
}

void LooksPage::empty() {
  while (list_->count() > 1) {
    QLayoutItem* item = list_->takeAt(0);
    delete item->widget();
    delete item;
  }
  panelView_ = nullptr;
  orderWords_ = nullptr;
  entries_ = 0;
}

void LooksPage::say(const QString& text) {
  session_.stop();
  empty();
  title_.setText(text);
}

QWidget* LooksPage::entryFor(const RankedLooks& looks, size_t index) {
  const Placement& place = looks.ranking.places[index];
  const Board* board = document_.rack().findBoard(place.board);
  const LengthStyle style = document_.lengths();
  const Rect box = bounds(place.outline);
  const QString heading =
      tr("%1.  Board %2, face %3")
          .arg(index + 1)
          .arg(board ? qt(board->name) : QString(), qt(std::string(name(place.face))));
  auto* entry = new QWidget;
  auto* column = new QVBoxLayout(entry);
  column->setContentsMargins(0, 0, 0, 8);
  column->setSpacing(4);
  auto* top = new QHBoxLayout;
  top->addWidget(words(heading, "group"), 1);
  auto* go = new QPushButton(tr("See it on the board"));
  go->setAccessibleName(tr("See board %1").arg(board ? qt(board->name) : QString()));
  connect(go, &QPushButton::clicked, this, [this, id = place.board, face = place.face] {
    choice_.setBoard(id);
    choice_.setFace(face);
    emit boardWished();
  });
  auto* use = new QPushButton(tr("Use this place"));
  use->setAccessibleName(tr("Use the place on board %1").arg(board ? qt(board->name) : QString()));
  use->setToolTip(tr("One copy is pinned here, and the rest is planned round it."));
  connect(use, &QPushButton::clicked, this,
          [this, part = looks.part.id, place] { emit placeWished(part, place); });
  top->addWidget(go);
  top->addWidget(use);
  column->addLayout(top);
  column->addWidget(new ScaledPicture(looks.pictures[index], heading));
  column->addWidget(words(joined(place.reasons) + QLatin1Char('.')));
  column->addWidget(words(tr("%1 of 100; %2 from the left end, %3 from the near edge.")
                              .arg(qRound(100 * place.score))
                              .arg(lengthText(box.x0, style), lengthText(box.y0, style)),
                          "faint"));
  return entry;
}

void LooksPage::showRanked(const RankedLooks& looks) {
  empty();
  const LengthStyle style = document_.lengths();
  title_.setText(looks.ranking.places.empty()
                     ? tr("No board can be ranked for %1.").arg(qt(looks.part.name))
                     : tr("%1, %2 × %3: %4")
                           .arg(qt(looks.part.name), lengthText(looks.part.lengthMm, style),
                                lengthText(looks.part.widthMm, style),
                                qt(rackside::words(looks.ranking.wish))));
  const auto add = [this](QWidget* w) { list_->insertWidget(list_->count() - 1, w); };
  for (size_t i = 0; i < looks.pictures.size(); ++i) add(entryFor(looks, i));
  entries_ = static_cast<int>(looks.pictures.size());
  for (const std::string& remark : looks.ranking.remarks)
    add(words(inOwnUnits(qt(remark), document_.lengths())));
  for (const NotRanked& n : looks.ranking.notRanked) {
    const Board* board = document_.rack().findBoard(n.board);
    add(words(
        tr("Not ranked: board %1: %2.")
            .arg(board ? qt(board->name) : QString(), inOwnUnits(qt(n.why), document_.lengths())),
        "faint"));
  }
}

void LooksPage::showPanel(const std::shared_ptr<const PanelLooks>& looks) {
  empty();
  const LengthStyle style = document_.lengths();
  title_.setText(tr("%1 as a panel: %2 strips of %3 × %4")
                     .arg(qt(looks->part.name))
                     .arg(looks->panel.strips.size())
                     .arg(lengthText(looks->panel.strip.lengthMm, style),
                          lengthText(looks->panel.strip.widthMm, style)));
  const auto add = [this](QWidget* w) { list_->insertWidget(list_->count() - 1, w); };
  auto* best = new QWidget;
  auto* row = new QHBoxLayout(best);
  row->setContentsMargins(0, 0, 0, 0);
  row->addWidget(new QLabel(tr("Best orders:")));
  panelView_ = new PanelView;
  for (size_t i = 0; i < looks->panel.orders.size(); ++i) {
    auto* button = new QPushButton(QString::number(i + 1));
    button->setAccessibleName(tr("Order %1 of the best").arg(i + 1));
    connect(button, &QPushButton::clicked, panelView_,
            [view = panelView_, order = looks->panel.orders[i]] { view->setOrder(order); });
    row->addWidget(button);
  }
  row->addStretch(1);
  add(best);
  add(panelView_);
  orderWords_ = words({}, "group");
  orderWords_->setObjectName(QStringLiteral("panelWords"));
  add(orderWords_);
  for (size_t i = 0; i < looks->panel.strips.size(); ++i) {
    const PanelStrip& s = looks->panel.strips[i];
    const Board* board = document_.rack().findBoard(s.place.board);
    const Rect box = bounds(s.place.outline);
    add(words(tr("Strip %1: board %2, face %3, %4 from the left end, %5 from the near edge.%6")
                  .arg(i + 1)
                  .arg(board ? qt(board->name) : QString(), qt(std::string(name(s.place.face))),
                       lengthText(box.x0, style), lengthText(box.y0, style),
                       s.other ? QString() : tr(" Its other face is not known or may not show.")),
              "faint"));
  }
  add(words(tr("Drag a strip to another place. Up and Down choose, with Ctrl they move it; T turns "
               "it end for end (↔), O turns it over (↕)."),
            "faint"));
  connect(panelView_, &PanelView::orderChanged, this, &LooksPage::showOrderWords);
  panelView_->show(looks);
  entries_ = static_cast<int>(looks->panel.strips.size());
}

void LooksPage::showOrderWords() {
  if (!orderWords_) return;
  const PanelOrder& order = panelView_->order();
  const auto plainSeams = std::count_if(order.seams.begin(), order.seams.end(),
                                        [](const Seam& s) { return s.cost() >= 1; });
  orderWords_->setText(
      plainSeams == 0 ? tr("No glue line stands out.")
      : plainSeams == 1
          ? tr("One glue line stands out.")
          : tr("%1 of %2 glue lines stand out.").arg(plainSeams).arg(order.seams.size()));
}

}  // namespace rackside
