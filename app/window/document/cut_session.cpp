// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/cut_session.h"

#include "app/window/look/text.h"
#include "core/document/cut_up.h"
#include "core/document/edits.h"
#include "core/plan/made_cuts.h"

namespace rackside {

namespace {
constexpr double kReplanSeconds = 0.3;  // as the verb `cut` takes
}

CutSession::CutSession(Document& document, PlanSession& planning, QObject* parent)
    : QObject(parent), document_(document), planning_(planning) {}

const Plan* CutSession::plan() const {
  return document_.rack().plan ? &*document_.rack().plan : nullptr;
}

bool CutSession::refuse(const QString& why) {
  emit refused(why);
  return false;
}

bool CutSession::setMade(const BoardId& id, int number, bool made) {
  const Board* board = document_.rack().findBoard(id);
  if (!board || !plan()) return false;
  if (planning_.running()) return refuse(tr("Wait for the new plan."));
  auto changed =
      made ? withCutsMade(*plan(), *board, {number}) : withCutsTakenBack(*plan(), *board, {number});
  if (!changed) return refuse(qt(changed.error().message));
  return document_.perform(setPlan(std::move(changed).value())).ok();
}

bool CutSession::miscut(const BoardId& id, int number, double byMm) {
  const Board* board = document_.rack().findBoard(id);
  if (!board || !plan()) return false;
  if (planning_.running()) return refuse(tr("Wait for the new plan."));
  Miscut where;
  where.byMm = byMm;
  const auto marked = withMiscut(*plan(), *board, number, where);
  if (!marked) return refuse(qt(marked.error().message));
  planning_.planTheRest(*marked, kReplanSeconds);
  return true;
}

void CutSession::planTheRest() {
  if (plan()) planning_.planTheRest(*plan(), kReplanSeconds);
}

bool CutSession::finish(const BoardId& id) {
  const size_t before = document_.rack().boards.size();
  auto edit = finishCutting(document_.rack(), id);
  if (!edit) return refuse(qt(edit.error().message));
  if (!document_.perform(std::move(edit).value()).ok()) return false;
  const auto offcuts = static_cast<int>(document_.rack().boards.size() - before);
  emit said(offcuts == 0 ? tr("The board is cut up; nothing large enough to keep is left.")
            : offcuts == 1
                ? tr("The board is cut up; one offcut went back on the rack.")
                : tr("The board is cut up; %1 offcuts went back on the rack.").arg(offcuts));
  return true;
}

}  // namespace rackside
