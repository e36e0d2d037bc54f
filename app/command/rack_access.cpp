// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/rack_access.h"

#include "app/command/console.h"

namespace rackside::command {
namespace {

Status tellDamage(const OpenedRack& opened, Needs needs) {
  for (const DamagedFile& file : opened.damaged) {
    const bool isBoard = file.place.starts_with("boards/");
    if (!isBoard && needs == Needs::lists) return Error{file.message};
    message("warning: " + file.message + (isBoard ? " The board is left out." : ""));
  }
  for (const std::string& remark : opened.remarks) message("warning: " + remark);
  return success();
}

Result<OpenedRack> opened(const CommonOptions& o, RackUse use, Needs needs) {
  auto rack = rackside::openRack(o.rack, use);
  if (!rack) return rack;
  if (const Status told = tellDamage(*rack, needs); !told) return told.error();
  return rack;
}

}  // namespace

Result<OpenedRack> openToRead(const CommonOptions& o, Needs needs) {
  return opened(o, RackUse::read, needs);
}

Result<OpenedRack> openToChange(const CommonOptions& o, Needs needs) {
  std::error_code error;
  const bool there = std::filesystem::is_directory(o.rack, error);
  return opened(o, there ? RackUse::change : RackUse::read, needs);  // reading says what is missing
}

Result<OpenedRack> openOrMake(const CommonOptions& o, Needs needs) {
  return opened(o, RackUse::change, needs);
}

}  // namespace rackside::command
