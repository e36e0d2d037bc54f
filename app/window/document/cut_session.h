// SPDX-License-Identifier: GPL-3.0-or-later
// Cut day in the window: ticks are edits of the plan; after a miscut or a found defect the rest is
// planned anew by the plan session, in the background.
#pragma once

#include <QObject>

#include "app/window/document/plan_session.h"

namespace rackside {

class CutSession : public QObject {
  Q_OBJECT
 public:
  CutSession(Document& document, PlanSession& planning, QObject* parent = nullptr);

  // `number`: Cut::order on the board. One step of undo each; false, and refused(), when the cut's
  // turn has not come.
  bool setMade(const BoardId& board, int number, bool made);
  // The saw went `byMm` beside the line: ticks the cut there and plans the rest anew.
  bool miscut(const BoardId& board, int number, double byMm);
  // What no longer stands, after a mark was added, finds another place where there is one.
  void planTheRest();
  // The board's useful offcuts go back on the rack.
  bool finish(const BoardId& board);

 signals:
  void refused(const QString& why);
  void said(const QString& text);

 private:
  const Plan* plan() const;
  bool refuse(const QString& why);

  Document& document_;
  PlanSession& planning_;
};

}  // namespace rackside
