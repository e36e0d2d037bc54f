// SPDX-License-Identifier: GPL-3.0-or-later
// The open rack as phones see it: what they write is an edit of the window's own, shown at once and
// one step of its undo.
#pragma once

#include "app/serve/served_rack.h"
#include "app/window/document/document.h"

namespace rackside {

class ServedDocument : public serve::ServedRack {
 public:
  ServedDocument(Document& document, std::function<bool()> planning)
      : document_(document), planning_(std::move(planning)) {}
  std::filesystem::path folder() const override { return document_.folder(); }
  Result<const Rack*> rack() override { return &document_.rack(); }
  Status perform(const MakeEdit& make) override {
    auto edit = make(document_.rack());
    if (!edit) return edit.error();
    return document_.perform(std::move(edit).value());
  }
  bool planning() const override { return planning_(); }

 private:
  Document& document_;
  std::function<bool()> planning_;
};

}  // namespace rackside
