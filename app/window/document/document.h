// SPDX-License-Identifier: GPL-3.0-or-later
// The open rack as the window sees it: the only place that changes it, always through the history,
// and the only place that writes it, a moment after each change. Everything lives on the window's
// thread; reading and writing files does not.
#pragma once

#include <QObject>
#include <QTimer>
#include <filesystem>
#include <memory>
#include <vector>

#include "app/window/document/saver.h"
#include "core/document/edit.h"
#include "core/document/rack.h"

namespace rackside {

using ChangeEvents = std::vector<ChangeEvent>;

class Document : public QObject {
  Q_OBJECT
 public:
  explicit Document(QObject* parent = nullptr);
  ~Document() override;  // what is not yet written is written first

  // Reads the folder in the background; opened() or openFailed() follows. Until then the rack that
  // was open stays.
  void open(const std::filesystem::path& folder);

  bool isOpen() const { return open_; }
  const Rack& rack() const { return rack_; }
  const std::filesystem::path& folder() const { return folder_; }
  std::filesystem::path pictureFile(const Board& board, const Picture& picture) const;

  // One edit, one step of undo; steps of one gesture share its id. A failure is also announced by
  // editRefused().
  Status perform(std::unique_ptr<Edit> edit, long long gestureId = -1);
  long long newGesture() { return ++lastGesture_; }
  void undo();
  void redo();
  const History& history() const { return history_; }
  LengthStyle lengths() const { return rack_.shop.show; }

  // Writes now and waits: before another program reads the folder, and at the end.
  Status saveNow();
  bool saved() const { return !saver_.busy(); }
  bool latestSaveFailed() const { return saver_.writeFailed(); }

 signals:
  void opened();
  void openFailed(const QString& why);
  void changed(const rackside::ChangeEvents& events);
  void historyChanged();
  void editRefused(const QString& why);
  void saveStateChanged();
  void saveFailed(const QString& why);
  void tookIn(const QString& what);  // another program's changes

 private:
  struct Opened;
  void show(Opened opened, const std::filesystem::path& folder);
  void announce(const ChangeEvents& events);
  void takeIn(const ChangedFiles& files);

  Rack rack_;
  History history_;
  std::filesystem::path folder_;
  Saver saver_;
  QTimer look_;  // whether another program changed the files
  bool open_ = false;
  long long lastGesture_ = 0;
  int openingNumber_ = 0;
};

}  // namespace rackside
