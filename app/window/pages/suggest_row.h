// SPDX-License-Identifier: GPL-3.0-or-later
// The button and keys for suggestions: look for them, take one, refuse one, take all that are sure
// enough. After one is settled the next along the board is in hand.
#pragma once

#include <QAction>
#include <QMenu>
#include <QToolButton>
#include <functional>
#include <vector>

#include "app/window/document/choice.h"
#include "app/window/document/suggest_session.h"

namespace rackside {

class SuggestRow : public QToolButton {
  Q_OBJECT
 public:
  // Makes an action with a key that acts where the board is.
  using ActionMaker = std::function<QAction*(const QString& text, const QString& key)>;
  SuggestRow(Document& document, Choice& choice, const ActionMaker& make,
             QWidget* parent = nullptr);

  SuggestSession& session() { return session_; }

 signals:
  void said(const QString& text, bool wrong);

 private:
  void buildMenu(const ActionMaker& make);
  void buildCrayonMenu();
  void buildThresholdMenu();
  void look();
  void settle(bool accept);
  void takeSure();
  void refresh();
  // Suggestions on the face in view, left to right.
  std::vector<MarkId> open() const;
  const Board* board() const { return document_.rack().findBoard(choice_.board()); }

  Document& document_;
  Choice& choice_;
  SuggestSession session_;
  QMenu menu_;
  QAction *look_ = nullptr, *lookAll_ = nullptr, *accept_ = nullptr, *refuse_ = nullptr,
          *takeSure_ = nullptr;
  std::optional<CrayonColour> crayon_;
  double sureEnough_ = 0.8;
};

}  // namespace rackside
