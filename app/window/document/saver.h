// SPDX-License-Identifier: GPL-3.0-or-later
// Writes the rack in the background, a moment after the latest change; only files that differ.
#pragma once

#include <QObject>
#include <QThreadPool>
#include <QTimer>
#include <atomic>
#include <filesystem>
#include <memory>

#include "core/document/rack.h"
#include "core/storage/rack_folder.h"
#include "core/storage/rack_merge.h"

namespace rackside {

class Saver : public QObject {
  Q_OBJECT
 public:
  explicit Saver(const Rack& rack, QObject* parent = nullptr);
  ~Saver() override;

  // The folder from now on, and what its files hold.
  void setFolder(const std::filesystem::path& folder, RackSnapshot snapshot);
  void noteChange();
  // True while something is unwritten or being written; so it stays after a write that failed,
  // which is tried again with the next change or flush().
  bool busy() const { return dirty_ || writeFailed_ || running_ > 0; }
  bool writeFailed() const { return writeFailed_; }
  Status flush();  // writes now and waits
  // Looks in the background whether another program changed the files; changedOutside() follows
  // when one did.
  void look();
  // What the rack needs so as to hold those changes too; waits for a write that is under way.
  TakenIn takeIn(const ChangedFiles& files);

 signals:
  void stateChanged();
  void failed(const QString& why);
  void changedOutside(const std::shared_ptr<const rackside::ChangedFiles>& files);

 private:
  void start();

  const Rack& rack_;
  std::filesystem::path folder_;
  std::shared_ptr<RackSnapshot> snapshot_;  // touched by one write at a time
  QTimer pause_;
  QThreadPool pool_;  // one thread, so that writes keep their order
  bool dirty_ = false;
  std::atomic<bool> writeFailed_ = false;  // the latest write; set on the pool's thread
  int running_ = 0;
  RackStamps stamps_;  // of the files, when they were last looked at
  bool looking_ = false;
};

}  // namespace rackside
