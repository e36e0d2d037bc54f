// SPDX-License-Identifier: GPL-3.0-or-later
// Edits of the parts list, the shop and the plan, each replaced as a whole; and several as one.
#include <algorithm>

#include "core/document/edits.h"
#include "core/job/parts_limits.h"

namespace rackside {
namespace {

using What = ChangeEvent::What;

Status validWhole(const std::vector<Part>& parts) {
  for (const Part& part : parts)
    if (part.id.empty()) throw std::logic_error("a part without an id");
  return validate(parts);
}
Status validWhole(const KeptKeys&) {
  return success();
}
Status validWhole(const Shop& shop) {
  return validate(shop);
}
Status validWhole(const std::optional<Plan>&) {
  return success();
}

template <class Whole>
class ReplaceWhole final : public Edit {
 public:
  ReplaceWhole(Whole Rack::*member, Whole after, std::string title, What what)
      : member_(member), other_(std::move(after)), title_(std::move(title)), what_(what) {}
  std::string title() const override { return title_; }

  Result<std::vector<ChangeEvent>> apply(Rack& rack) override {
    if (const Status sound = validWhole(other_); !sound) return sound.error();
    std::swap(rack.*member_, other_);
    return events();
  }
  std::vector<ChangeEvent> revert(Rack& rack) override {
    std::swap(rack.*member_, other_);
    return events();
  }
  // `next` has been applied, so the rack holds its value and this holds the one before both.
  bool mergeWith(const Edit& next) override {
    const auto* later = dynamic_cast<const ReplaceWhole*>(&next);
    return later && later->member_ == member_;
  }

 private:
  std::vector<ChangeEvent> events() const { return {{what_, BoardId{}}}; }
  Whole Rack::*member_;
  Whole other_;  // what the rack does not hold now: the new value before apply(), the old after
  std::string title_;
  What what_;
};

void addNew(std::vector<ChangeEvent>& all, const std::vector<ChangeEvent>& more) {
  for (const ChangeEvent& event : more)
    if (std::find(all.begin(), all.end(), event) == all.end()) all.push_back(event);
}

class Together final : public Edit {
 public:
  Together(std::string title, std::vector<std::unique_ptr<Edit>> edits)
      : title_(std::move(title)), edits_(std::move(edits)) {}
  std::string title() const override { return title_; }

  Result<std::vector<ChangeEvent>> apply(Rack& rack) override {
    std::vector<ChangeEvent> all;
    for (size_t i = 0; i < edits_.size(); ++i) {
      Result<std::vector<ChangeEvent>> changes = edits_[i]->apply(rack);
      if (!changes) {
        while (i > 0) edits_[--i]->revert(rack);
        return changes;
      }
      addNew(all, *changes);
    }
    return all;
  }
  std::vector<ChangeEvent> revert(Rack& rack) override {
    std::vector<ChangeEvent> all;
    for (auto edit = edits_.rbegin(); edit != edits_.rend(); ++edit)
      addNew(all, (*edit)->revert(rack));
    return all;
  }

 private:
  std::string title_;
  std::vector<std::unique_ptr<Edit>> edits_;
};

}  // namespace

std::unique_ptr<Edit> changeParts(std::vector<Part> parts) {
  return std::make_unique<ReplaceWhole<std::vector<Part>>>(&Rack::parts, std::move(parts),
                                                           "Change parts list", What::parts);
}
std::unique_ptr<Edit> changePartsExtra(KeptKeys extra) {
  return std::make_unique<ReplaceWhole<KeptKeys>>(&Rack::partsExtra, std::move(extra),
                                                  "Change parts list", What::parts);
}
std::unique_ptr<Edit> changeShop(Shop shop) {
  return std::make_unique<ReplaceWhole<Shop>>(&Rack::shop, std::move(shop), "Change shop",
                                              What::shop);
}
std::unique_ptr<Edit> setPlan(std::optional<Plan> plan) {
  const char* title = plan ? "Plan" : "Take the plan away";
  return std::make_unique<ReplaceWhole<std::optional<Plan>>>(&Rack::plan, std::move(plan), title,
                                                             What::plan);
}
std::unique_ptr<Edit> together(std::string title, std::vector<std::unique_ptr<Edit>> edits) {
  return std::make_unique<Together>(std::move(title), std::move(edits));
}

}  // namespace rackside
