// SPDX-License-Identifier: GPL-3.0-or-later
// Which board shows best for a part, side by side; and how a panel glued up for it might look.
#pragma once

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QScrollArea>
#include <QTimer>
#include <QVBoxLayout>

#include "app/window/document/choice.h"
#include "app/window/document/look_session.h"
#include "app/window/pages/panel_view.h"

namespace rackside {

class LooksPage : public QWidget {
  Q_OBJECT
 public:
  LooksPage(Document& document, Choice& choice, QWidget* parent = nullptr);
  LookSession& session() { return session_; }
  PanelView& panelView() { return *panelView_; }
  int entries() const { return entries_; }  // boards shown
  void choosePart(const PartId& part);

 signals:
  void boardWished();
  void placeWished(
      const rackside::PartId& part,
      const rackside::Placement& place);  // the board in view is wanted on the wood's page

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void build();
  QWidget* buildSide();
  void fillParts();
  void partChosen();
  const Part* part() const;
  void ask();
  void showRanked(const RankedLooks& looks);
  void showPanel(const std::shared_ptr<const PanelLooks>& looks);
  void showOrderWords();
  void say(const QString& text);
  void empty();
  QWidget* entryFor(const RankedLooks& looks, size_t index);

  Document& document_;
  Choice& choice_;
  LookSession session_;
  QComboBox parts_, wishes_;
  QCheckBox panel_;
  QLabel note_, title_;
  QScrollArea scroll_;
  QVBoxLayout* list_ = nullptr;  // in the scroll area
  PanelView* panelView_ = nullptr;
  QLabel* orderWords_ = nullptr;
  QTimer pause_;
  int entries_ = 0;
  bool filling_ = false;
};

}  // namespace rackside
