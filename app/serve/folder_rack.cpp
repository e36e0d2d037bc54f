// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/served_rack.h"
#include "core/storage/folder_lock.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_merge.h"

namespace rackside::serve {
namespace {

namespace fs = std::filesystem;

// Opening a rack waits long for another program; a phone is told sooner, and the other phones are
// not answered meanwhile.
constexpr double kWaitToReadSeconds = 0.5;
constexpr double kWaitToChangeSeconds = 3;

Status isFree(const fs::path& folder, FolderLock::Kind kind, double waitSeconds) {
  const auto lock = FolderLock::acquire(folder, kind, waitSeconds);
  return lock ? success() : Status(lock.error());
}

// A damaged board is left out, as everywhere; without its lists a rack is not gone by.
Status listsAreWhole(const OpenedRack& opened) {
  for (const DamagedFile& file : opened.damaged)
    if (!file.place.starts_with("boards/")) return Error{file.message};
  return success();
}

class FolderRack final : public ServedRack {
 public:
  explicit FolderRack(fs::path folder) : folder_(std::move(folder)) {}
  fs::path folder() const override { return folder_; }

  // Read again only when a file has changed, so that another program's lock holds up nobody who
  // only looks.
  Result<const Rack*> rack() override {
    RackStamps now = rackStamps(folder_);
    if (read_ && now == stamps_) return static_cast<const Rack*>(&rack_);
    if (const Status s = isFree(folder_, FolderLock::Kind::read, kWaitToReadSeconds); !s)
      return s.error();
    auto fresh = openRack(folder_);
    if (!fresh) return fresh.error();
    if (const Status whole = listsAreWhole(*fresh); !whole) return whole.error();
    rack_ = std::move(fresh.value().rack);
    stamps_ = std::move(now);
    read_ = true;
    return static_cast<const Rack*>(&rack_);
  }

  Status perform(const MakeEdit& make) override {
    if (const Status s = isFree(folder_, FolderLock::Kind::change, kWaitToChangeSeconds); !s)
      return s;
    auto opened = openRack(folder_, RackUse::change);
    if (!opened) return opened.error();
    if (const Status whole = listsAreWhole(*opened); !whole) return whole;
    auto edit = make(opened->rack);
    if (!edit) return edit.error();
    History history;
    const auto done = history.perform(opened.value().rack, std::move(edit).value());
    if (!done) return done.error();
    read_ = false;
    return storeRack(opened.value(), folder_);
  }

 private:
  fs::path folder_;
  Rack rack_;
  RackStamps stamps_;
  bool read_ = false;
};

}  // namespace

std::unique_ptr<ServedRack> serveFolder(fs::path folder) {
  return std::make_unique<FolderRack>(std::move(folder));
}

}  // namespace rackside::serve
