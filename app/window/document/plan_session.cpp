// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/plan_session.h"

#include <algorithm>
#include <set>

#include "app/window/document/background.h"
#include "app/window/document/pins.h"
#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "core/plan/checker.h"
#include "core/plan/remedies.h"
#include "core/plan/score.h"
#include "core/plan/spare_stock.h"
#include "vision/wood/figure_cache.h"
#include "vision/wood/rank/look_maps.h"
#include "vision/wood/rank/plan_panels.h"

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

// A fault inside the planner ends the run, not the program with the maker's work in it.
Result<Plan> planOrFail(const PlanRequest& request, const PlanOptions& options,
                        const FigureSource& figures, RunControl& control) {
  try {
    auto plan = makePlan(request, options, control);
    if (plan) {
      addRemedies(request, plan.value());
      orderPanels(request.boards, figures, plan.value());
      plan.value().spares = spareStock(request, *plan);
    }
    return plan;
  } catch (const std::exception& fault) {
    return Error{std::string("The planner could not go on (") + fault.what() +
                 "). The plan stays as it was; please report this."};
  }
}

// What the wood looks like, for parts that want a look; the first time it is read off the pictures.
FigureSource figuresOf(const std::filesystem::path& rackFolder) {
  return [rackFolder](const Board& board, Face face) {
    RunControl own;
    return figureOf(board, face, rackFolder, defaultCacheFolder(), own);
  };
}

void addLooks(const FigureSource& figures, PlanRequest& request, RunControl& control) {
  request.worth = lookMaps(request.boards, request.parts, figures, control).worth;
  request.tones = boardTones(request.boards, request.parts, figures);
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

PlanRequest PlanSession::request() const {
  const Rack& rack = document_.rack();
  PlanRequest request;
  request.boards = rack.boards;
  request.parts = rack.parts;
  request.shop = rack.shop;
  return request;
}

void PlanSession::start(double limitSeconds) {
  if (running()) return;
  trial_.reset();
  std::shared_ptr<const Plan> current;
  if (document_.rack().plan) current = std::make_shared<const Plan>(*document_.rack().plan);
  run(current, limitSeconds);
}

void PlanSession::planTheRest(const Plan& marked, double limitSeconds) {
  if (running()) return;
  trial_.reset();
  run(std::make_shared<const Plan>(marked), limitSeconds, true);
}

void PlanSession::run(const std::shared_ptr<const Plan>& current, double limitSeconds,
                      bool onlyWhatIsLost) {
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
  PlanOptions options;
  options.limitSeconds = limitSeconds;
  options.onlyWhatIsLost = onlyWhatIsLost;
  if (onlyWhatIsLost && current) options.seed = current->seed;
  options.weights = weightsOf(document_.rack().shop);
  options.onBetter = [this](const Plan& plan) {
    QMetaObject::invokeMethod(this, [this, better = std::make_shared<const Plan>(plan)] {
      if (!running()) return;
      best_ = better;
      emit shownChanged();
    });
  };
  auto work = std::make_shared<PlanRequest>(request());
  if (current) {
    work->pinned = pinnedPieces(*current);
    work->current = current.get();
  }
  emit started();
  inBackground(
      pool_, this,
      [work, current, options, limitSeconds, folder = document_.folder(), control = control_] {
        const FigureSource figures = figuresOf(folder);
        addLooks(figures, *work, *control);
        control->setLimit(limitSeconds);  // the first reading of the wood is not planning
        return std::make_shared<Result<Plan>>(planOrFail(*work, options, figures, *control));
      },
      [this, current, control = control_](const std::shared_ptr<Result<Plan>>& made) {
        if (control != control_) return;  // another rack was opened meanwhile
        if (!made->ok()) return end(made->error());
        Plan plan = std::move(*made).value();
        if (current)
          for (const PieceId& pin : pinnedPieces(*current)) plan = withPin(plan, pin, true);
        end(std::move(plan));
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

void PlanSession::dropTrial() {
  trial_.reset();
  emit shownChanged();
}

void PlanSession::setPinned(const PieceId& piece, bool pinned) {
  if (running() || !document_.rack().plan) return;
  (void)document_.perform(setPlan(withPin(*document_.rack().plan, piece, pinned)));
}

}  // namespace rackside
