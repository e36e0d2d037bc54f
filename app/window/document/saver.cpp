// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/saver.h"

#include "app/window/document/background.h"
#include "app/window/look/text.h"

namespace rackside {

namespace {

// Long enough to gather the steps of a drag into one write, short enough that a crash costs a
// second.
constexpr int kPauseMs = 700;

}  // namespace

Saver::Saver(const Rack& rack, QObject* parent)
    : QObject(parent), rack_(rack), snapshot_(std::make_shared<RackSnapshot>()) {
  pool_.setMaxThreadCount(1);
  pause_.setSingleShot(true);
  pause_.setInterval(kPauseMs);
  connect(&pause_, &QTimer::timeout, this, &Saver::start);
}

Saver::~Saver() {
  pool_.waitForDone();
}

void Saver::setFolder(const std::filesystem::path& folder, RackSnapshot snapshot) {
  pause_.stop();
  pool_.waitForDone();
  dirty_ = writeFailed_ = false;
  folder_ = folder;
  snapshot_ = std::make_shared<RackSnapshot>(std::move(snapshot));
  stamps_.clear();  // so that the first look compares every file
}

// On the writing thread, which alone touches the snapshot.
void Saver::look() {
  if (looking_ || folder_.empty()) return;
  looking_ = true;
  struct Seen {
    RackStamps stamps;
    std::shared_ptr<const ChangedFiles> files;
  };
  inBackground(
      pool_, this,
      [folder = folder_, snapshot = snapshot_, before = stamps_] {
        Seen seen{rackStamps(folder), nullptr};
        if (seen.stamps == before) return seen;
        const auto files = changedFiles(folder, *snapshot, before, seen.stamps);
        if (!files) return Seen{before, nullptr};  // somebody is writing: the next look tells
        if (!files->empty()) seen.files = std::make_shared<const ChangedFiles>(*files);
        return seen;
      },
      [this, folder = folder_](const Seen& seen) {
        looking_ = false;
        if (folder != folder_) return;
        stamps_ = seen.stamps;
        if (seen.files) emit changedOutside(seen.files);
      });
}

TakenIn Saver::takeIn(const ChangedFiles& files) {
  pool_.waitForDone();
  return rackside::takeIn(rack_, *snapshot_, files);
}

void Saver::noteChange() {
  dirty_ = true;
  pause_.start();
  emit stateChanged();
}

// Writes a copy, so that the rack may change meanwhile.
void Saver::start() {
  if (!dirty_ || folder_.empty()) return;
  dirty_ = false;
  ++running_;
  inBackground(
      pool_, this,
      [this, copy = std::make_shared<const Rack>(rack_), folder = folder_, snapshot = snapshot_] {
        Status done = saveRack(*copy, folder, snapshot.get());
        writeFailed_ = !done.ok();
        return done;
      },
      [this](const Status& done) {
        --running_;
        if (!done) emit failed(qt(done.error().message));
        emit stateChanged();
      });
}

Status Saver::flush() {
  pause_.stop();
  pool_.waitForDone();
  if (!(dirty_ || writeFailed_) || folder_.empty()) return success();
  Status done = saveRack(rack_, folder_, snapshot_.get());
  dirty_ = false;
  writeFailed_ = !done.ok();
  emit stateChanged();
  return done;
}

}  // namespace rackside
