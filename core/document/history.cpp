// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/document/edit.h"

namespace rackside {

Result<std::vector<ChangeEvent>> History::perform(Rack& rack, std::unique_ptr<Edit> edit,
                                                  long long gestureId) {
  if (!edit) throw std::logic_error("History::perform without an edit");
  Result<std::vector<ChangeEvent>> changes = edit->apply(rack);
  if (!changes) return changes;
  steps_.resize(done_);  // what was undone cannot be redone after a new edit
  const bool sameGesture = gestureId >= 0 && done_ > 0 && steps_.back().gestureId == gestureId;
  if (sameGesture && steps_.back().edit->mergeWith(*edit)) return changes;
  steps_.push_back({std::move(edit), gestureId});
  ++done_;
  return changes;
}

std::string History::undoTitle() const {
  return canUndo() ? steps_[done_ - 1].edit->title() : std::string();
}

std::string History::redoTitle() const {
  return canRedo() ? steps_[done_].edit->title() : std::string();
}

std::vector<ChangeEvent> History::undo(Rack& rack) {
  if (!canUndo()) return {};
  // A gesture that was taken back is over: the next step of it stands alone.
  steps_[done_ - 1].gestureId = -1;
  --done_;
  return steps_[done_].edit->revert(rack);
}

std::vector<ChangeEvent> History::redo(Rack& rack) {
  if (!canRedo()) return {};
  Result<std::vector<ChangeEvent>> changes = steps_[done_].edit->apply(rack);
  // Ids never change, so what was undone can be done again, unless the rack was changed past the
  // history.
  if (!changes) throw std::logic_error("redo failed: " + changes.error().message);
  ++done_;
  return std::move(changes).value();
}

}  // namespace rackside
