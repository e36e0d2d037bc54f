// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/document.h"

#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "core/storage/open_rack.h"

namespace rackside {

namespace {

constexpr int kBetweenLooksMs = 1500;

// A damaged board is left out and told; without its lists a rack is not opened.
std::string listsLost(const OpenedRack& opened) {
  for (const DamagedFile& file : opened.damaged)
    if (!file.place.starts_with("boards/")) return file.message;
  return {};
}

}  // namespace

Document::Document(QObject* parent) : QObject(parent), saver_(rack_) {
  connect(&saver_, &Saver::stateChanged, this, &Document::saveStateChanged);
  connect(&saver_, &Saver::failed, this, &Document::saveFailed);
  connect(&saver_, &Saver::failed, &saver_, &Saver::look);
  connect(&saver_, &Saver::changedOutside, this,
          [this](const std::shared_ptr<const ChangedFiles>& files) { takeIn(*files); });
  connect(&look_, &QTimer::timeout, &saver_, &Saver::look);
  look_.start(kBetweenLooksMs);
}

// Nobody is told any more: who listened may be half gone.
Document::~Document() {
  saver_.disconnect();
  (void)saver_.flush();
}

struct Document::Opened {
  Result<Rack> rack;
  RackSnapshot snapshot;
  QStringList told;  // what could not be read, and the like
};

void Document::open(const std::filesystem::path& folder) {
  const int number = ++openingNumber_;
  inBackground(
      *QThreadPool::globalInstance(), this,
      [folder] {
        auto opened = openRack(folder);
        if (!opened) return std::make_shared<Opened>(Opened{opened.error(), {}, {}});
        const std::string lost = listsLost(*opened);
        if (!lost.empty()) return std::make_shared<Opened>(Opened{Error{lost}, {}, {}});
        QStringList told;
        for (const DamagedFile& file : opened->damaged)
          told << qt(file.message) + tr(" The board is left out.");
        for (const std::string& remark : opened->remarks) told << qt(remark);
        return std::make_shared<Opened>(
            Opened{std::move(opened.value().rack), std::move(opened.value().snapshot), told});
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
  if (!opened.told.isEmpty()) emit tookIn(opened.told.join(QLatin1Char(' ')));
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

// One step of undo, like any other change.
void Document::takeIn(const ChangedFiles& files) {
  TakenIn taken = saver_.takeIn(files);
  const bool changes = taken.edit != nullptr;
  if (changes && !perform(std::move(taken.edit))) return;
  if (saver_.writeFailed() || !taken.told.empty()) saver_.noteChange();
  if (!taken.told.empty())
    emit tookIn(qt(taken.told.front()));
  else if (changes)
    emit tookIn(tr("Another program changed this rack; its changes are shown here now."));
}

Status Document::saveNow() {
  return saver_.flush();
}

}  // namespace rackside
