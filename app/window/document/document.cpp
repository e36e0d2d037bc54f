// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/document.h"

#include "app/window/document/background.h"
#include "app/window/look/text.h"

namespace rackside {

Document::Document(QObject* parent) : QObject(parent), saver_(rack_) {
  connect(&saver_, &Saver::stateChanged, this, &Document::saveStateChanged);
  connect(&saver_, &Saver::failed, this, &Document::saveFailed);
}

// Nobody is told any more: who listened may be half gone.
Document::~Document() {
  saver_.disconnect();
  (void)saver_.flush();
}

struct Document::Opened {
  Result<Rack> rack;
  RackSnapshot snapshot;
};

void Document::open(const std::filesystem::path& folder) {
  const int number = ++openingNumber_;
  inBackground(
      *QThreadPool::globalInstance(), this,
      [folder] {
        RackSnapshot snapshot;
        Result<Rack> rack = loadRack(folder, &snapshot);
        return std::make_shared<Opened>(Opened{std::move(rack), std::move(snapshot)});
      },
      [this, folder, number](const std::shared_ptr<Opened>& opened) {
        if (number != openingNumber_) return;  // another folder was asked for meanwhile
        if (opened->rack.ok())
          show(std::move(*opened), folder);
        else
          emit openFailed(qt(opened->rack.error().message));
      });
}

void Document::show(Opened opened, const std::filesystem::path& folder) {
  // What cannot be written is not let go of either.
  if (const Status written = saver_.flush(); !written)
    return emit openFailed(tr("The rack that is open could not be saved, and stays open. %1")
                               .arg(qt(written.error().message)));
  rack_ = std::move(opened.rack).value();
  history_ = History();
  folder_ = folder;
  saver_.setFolder(folder, std::move(opened.snapshot));
  open_ = true;
  emit this->opened();
  emit historyChanged();
}

std::filesystem::path Document::pictureFile(const Board& board, const Picture& picture) const {
  return rackside::pictureFile(folder_, board, picture);
}

Status Document::perform(std::unique_ptr<Edit> edit, long long gestureId) {
  const auto done = history_.perform(rack_, std::move(edit), gestureId);
  if (!done) {
    emit editRefused(qt(done.error().message));
    return done.error();
  }
  announce(done.value());
  return success();
}

void Document::undo() {
  if (history_.canUndo()) announce(history_.undo(rack_));
}

void Document::redo() {
  if (history_.canRedo()) announce(history_.redo(rack_));
}

void Document::announce(const ChangeEvents& events) {
  if (events.empty()) return;
  saver_.noteChange();
  emit changed(events);
  emit historyChanged();
}

Status Document::saveNow() {
  return saver_.flush();
}

}  // namespace rackside
