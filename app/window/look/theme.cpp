// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/theme.h"

#include <QApplication>
#include <QEvent>
#include <QPalette>
#include <QSettings>
#include <QStyle>
#include <QStyleFactory>

namespace rackside {

namespace {

const Colours kLight{QColor(0xF4, 0xF1, 0xEB), QColor(0xFC, 0xFB, 0xF8), QColor(0xE3, 0xDE, 0xD5),
                     QColor(0x29, 0x25, 0x21), QColor(0x69, 0x62, 0x5A), QColor(0xD6, 0xCF, 0xC4),
                     QColor(0x1F, 0x66, 0x5C), QColor(0xFF, 0xFF, 0xFF), QColor(0x2C, 0x6E, 0x3A),
                     QColor(0x8F, 0x5A, 0x00), QColor(0xA8, 0x2A, 0x1E)};

const Colours kDark{QColor(0x23, 0x21, 0x1F), QColor(0x2C, 0x2A, 0x27), QColor(0x17, 0x16, 0x15),
                    QColor(0xEC, 0xE7, 0xDF), QColor(0xAE, 0xA6, 0x9B), QColor(0x45, 0x41, 0x3C),
                    QColor(0x7C, 0xC4, 0xB4), QColor(0x10, 0x20, 0x1D), QColor(0x86, 0xC8, 0x8F),
                    QColor(0xE8, 0xB6, 0x5A), QColor(0xF0, 0x8E, 0x80)};

QPalette paletteOf(const Colours& c) {
  QPalette p;
  p.setColor(QPalette::Window, c.page);
  p.setColor(QPalette::WindowText, c.ink);
  p.setColor(QPalette::Base, c.card);
  p.setColor(QPalette::AlternateBase, c.page);
  p.setColor(QPalette::Text, c.ink);
  p.setColor(QPalette::Button, c.card);
  p.setColor(QPalette::ButtonText, c.ink);
  p.setColor(QPalette::ToolTipBase, c.card);
  p.setColor(QPalette::ToolTipText, c.ink);
  p.setColor(QPalette::PlaceholderText, c.faint);
  p.setColor(QPalette::Highlight, c.accent);
  p.setColor(QPalette::HighlightedText, c.onAccent);
  p.setColor(QPalette::Link, c.accent);
  p.setColor(QPalette::Light, c.card.lighter(108));
  p.setColor(QPalette::Midlight, c.line);
  p.setColor(QPalette::Mid, c.line);
  p.setColor(QPalette::Dark, c.line.darker(120));
  p.setColor(QPalette::Shadow, c.line.darker(160));
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    p.setColor(QPalette::Disabled, role, c.faint);
  return p;
}

QString sheetOf(const Colours& c) {
  QString sheet = QStringLiteral(R"(
QToolTip { color: %ink; background: %card; border: 1px solid %line; padding: 4px; }
QLineEdit {
  background: %card; border: 1px solid %line; border-radius: 4px; padding: 3px 6px; }
QLineEdit:focus { border: 1px solid %accent; }
QSpinBox QLineEdit, QComboBox QLineEdit { border: none; padding: 0px; }
QPushButton { background: %card; border: 1px solid %line; border-radius: 5px; padding: 5px 12px; }
QPushButton:hover, QPushButton:focus { border-color: %accent; }
QPushButton:pressed { background: %line; }
QPushButton:disabled { color: %faint; background: %page; }
QPushButton[main="true"] { background: %accent; color: %onAccent; border-color: %accent; }
QPushButton[main="true"]:disabled { background: %line; color: %faint; border-color: %line; }
QPushButton[main="true"]:focus { border: 2px solid %ink; padding: 4px 11px; }
QToolButton { border: 1px solid transparent; border-radius: 5px; padding: 4px 7px; }
QToolButton:hover, QToolButton:focus { border-color: %accent; }
QToolButton:checked { background: %accent; color: %onAccent; }
QLabel[role="title"] { font-size: 17px; font-weight: 600; }
QLabel[role="group"] { font-weight: 600; }
QLabel[role="faint"] { color: %faint; }
QLabel[role="bad"] { color: %bad; }
QLabel[role="warn"] { color: %warn; }
QLabel[role="good"] { color: %good; }
QFrame[role="panel"] { background: %card; }
QFrame[role="rule"] { background: %line; border: none; }
QTableView { gridline-color: %line; border: 1px solid %line; }
QListView { border: none; }
QHeaderView::section { background: %page; color: %ink; border: none;
  border-right: 1px solid %line; border-bottom: 1px solid %line; padding: 4px 6px; }
QProgressBar { border: 1px solid %line; border-radius: 4px; background: %page; height: 14px;
  text-align: center; }
QProgressBar::chunk { background: %accent; border-radius: 3px; }
QSplitter::handle { background: %line; }
QScrollArea { border: none; background: transparent; }
)");
  // Longer names first, so that %page does not eat the start of another.
  sheet.replace(QLatin1String("%onAccent"), c.onAccent.name());
  sheet.replace(QLatin1String("%accent"), c.accent.name());
  sheet.replace(QLatin1String("%faint"), c.faint.name());
  sheet.replace(QLatin1String("%line"), c.line.name());
  sheet.replace(QLatin1String("%card"), c.card.name());
  sheet.replace(QLatin1String("%page"), c.page.name());
  sheet.replace(QLatin1String("%good"), c.good.name());
  sheet.replace(QLatin1String("%warn"), c.warn.name());
  sheet.replace(QLatin1String("%bad"), c.bad.name());
  sheet.replace(QLatin1String("%ink"), c.ink.name());
  return sheet;
}

constexpr auto kWishKey = "look/theme";

}  // namespace

Theme& Theme::instance() {
  static Theme theme;
  return theme;
}

Theme::Theme() {
  systemDark_ = QApplication::palette().color(QPalette::Window).lightness() < 128;
  QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
  wish_ = static_cast<Wish>(QSettings().value(QLatin1String(kWishKey), 0).toInt());
  settle();
  qApp->installEventFilter(this);
}

const Colours& Theme::colours() const {
  return dark_ ? kDark : kLight;
}

void Theme::setWish(Wish wish) {
  if (wish == wish_) return;
  wish_ = wish;
  QSettings().setValue(QLatin1String(kWishKey), static_cast<int>(wish));
  settle();
}

void Theme::settle() {
  dark_ = wish_ == Wish::dark || (wish_ == Wish::asSystem && systemDark_);
  settling_ = true;
  QApplication::setPalette(paletteOf(colours()));
  qApp->setStyleSheet(sheetOf(colours()));
  settling_ = false;
  emit changed();
}

// The platform announces a new palette when the system turns from light to dark; our own
// setPalette does too, and is told apart by settling_.
bool Theme::eventFilter(QObject* watched, QEvent* event) {
  if (watched == qApp && event->type() == QEvent::ThemeChange && !settling_) {
    systemDark_ =
        QApplication::style()->standardPalette().color(QPalette::Window).lightness() < 128;
    if (wish_ == Wish::asSystem) settle();
  }
  return QObject::eventFilter(watched, event);
}

}  // namespace rackside
