// SPDX-License-Identifier: GPL-3.0-or-later
// What the planner is told of the wood's looks, read off the pictures in a rack's folder.
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "core/document/plan_rack.h"
#include "vision/wood/rank/rank.h"

namespace rackside {

// Of the faces of a rack's boards: kept in the user's cache once they have been read.
FigureSource figuresIn(const std::filesystem::path& rackFolder);

class RackPictures : public BoardPictures {
 public:
  // `remark` is told of each face that cannot be read; null: nobody is.
  explicit RackPictures(std::filesystem::path rackFolder,
                        std::function<void(const std::string&)> remark = {});
  void readLooks(PlanRequest& request, RunControl& control) const override;
  void orderPanels(const std::vector<Board>& boards, Plan& plan) const override;

 private:
  std::filesystem::path rackFolder_;
  std::function<void(const std::string&)> remark_;
};

}  // namespace rackside
