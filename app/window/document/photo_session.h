// SPDX-License-Identifier: GPL-3.0-or-later
// Photographs on their way onto the rack: read, sorted by the tag in them, scanned in the
// background one board after another. Each board that comes out is one step of undo.
#pragma once

#include <QImage>
#include <QObject>
#include <QThreadPool>
#include <memory>
#include <optional>
#include <vector>

#include "app/window/document/document.h"
#include "vision/scan/scan.h"

namespace rackside {

struct BoardPhotos {
  enum class State { reading, ready, scanning, done, retake, stopped };
  long long id = 0;
  State state = State::reading;
  std::optional<int> tag;
  QStringList photos;
  int cards = 0;         // different ones seen in all of them
  bool asFaceB = false;  // of the board with this tag
  QImage small;          // of the first photograph
  QString found;         // what came out, or why to retake
  QStringList advice;
  BoardId board;  // once done
};

// What holds for every board of the batch.
struct PhotoSettings {
  QString species, place;
  double thicknessMm = 0;
  double cardThicknessMm = 0;
  CardsOn cardsOn = CardsOn::board;
};

class PhotoSession : public QObject {
  Q_OBJECT
 public:
  explicit PhotoSession(Document& document, QObject* parent = nullptr);
  ~PhotoSession() override;

  const std::vector<BoardPhotos>& groups() const { return groups_; }
  PhotoSettings& settings() { return settings_; }
  void add(const QStringList& files);
  void remove(long long group);
  void setFaceB(long long group, bool faceB);
  void scanAll();
  void stop();
  bool busy() const { return reading_ > 0 || control_ != nullptr; }
  bool scanning() const { return control_ != nullptr; }
  double fraction() const { return fraction_; }
  const QString& stage() const { return stage_; }

 signals:
  void changed();   // groups came, went or changed state
  void progress();  // only fraction() and stage()
  void allDone(int scanned, int toRetake);

 private:
  struct Read {
    QString file;
    QString failure;
    std::vector<int> tags, cards;
    QImage small;
  };
  static Read readOne(const QString& file);
  void sort(const Read& read);
  void scanNext();
  void finish(long long group, Result<ScanResult> result);
  void takeBoard(BoardPhotos& group, ScanResult result);
  BoardPhotos* find(long long id);
  BoardPhotos* groupWithTag(int tag);
  const Board* boardWithTag(int tag) const;

  Document& document_;
  PhotoSettings settings_;
  std::vector<BoardPhotos> groups_;
  QThreadPool pool_;  // one thread: the scan itself uses what cores there are
  std::shared_ptr<RunControl> control_;
  long long lastId_ = 0;
  int reading_ = 0;
  double fraction_ = 0;
  QString stage_;
};

// "Scanned: 2381 × 204 mm, 3 cards." and the like.
QString scanSummary(const Board& board, const LengthStyle& style);

}  // namespace rackside
