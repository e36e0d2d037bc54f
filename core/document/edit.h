// SPDX-License-Identifier: GPL-3.0-or-later
// Edits: small values that change a rack, can be taken back, and name what they touch by id, so
// that a history outlives any pointer. One gesture of the maker is one Edit.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/document/rack.h"

namespace rackside {

// What changed, for whoever shows it.
struct ChangeEvent {
  enum class What {
    boardAdded,
    boardRemoved,
    boardFields,
    outline,
    marks,
    pictures,
    parts,
    shop,
    plan
  };
  What what = What::boardFields;
  BoardId board;  // empty where no board is meant
  bool operator==(const ChangeEvent&) const = default;
};

class Edit {
 public:
  virtual ~Edit() = default;
  // "Add knot", "Move mark": shown beside Undo.
  virtual std::string title() const = 0;
  // Fails, and leaves the rack as it was, when the object it names is gone.
  virtual Result<std::vector<ChangeEvent>> apply(Rack& rack) = 0;
  // Takes back the latest apply(), exactly.
  virtual std::vector<ChangeEvent> revert(Rack& rack) = 0;
  // Takes `next` into itself when both are steps of one gesture (a drag): true when merged.
  virtual bool mergeWith(const Edit& next) {
    (void)next;
    return false;
  }
};

// The undo history of one rack. Not thread-safe: the window's thread owns it.
class History {
 public:
  // Applies and keeps the edit; a gestureId ≥ 0 merges it into the step before when that had the
  // same.
  Result<std::vector<ChangeEvent>> perform(Rack& rack, std::unique_ptr<Edit> edit,
                                           long long gestureId = -1);
  bool canUndo() const { return done_ > 0; }
  bool canRedo() const { return done_ < steps_.size(); }
  std::string undoTitle() const;
  std::string redoTitle() const;
  std::vector<ChangeEvent> undo(Rack& rack);
  std::vector<ChangeEvent> redo(Rack& rack);

 private:
  struct Step {
    std::unique_ptr<Edit> edit;
    long long gestureId;
  };
  std::vector<Step> steps_;
  size_t done_ = 0;
};

}  // namespace rackside
