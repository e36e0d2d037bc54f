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
#include "app/window/document/photo_layout.h"
#include "vision/scan/scan.h"

namespace rackside {

// What photographs cannot tell of a board; empty and 0: not entered.
struct BoardDetails {
  QString species, place;
  double thicknessMm = 0;
  double pricePerBoardFoot = 0;
};

struct BoardPhotos {
  // asks: which face it shows must be said first.
  enum class State { ready, asks, scanning, done, retake, noPhotograph, stopped };
  long long id = 0;
  State state = State::ready;
  std::optional<int> tag;
  QStringList photos;
  int cards = 0;                      // different ones seen in all of them
  std::vector<MarkerLayout> layouts;  // one a photograph that shows the tag
  bool asFaceB = false;               // of the board with this tag
  QImage small;                       // of the first photograph
  QString found;                      // what came out, or why to retake
  QStringList advice;
  BoardDetails own;  // where it differs from the rest of the batch
  BoardId board;     // once done
};

// What holds for every board of the batch.
struct PhotoSettings : BoardDetails {
  double cardThicknessMm = 0;
  double barMm = 0;                         // what the cards' printed bar measures; 0: not measured
  double bowMm = 0;                         // how far the boards' ends stand up
  std::optional<PlainReference> reference;  // what lies there instead of cards, or beside them
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
  // Another group of the same tag that waits as this face shows the other one from now on.
  void setFaceB(long long group, bool faceB);
  // Before and after measuring; of a measured board the board itself is changed.
  void setDetails(long long group, const BoardDetails& details);
  // As they hold for the group: its own, or else those of the batch; once measured, the board's.
  BoardDetails details(const BoardPhotos& group) const;
  bool canJoin(long long group) const;  // the photographs of the same tag before it
  void join(long long group);
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
    MarkerLayout layout;
    QImage small;
  };
  static Read readOne(const QString& file);
  void sort(const Read& read);
  void scanNext();
  void finish(long long group, Result<ScanResult> result);
  void takeBoard(BoardPhotos& group, ScanResult result);
  BoardPhotos& newGroup(const Read& read);
  BoardPhotos* groupFor(const Read& read);
  void setFace(BoardPhotos& group, const Read& read);
  BoardPhotos* find(long long id);
  BoardPhotos* nextToScan();
  std::vector<BoardPhotos*> waitingWithTag(int tag);
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
// How long the bar on a card is meant to be, mm.
double printedBarMm();
QString scanSummary(const Board& board, const LengthStyle& style);

}  // namespace rackside
