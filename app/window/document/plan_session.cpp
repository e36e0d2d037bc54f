// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/plan_session.h"

#include <algorithm>
#include <set>

#include "app/window/document/background.h"
#include "app/window/document/use_place.h"
#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/document/pinned.h"
#include "core/document/plan_rack.h"
#include "core/plan/checker.h"
#include "vision/wood/rank/rack_pictures.h"

namespace rackside {

namespace {

// The checker's rules about where a piece lies. The others are about cuts, which the planner draws
// anew, or about the plan as a whole.
const std::set<std::string>& placementRules() {
  static const std::set<std::string> rules{
      "inside",  "ends",      "clear-face-a", "clear-face-b", "unseen-face",
      "overlap", "thickness", "species",      "grain",        "board-use"};
  return rules;
}

Plan movedPlan(const Plan& plan, const PieceId& id, Point delta) {
  Plan moved = plan;
  const auto piece = std::find_if(moved.pieces.begin(), moved.pieces.end(),
                                  [&](const Piece& p) { return p.id == id; });
  if (piece == moved.pieces.end()) return moved;
  const BlankId blankId = piece->blank;
  for (Blank& blank : moved.blanks)
    if (blank.id == blankId) blank.boardFromBlank.origin = blank.boardFromBlank.origin + delta;
  for (Piece& other : moved.pieces)
    if (other.blank == blankId)
      for (Point& p : other.outline) p = p + delta;
  return moved;
}

const Piece* findPiece(const Plan& plan, const PieceId& id) {
  for (const Piece& piece : plan.pieces)
    if (piece.id == id) return &piece;
  return nullptr;
}

}  // namespace

QStringList placementBreaches(const Rack& rack, const Plan& plan, const BoardId& id) {
  const Board* board = rack.findBoard(id);
  if (!board) return {};
  PlanRequest request;
  request.boards = {*board};
  request.parts = rack.parts;
  request.shop = rack.shop;
  Plan here;
  for (const Blank& blank : plan.blanks)
    if (blank.board == id) here.blanks.push_back(blank);
  for (const Piece& piece : plan.pieces)
    if (piece.board == id) here.pieces.push_back(piece);
  for (const Cut& cut : plan.cuts)
    if (cut.board == id) here.cuts.push_back(cut);
  QStringList why;
  for (const Breach& breach : checkPlan(request, here))
    if (placementRules().contains(breach.rule)) why << qt(breach.message);
  why.removeDuplicates();
  return why;
}

PlanSession::PlanSession(Document& document, QObject* parent)
    : QObject(parent), document_(document) {
  pool_.setMaxThreadCount(1);
  pool_.setThreadPriority(QThread::LowPriority);
  connect(&document_, &Document::opened, this, [this] {
    if (control_) control_->stop();
    trial_.reset();
    best_.reset();
    compared_.clear();
    emit shownChanged();
  });
  connect(&document_, &Document::changed, this, [this] {
    if (!running() && trial_) dropTrial();
    emit shownChanged();
  });
}

PlanSession::~PlanSession() {
  if (control_) control_->stop();
  pool_.waitForDone();
}

const Plan* PlanSession::shown() const {
  if (trial_ && trial_->plan && !best_) return trial_->plan.get();
  if (best_) return best_.get();
  return document_.rack().plan ? &*document_.rack().plan : nullptr;
}

void PlanSession::start(double limitSeconds) {
  if (running()) return;
  trial_.reset();
  std::shared_ptr<const Plan> current;
  if (document_.rack().plan) current = std::make_shared<const Plan>(*document_.rack().plan);
  run(current, limitSeconds);
}

void PlanSession::compare(double limitSeconds) {
  if (running()) return;
  begin();
  compared_.clear();
  emit started();
  inBackground(
      pool_, this,
      [rack = std::make_shared<const Rack>(document_.rack()), limitSeconds,
       folder = document_.folder(), control = control_] {
        return std::make_shared<std::vector<ComparedPlan>>(
            plansByAim(*rack, folder, limitSeconds, *control));
      },
      [this, control = control_](const std::shared_ptr<std::vector<ComparedPlan>>& plans) {
        if (control != control_) return;  // another rack was opened meanwhile
        control_.reset();
        best_.reset();
        compared_ = std::move(*plans);
        emit shownChanged();
        emit finished();
      });
}

void PlanSession::take(size_t compared) {
  if (running() || compared >= compared_.size()) return;
  const ComparedPlan& chosen = compared_[compared];
  std::vector<std::unique_ptr<Edit>> edits;
  edits.push_back(setPlan(chosen.plan));
  edits.push_back(changeShop(withPlanAim(document_.rack().shop, chosen.aim)));
  (void)document_.perform(together("Plan", std::move(edits)));
}

void PlanSession::planTheRest(const Plan& marked, double limitSeconds) {
  if (running()) return;
  trial_.reset();
  run(std::make_shared<const Plan>(marked), limitSeconds, true);
}

void PlanSession::begin() {
  control_ = std::make_shared<RunControl>();
  best_.reset();
  fraction_ = 0;
  stage_.clear();
  control_->onProgress = [this](double fraction, const std::string& stage) {
    QMetaObject::invokeMethod(this, [this, fraction, text = qt(stage)] {
      fraction_ = fraction;
      stage_ = text;
      emit progress();
    });
  };
}

void PlanSession::run(const std::shared_ptr<const Plan>& current, double limitSeconds,
                      bool onlyWhatIsLost) {
  begin();
  compared_.clear();
  auto rack = std::make_shared<Rack>(document_.rack());
  rack->plan.reset();
  if (current) rack->plan = *current;
  RackPlanOptions options = planOptionsFor(*rack);
  options.planning.limitSeconds = limitSeconds;
  options.planning.onlyWhatIsLost = onlyWhatIsLost;
  const PlanAim aim = planAim(rack->shop);
  aimAt(aim, options);
  options.planning.onBetter = [this](const Plan& plan) {
    QMetaObject::invokeMethod(this, [this, better = std::make_shared<const Plan>(plan)] {
      if (!running()) return;
      best_ = better;
      emit shownChanged();
    });
  };
  emit started();
  inBackground(
      pool_, this,
      [rack, options, folder = document_.folder(), control = control_] {
        const RackPictures pictures(folder);
        return std::make_shared<Result<std::vector<Plan>>>(
            planRack(*rack, options, &pictures, *control));
      },
      [this, aim, control = control_](const std::shared_ptr<Result<std::vector<Plan>>>& made) {
        if (control != control_) return;  // another rack was opened meanwhile
        if (!made->ok()) return end(made->error());
        end(bestFor(aim, std::move(*made).value()));
      });
}

void PlanSession::end(Result<Plan> result) {
  control_.reset();
  best_.reset();
  trial_.reset();
  if (result)
    (void)document_.perform(setPlan(std::move(result).value()));
  else
    emit failed(qt(result.error().message));
  emit shownChanged();
  emit finished();
}

void PlanSession::stop() {
  if (control_) control_->stop();
}

void PlanSession::holdAt(const PieceId& id, Point delta) {
  if (running() || !document_.rack().plan) return;
  const Piece* piece = findPiece(*document_.rack().plan, id);
  if (!piece) return;
  auto moved = std::make_shared<const Plan>(movedPlan(*document_.rack().plan, id, delta));
  trial_ = Trial{id, moved, placementBreaches(document_.rack(), *moved, piece->board)};
  emit shownChanged();
}

void PlanSession::settle(double limitSeconds) {
  if (running() || !trial_ || !trial_->legal()) return;
  run(std::make_shared<const Plan>(withPin(*trial_->plan, trial_->piece, true)), limitSeconds);
}

void PlanSession::placeAt(const PartId& id, const Placement& place, double limitSeconds) {
  const Part* part = document_.rack().findPart(id);
  if (running() || !part) return;
  const auto placed = withPieceAt(document_.rack(), *part, place);
  if (!placed) return emit failed(tr("Every copy of %1 is cut already.").arg(qt(part->name)));
  trial_.reset();
  run(std::make_shared<const Plan>(withPin(placed->plan, placed->piece, true)), limitSeconds);
}

void PlanSession::dropTrial() {
  trial_.reset();
  emit shownChanged();
}

void PlanSession::setPinned(const PieceId& piece, bool pinned) {
  if (running() || !document_.rack().plan) return;
  (void)document_.perform(setPlan(withPin(*document_.rack().plan, piece, pinned)));
}

}  // namespace rackside
