// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/photo_session.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "app/window/document/background.h"
#include "app/window/look/text.h"
#include "core/document/edits.h"
#include "vision/cards/card_finder.h"
#include "vision/scan/retake.h"
#include "vision/scan/store_scan.h"

namespace rackside {

namespace {

using State = BoardPhotos::State;

constexpr int kSmallPx = 220;

QImage smallOf(const cv::Mat& bgr) {
  const double scale = double(kSmallPx) / std::max(bgr.cols, bgr.rows);
  cv::Mat small;
  cv::resize(bgr, small, {}, scale, scale, cv::INTER_AREA);
  return QImage(small.data, small.cols, small.rows, static_cast<qsizetype>(small.step),
                QImage::Format_BGR888)
      .copy();
}

// The picture is stored here, off the window's thread and before any record names it. `stored` is
// the board that face A is taken again of, or null.
Result<ScanResult> scanAndStore(const QStringList& files, const ScanOptions& options,
                                const Board* stored, const std::filesystem::path& folder,
                                RunControl& control) {
  std::vector<Photo> photos;
  for (const QString& file : files) {
    auto photo = readPhoto(pathOf(file));
    if (!photo) return photo.error();
    photos.push_back(std::move(photo).value());
  }
  auto result = scanFace(photos, options, control);
  if (!result) return result;
  if (stored)
    if (const Status laid = layRetakeOn(*stored, folder, result.value()); !laid)
      return laid.error();
  if (const Status kept = storeFacePicture(result.value(), folder); !kept) return kept.error();
  return result;
}

}  // namespace

double printedBarMm() {
  const Segment bar = cardModel(1).bars.front().line;
  return std::hypot(bar.to.x - bar.from.x, bar.to.y - bar.from.y);
}

QString scanSummary(const Board& board, const LengthStyle& style) {
  QString text = QObject::tr("Measured: %1 long").arg(measuredText(board.lengthMm, style));
  if (!board.widthsMm.empty()) {
    const Measured& middle = board.widthsMm[board.widthsMm.size() / 2];
    text += QObject::tr(", %1 wide in the middle").arg(measuredText(middle, style));
  }
  return text + QLatin1Char('.');
}

PhotoSession::PhotoSession(Document& document, QObject* parent)
    : QObject(parent), document_(document) {
  pool_.setMaxThreadCount(1);
  pool_.setThreadPriority(QThread::LowPriority);
  connect(&document_, &Document::opened, this, [this] {
    stop();
    groups_.clear();
    emit changed();
  });
}

PhotoSession::~PhotoSession() {
  stop();
  pool_.clear();
  pool_.waitForDone();
}

BoardPhotos* PhotoSession::find(long long id) {
  for (BoardPhotos& group : groups_)
    if (group.id == id) return &group;
  return nullptr;
}

std::vector<BoardPhotos*> PhotoSession::waitingWithTag(int tag) {
  std::vector<BoardPhotos*> waiting;
  for (BoardPhotos& group : groups_)
    if (group.tag == tag && (group.state == State::ready || group.state == State::asks))
      waiting.push_back(&group);
  return waiting;
}

const Board* PhotoSession::boardWithTag(int tag) const {
  for (const Board& board : document_.rack().boards)
    if (board.tag == tag) return &board;
  return nullptr;
}

PhotoSession::Read PhotoSession::readOne(const QString& file) {
  Read read;
  read.file = file;
  const auto photo = readPhoto(pathOf(file));
  if (!photo) {
    read.failure = qt(photo.error().message);
    return read;
  }
  cv::Mat grey;
  cv::cvtColor(photo->bgr, grey, cv::COLOR_BGR2GRAY);
  const FoundMarkers markers = findMarkers(grey);
  for (const FoundTag& tag : markers.tags) read.tags.push_back(tag.number);
  for (const FoundCard& card : markers.cards) read.cards.push_back(card.number);
  read.layout = layoutOf(markers);
  read.small = smallOf(photo->bgr);
  return read;
}

void PhotoSession::add(const QStringList& files) {
  for (const QString& file : files) {
    ++reading_;
    inBackground(
        pool_, this, [file] { return readOne(file); },
        [this](const Read& r) {
          --reading_;
          sort(r);
          emit changed();
        });
  }
  emit changed();
}

BoardPhotos& PhotoSession::newGroup(const Read& read) {
  groups_.push_back({});
  BoardPhotos& group = groups_.back();
  group.id = ++lastId_;
  group.small = read.small;
  return group;
}

// Photographs of one face lie together: the same tag, with cards lying as before in every picture
// that can tell.
BoardPhotos* PhotoSession::groupFor(const Read& read) {
  for (BoardPhotos* group : waitingWithTag(read.tags.front())) {
    bool same = false, anew = false;
    for (const MarkerLayout& layout : group->layouts) {
      const SameLayout is = sameLayout(layout, read.layout);
      same = same || is == SameLayout::yes;
      anew = anew || is == SameLayout::no;
    }
    if (same && !anew) return group;
  }
  return nullptr;
}

// A tag that waits already, with everything laid out anew: the board was turned over. Where that
// cannot be told it is asked.
void PhotoSession::setFace(BoardPhotos& group, const Read& read) {
  const auto before = waitingWithTag(read.tags.front());
  group.tag = read.tags.front();
  if (before.empty()) {
    const Board* board = boardWithTag(*group.tag);
    group.asFaceB = board && board->seen(Face::A) && !board->seen(Face::B);
    return;
  }
  const bool anew = std::any_of(
      before.front()->layouts.begin(), before.front()->layouts.end(),
      [&](const MarkerLayout& l) { return sameLayout(l, read.layout) == SameLayout::no; });
  group.asFaceB = !before.front()->asFaceB;
  if (anew && before.size() == 1) {
    group.found =
        tr("Taken for the other face: the cards lie otherwise than in the photographs "
           "of this tag before it.");
    return;
  }
  group.state = State::asks;
  group.found = tr("Which face does it show? Its cards do not tell.");
}

// None, several, or an unreadable file: by itself, with what to do.
void PhotoSession::sort(const Read& read) {
  if (read.tags.size() == 1 && (!read.cards.empty() || settings_.reference)) {
    BoardPhotos* group = groupFor(read);
    if (!group) {
      group = &newGroup(read);
      setFace(*group, read);
    }
    group->photos << read.file;
    group->layouts.push_back(read.layout);
    group->cards = std::max(group->cards, static_cast<int>(read.cards.size()));
    return;
  }
  BoardPhotos& group = newGroup(read);
  group.photos << read.file;
  if (read.tags.size() == 1) group.tag = read.tags.front();
  if (!read.failure.isEmpty()) {
    group.state = State::noPhotograph;
    group.found = read.failure;
  } else if (read.tags.size() > 1) {
    QStringList numbers;
    for (const int tag : read.tags) numbers << QString::number(tag);
    group.state = State::retake;
    group.found = tr("Tags %1 are all in view: photograph one board at a time, or cover the other "
                     "tags.")
                      .arg(listed(numbers));
  } else if (read.cards.empty() && !settings_.reference) {
    group.state = State::retake;
    group.found =
        tr("No reference card was found: lay printed cards flat on the board, whole in "
           "the picture and in even light.");
  }
}

void PhotoSession::remove(long long id) {
  std::erase_if(groups_,
                [id](const BoardPhotos& g) { return g.id == id && g.state != State::scanning; });
  emit changed();
}

void PhotoSession::setFaceB(long long id, bool faceB) {
  BoardPhotos* group = find(id);
  if (!group) return;
  group->asFaceB = faceB;
  if (group->state == State::asks) group->state = State::ready;
  group->found.clear();
  if (group->tag)
    for (BoardPhotos* other : waitingWithTag(*group->tag))
      if (other != group && other->state == State::ready) other->asFaceB = !faceB;
  emit changed();
}

void PhotoSession::setDetails(long long id, const BoardDetails& details) {
  BoardPhotos* group = find(id);
  if (!group) return;
  group->own = details;
  if (const Board* board = document_.rack().findBoard(group->board)) {
    Board changed = *board;
    changed.species = plain(details.species);
    changed.place = plain(details.place);
    changed.thicknessMm = details.thicknessMm;
    changed.pricePerBoardFoot = details.pricePerBoardFoot;
    (void)document_.perform(changeBoard(std::move(changed)));
  }
  emit changed();
}

BoardDetails PhotoSession::details(const BoardPhotos& group) const {
  if (const Board* board = document_.rack().findBoard(group.board))
    return {qt(board->species), qt(board->place), board->thicknessMm, board->pricePerBoardFoot};
  BoardDetails d = group.own;
  if (d.species.isEmpty()) d.species = settings_.species;
  if (d.place.isEmpty()) d.place = settings_.place;
  if (d.thicknessMm <= 0) d.thicknessMm = settings_.thicknessMm;
  if (d.pricePerBoardFoot <= 0) d.pricePerBoardFoot = settings_.pricePerBoardFoot;
  return d;
}

bool PhotoSession::canJoin(long long id) const {
  for (const BoardPhotos& group : groups_) {
    if (group.id != id) continue;
    return group.tag && std::any_of(groups_.begin(), groups_.end(), [&](const BoardPhotos& other) {
             return other.id < id && other.tag == group.tag && other.state == State::ready;
           });
  }
  return false;
}

void PhotoSession::join(long long id) {
  const BoardPhotos* group = find(id);
  if (!group || !canJoin(id)) return;
  const BoardPhotos joined = *group;
  std::erase_if(groups_, [id](const BoardPhotos& g) { return g.id == id; });
  BoardPhotos& first = *waitingWithTag(*joined.tag).front();
  first.photos << joined.photos;
  first.layouts.insert(first.layouts.end(), joined.layouts.begin(), joined.layouts.end());
  first.cards = std::max(first.cards, joined.cards);
  emit changed();
}

void PhotoSession::scanAll() {
  if (control_) return;
  for (BoardPhotos& group : groups_)
    if (group.state == State::stopped) group.state = State::ready;
  control_ = std::make_shared<RunControl>();
  control_->onProgress = [this](double fraction, const std::string& stage) {
    QMetaObject::invokeMethod(this, [this, fraction, text = qt(stage)] {
      fraction_ = fraction;
      stage_ = text;
      emit progress();
    });
  };
  scanNext();
}

void PhotoSession::stop() {
  if (control_) control_->stop();
}

// Face A before face B, which is laid on it.
BoardPhotos* PhotoSession::nextToScan() {
  BoardPhotos* second = nullptr;
  for (BoardPhotos& group : groups_) {
    if (group.state != State::ready) continue;
    if (!group.asFaceB) return &group;
    if (!second) second = &group;
  }
  return second;
}

void PhotoSession::scanNext() {
  BoardPhotos* next = nextToScan();
  if (!next || !control_ || control_->stopRequested()) {
    control_.reset();
    const auto count = [this](BoardPhotos::State s) {
      return static_cast<int>(std::count_if(groups_.begin(), groups_.end(),
                                            [s](const BoardPhotos& g) { return g.state == s; }));
    };
    emit changed();
    return emit allDone(count(State::done), count(State::retake));
  }
  if (next->asFaceB && !(next->tag && boardWithTag(*next->tag))) {
    next->state = State::retake;
    next->found = tr("Face B belongs to a board that is on the rack: scan its face A first.");
    return scanNext();
  }
  next->state = State::scanning;
  fraction_ = 0;
  stage_.clear();
  emit changed();

  ScanOptions options;
  const BoardDetails details = this->details(*next);
  options.species = plain(details.species);
  options.thicknessMm = details.thicknessMm;
  options.cardsOn = settings_.cardsOn;
  options.cardThicknessMm = settings_.cardThicknessMm;
  options.cardScaleMeasured = settings_.barMm > 0;
  if (options.cardScaleMeasured) options.cardScale = settings_.barMm / printedBarMm();
  options.bowMm = settings_.bowMm;
  options.reference = settings_.reference;
  std::shared_ptr<const Board> known;  // a copy: the rack may change while the scan runs
  if (next->tag) {
    options.name = std::to_string(*next->tag);
    if (const Board* board = boardWithTag(*next->tag)) {
      known = std::make_shared<const Board>(*board);
      options.name = board->name;
      if (options.thicknessMm <= 0) options.thicknessMm = board->thicknessMm;
    }
  }
  if (next->asFaceB) {
    options.face = Face::B;
    options.faceA = known.get();
  }
  inBackground(
      pool_, this,
      [files = next->photos, options, known, control = control_, folder = document_.folder()] {
        const Board* retaken = options.face == Face::A ? known.get() : nullptr;
        return std::make_shared<Result<ScanResult>>(
            scanAndStore(files, options, retaken, folder, *control));
      },
      [this, id = next->id](const std::shared_ptr<Result<ScanResult>>& result) {
        finish(id, std::move(*result));
        scanNext();
      });
}

void PhotoSession::finish(long long id, Result<ScanResult> result) {
  BoardPhotos* group = find(id);
  if (!group) return;
  if (control_ && control_->stopRequested() && !result) {
    group->state = State::stopped;
    group->found = tr("Stopped before it was measured.");
  } else if (!result) {
    group->state = State::retake;
    group->found = qt(result.error().message);
  } else {
    takeBoard(*group, std::move(result).value());
  }
  emit changed();
}

// A board that is there already may have been marked while the scan ran, so only what was scanned
// is taken from the result.
void PhotoSession::takeBoard(BoardPhotos& group, ScanResult result) {
  Board& board = result.board;
  std::unique_ptr<Edit> edit;
  if (const Board* holder = document_.rack().findBoard(board.id)) {
    Board merged = *holder;
    merged.pictures.push_back(board.pictures.back());
    if (group.asFaceB) {
      merged.faceB = board.faceB;
    } else {
      merged.outline = board.outline;
      merged.lengthMm = board.lengthMm;
      merged.widthsMm = board.widthsMm;
    }
    edit = changeBoard(std::move(merged));
  } else {
    if (!board.tag) board.tag = group.tag;
    if (board.name.empty())
      board.name = plain(group.tag ? QString::number(*group.tag) : tr("new %1").arg(group.id));
    const BoardDetails entered = details(group);
    if (board.place.empty()) board.place = plain(entered.place);
    if (board.pricePerBoardFoot <= 0) board.pricePerBoardFoot = entered.pricePerBoardFoot;
    edit = addBoard(board);
  }
  if (const Status done = document_.perform(std::move(edit)); !done) {
    group.state = State::retake;
    group.found = qt(done.error().message);
    return;
  }
  group.state = State::done;
  group.board = board.id;
  group.found = scanSummary(result.board, document_.lengths());
  group.advice.clear();
  for (const std::string& text : result.warnings) group.advice << qt(text);
  for (const std::string& text : result.advice) group.advice << qt(text);
}

}  // namespace rackside
