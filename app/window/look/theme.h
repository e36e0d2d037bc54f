// SPDX-License-Identifier: GPL-3.0-or-later
// The window's colours and type: one light and one dark set, following the system unless the maker
// has said otherwise.
#pragma once

#include <QColor>
#include <QObject>

namespace rackside {

struct Colours {
  QColor page;      // behind everything
  QColor card;      // panels, lists
  QColor stage;     // behind the board
  QColor ink;       // text
  QColor faint;     // second text; still 4.5 : 1 on page and card (WCAG 2.1, 1.4.3)
  QColor line;      // rules between things
  QColor accent;    // what is chosen, the one thing to do next
  QColor onAccent;  // text on it
  QColor good;
  QColor warn;
  QColor bad;
};

class Theme : public QObject {
  Q_OBJECT
 public:
  enum class Wish { asSystem, light, dark };
  static Theme& instance();

  Wish wish() const { return wish_; }
  void setWish(Wish wish);
  bool dark() const { return dark_; }
  const Colours& colours() const;

 signals:
  void changed();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  Theme();
  void settle();

  Wish wish_ = Wish::asSystem;
  bool systemDark_ = false;
  bool dark_ = false;
  bool settling_ = false;
};

inline const Colours& colours() {
  return Theme::instance().colours();
}

}  // namespace rackside
