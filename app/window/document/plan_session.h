// SPDX-License-Identifier: GPL-3.0-or-later
// Planning in the background, and trying out a piece elsewhere. The document's plan changes only
// when a run has ended (one step of undo); until then what is tried or found so far is shown beside
// it.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <memory>
#include <optional>

#include "app/window/document/document.h"
#include "app/window/document/plan_aim.h"
#include "core/plan/planner.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

// A piece held in the hand over its board.
struct Trial {
  PieceId piece;
  std::shared_ptr<const Plan> plan;  // with the piece where it is held; its cuts are not yet true
  QStringList why;                   // what forbids this place; empty when it may lie there
  bool legal() const { return why.isEmpty(); }
};

class PlanSession : public QObject {
  Q_OBJECT
 public:
  explicit PlanSession(Document& document, QObject* parent = nullptr);
  ~PlanSession() override;

  bool running() const { return control_ != nullptr; }
  // What the views show: the trial, the best found so far, or the document's plan.
  const Plan* shown() const;
  const std::optional<Trial>& trial() const { return trial_; }
  double fraction() const { return fraction_; }
  const QString& stage() const { return stage_; }

  void start(double limitSeconds);
  // A plan by each aim, to be compared; none of them is kept until it is taken.
  void compare(double limitSeconds);
  const std::vector<ComparedPlan>& compared() const { return compared_; }
  void take(size_t compared);
  // Cut day: what is cut and what still stands of `marked` stays, the rest is planned anew.
  void planTheRest(const Plan& marked, double limitSeconds);
  void stop();  // keeps the best found so far

  // Holds a piece `delta` away from where the plan has it (mm, board frame), whole blank and all.
  void holdAt(const PieceId& piece, Point delta);
  // Lets the planner settle the rest round the held piece, which is pinned there.
  void settle(double limitSeconds);
  void dropTrial();
  // Pins one copy of the part at this place and plans the rest round it.
  void placeAt(const PartId& part, const Placement& place, double limitSeconds);
  void setPinned(const PieceId& piece, bool pinned);

 signals:
  void shownChanged();
  void progress();
  void started();
  void finished();
  void failed(const QString& why);

 private:
  void run(const std::shared_ptr<const Plan>& current, double limitSeconds,
           bool onlyWhatIsLost = false);
  void begin();
  void end(Result<Plan> result);

  Document& document_;
  QThreadPool pool_;
  std::shared_ptr<RunControl> control_;
  std::shared_ptr<const Plan> best_;
  std::optional<Trial> trial_;
  std::vector<ComparedPlan> compared_;
  double fraction_ = 0;
  QString stage_;
};

// Why the pieces of one board may not lie as `plan` has them; looks at places, not at cuts.
QStringList placementBreaches(const Rack& rack, const Plan& plan, const BoardId& board);

}  // namespace rackside
