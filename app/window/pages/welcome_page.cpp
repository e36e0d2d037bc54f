// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/pages/welcome_page.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/window/look/theme.h"

namespace rackside {

namespace {

// A board seen from above with three cards along it and a tag at its end; a phone over its middle.
class LessonPicture : public QWidget {
 public:
  LessonPicture() {
    setMinimumSize(360, 130);
    setMaximumHeight(150);
    connect(&Theme::instance(), &Theme::changed, this, [this] { update(); });
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter p(this);
    p.setRenderHint(QPainter::Antialiasing);
    const double w = std::min(width(), 620), x = (width() - w) / 2, y = 46;
    const QRectF board(x + 4, y, w - 8, 62);
    p.setPen(QPen(QColor(0x7A, 0x55, 0x32), 1.5));
    p.setBrush(QColor(0xC9, 0x97, 0x63));
    p.drawRoundedRect(board, 3, 3);
    p.setPen(QPen(QColor(0xA8, 0x77, 0x48), 1));
    for (int i = 1; i < 6; ++i)
      p.drawLine(board.left() + 4, board.top() + i * 10.0, board.right() - 4,
                 board.top() + i * 10.0 + (i % 2 ? 3 : -2));
    for (const double at : {0.12, 0.46, 0.78}) paintCard(p, board, at);
    p.setPen(Qt::black);
    p.setBrush(Qt::white);
    const QRectF tag(board.right() - 30, board.top() + 20, 22, 22);
    p.drawRect(tag);
    p.drawText(tag, Qt::AlignCenter, QStringLiteral("7"));
    p.setPen(QPen(colours().ink, 2));
    p.setBrush(Qt::NoBrush);
    p.drawRoundedRect(QRectF(x + w / 2 - 26, 4, 52, 28), 5, 5);
    p.drawEllipse(QPointF(x + w / 2 + 16, 12), 4, 4);
    p.setPen(QPen(colours().faint, 1, Qt::DashLine));
    p.drawLine(QPointF(x + w / 2 - 20, 34), board.topLeft());
    p.drawLine(QPointF(x + w / 2 + 20, 34), board.topRight());
  }

 private:
  static void paintCard(QPainter& p, const QRectF& board, double at) {
    const QRectF card(board.left() + at * board.width(), board.top() + 18, 70, 24);
    p.setPen(Qt::black);
    p.setBrush(Qt::white);
    p.drawRect(card);
    for (int i = 0; i < 7; ++i)
      for (int j = 0; j < 3; ++j)
        if ((i + j) % 2 == 0)
          p.fillRect(QRectF(card.left() + i * 10, card.top() + j * 8, 10, 8), Qt::black);
  }
};

QLabel* step(const QString& text) {
  auto* label = new QLabel(text);
  label->setWordWrap(true);
  label->setTextFormat(Qt::RichText);
  return label;
}

}  // namespace

WelcomePage::WelcomePage(QWidget* parent) : QWidget(parent) {
  auto* inside = new QWidget;
  inside->setMaximumWidth(720);
  auto* column = new QVBoxLayout(inside);
  column->setContentsMargins(28, 28, 28, 28);
  column->setSpacing(12);
  title_.setProperty("role", QStringLiteral("title"));
  title_.setWordWrap(true);
  column->addWidget(&title_);
  column->addWidget(new LessonPicture);
  column->addWidget(
      step(tr("<b>1. Print cards and tags.</b> Cards give the pictures their scale, a "
              "tag gives each board its number. Print them at 100 %, check the bar on "
              "them with a rule, and glue the cards to flat strips.")));
  column->addWidget(
      step(tr("<b>2. Lay them.</b> Three cards along the board, one near each end, "
              "flat on the wood. Stick a tag at the end, where it may stay.")));
  column->addWidget(
      step(tr("<b>3. Take the picture.</b> From above the middle, the whole board "
              "and every card inside the picture. Turn the board over and take the "
              "other face too.")));
  column->addWidget(
      step(tr("<b>4. Drop the pictures here</b>, as many boards as you like: the "
              "tags sort them.")));
  cards_.setText(tr("Print &cards and tags …"));
  photos_.setText(tr("Choose &photographs …"));
  photos_.setProperty("main", true);
  open_.setText(tr("&Open a rack …"));
  sample_.setText(tr("Look at the &sample rack"));
  open_.setObjectName(QStringLiteral("welcomeOpen"));
  sample_.setObjectName(QStringLiteral("welcomeSample"));
  start_.setText(tr("Start a &rack …"));
  start_.setObjectName(QStringLiteral("welcomeStart"));
  auto* first = new QHBoxLayout;
  first->addWidget(&photos_);
  first->addWidget(&cards_);
  first->addStretch(1);
  column->addLayout(first);
  auto* second = new QHBoxLayout;
  for (QPushButton* button : {&start_, &open_, &sample_}) second->addWidget(button);
  second->addStretch(1);
  column->addLayout(second);
  column->addStretch(1);

  auto* middle = new QWidget;
  auto* row = new QHBoxLayout(middle);
  row->addStretch(1);
  row->addWidget(inside, 100);
  row->addStretch(1);
  auto* scroll = new QScrollArea;
  scroll->setWidget(middle);
  scroll->setWidgetResizable(true);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(0, 0, 0, 0);
  all->addWidget(scroll);
  connect(&start_, &QPushButton::clicked, this, &WelcomePage::startWished);
  connect(&open_, &QPushButton::clicked, this, &WelcomePage::openWished);
  connect(&sample_, &QPushButton::clicked, this, &WelcomePage::sampleWished);
  connect(&cards_, &QPushButton::clicked, this, &WelcomePage::cardsWished);
  connect(&photos_, &QPushButton::clicked, this, &WelcomePage::photosWished);
  setRackOpen(false);
}

void WelcomePage::setRackOpen(bool open) {
  title_.setText(open ? tr("This rack is empty. Here is how the first board gets onto it.")
                      : tr("Rough boards in, cut list out. Here is how the first board gets in."));
}

}  // namespace rackside
