// SPDX-License-Identifier: GPL-3.0-or-later
// The queue's half of desk.h: what comes in, is measured, kept or dropped.
#include "app/serve/desk.h"

#include <QFile>

#include "app/serve/keep.h"
#include "app/serve/rack_json.h"
#include "app/serve/secret.h"
#include "app/serve/words_read.h"
#include "core/storage/atomic_file.h"
#include "core/storage/durable_file.h"
#include "core/storage/open_rack.h"

namespace rackside::serve {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr int kMostTries = 2;

Answer refused(const Error& error) {
  return said(409, error.message);
}

// A picture of ours; a link or anything else is none.
Answer jpegOf(const fs::path& file) {
  std::error_code none;
  if (!fs::is_regular_file(fs::symlink_status(file, none)))
    return said(404, "There is no such photograph any more.");
  QFile in(QString::fromStdString(file.string()));
  if (!in.open(QIODevice::ReadOnly)) return said(404, "There is no such photograph any more.");
  Answer answer;
  answer.type = "image/jpeg";
  answer.body = in.readAll();
  return answer;
}

json wishOf(const PhoneJob& job, const PhoneQueue& queue, const fs::path& rack) {
  json photos = json::array();
  for (const fs::path& photo : queue.photosOf(job)) photos.push_back(photo.string());
  json wish = toJson(job);
  return {{"what", wish["what"]}, {"photos", photos},       {"rack", rack.string()},
          {"face", wish["face"]}, {"words", wish["words"]}, {"out", queue.outOf(job.id).string()}};
}

}  // namespace

Desk::Desk(ServedRack& rack, PhoneQueue queue, std::unique_ptr<MeasurePool> pool)
    : rack_(rack), queue_(std::move(queue)), pool_(std::move(pool)) {
  pump();
}

// A board that is being looked for is waited for with the phone in hand, so it goes first.
void Desk::pump() {
  for (const auto what : {PhoneJob::What::find, PhoneJob::What::measure})
    for (const PhoneJob& job : std::vector<PhoneJob>(queue_.jobs())) {
      if (!pool_->hasRoom()) return;
      if (job.what == what && job.state == PhoneJob::State::waiting && !running_.contains(job.id))
        begin(job);
    }
}

void Desk::begin(const PhoneJob& waiting) {
  PhoneJob job = waiting;
  ++job.tries;
  if (job.tries > kMostTries) {
    job.state = PhoneJob::State::failed;
    job.said = "Measuring this photograph was tried twice and never came to an end. Retake it.";
    (void)queue_.change(job);
    return;
  }
  // A full disk must not keep a picture from being measured: then it counts from the next start on.
  (void)queue_.change(job);
  std::error_code failure;
  fs::remove_all(queue_.outOf(job.id), failure);
  fs::create_directories(queue_.outOf(job.id), failure);
  running_[job.id] = job.photos;
  pool_->start(
      wishOf(job, queue_, rack_.folder()),
      [this, id = job.id, photos = job.photos](const json& result) { take(id, photos, result); });
}

// What was measured from fewer photographs than there are now, or of a job that is gone, is let go.
void Desk::take(const std::string& id, int photos, const json& result) {
  running_.erase(id);
  const PhoneJob* known = queue_.find(id);
  if (known && known->photos == photos && known->state == PhoneJob::State::waiting) {
    PhoneJob job = *known;
    job.result = checkedResult(result, job.what);
    job.state = job.result["ok"] ? PhoneJob::State::measured : PhoneJob::State::failed;
    job.said = textOf(job.result, "say");
    job.tries = 0;
    if (const Status stored = queue_.change(job); !stored) {
      job.state = PhoneJob::State::failed;
      job.said = stored.error().message;
      (void)queue_.change(job);
    }
  }
  pump();
}

Answer Desk::state(const Question& q) {
  const auto rack = rack_.rack();
  if (!rack) return said(503, rack.error().message);
  json jobs = json::array(), boards = json::array();
  for (const PhoneJob& job : queue_.jobs())
    jobs.push_back(jobLine(**rack, job, running_.contains(job.id)));
  for (const Board& board : (*rack)->boards) boards.push_back(boardLine(**rack, board));
  const bool inches = (*rack)->shop.show.system == UnitSystem::inches;
  json all{{"rack", rack_.folder().filename().string()},
           {"inches", inches},
           {"jobs", std::move(jobs)},
           {"boards", std::move(boards)}};
  const std::string version = std::to_string(
      std::hash<std::string>()(all.dump(-1, ' ', false, json::error_handler_t::replace)));
  if (q.get("since") == version) return told({{"same", true}});
  all["version"] = version;
  return told(all);
}

Answer Desk::photo(const Question& q) {
  PhoneJob job;
  job.id = q.get("job");
  const int number = QString::fromStdString(q.get("number")).toInt();
  if (!isSecretForm(job.id) || number < 1 || number > kMostPhotos)
    return said(400, "The photograph came without its number. Load the page again.");
  if (pictureEnding(q.body).empty())
    return said(415, "This is no photograph: JPEG, HEIC, PNG and WebP are taken.");
  const auto rack = rack_.rack();
  const UnitSystem bare = rack ? (*rack)->shop.show.system : UnitSystem::millimetres;
  const auto words = readWords([&](const char* key) { return q.get(key); }, bare);
  if (!words) return said(422, words.error().message);
  job.words = *words;
  job.what = q.get("what") == "find" ? PhoneJob::What::find : PhoneJob::What::measure;
  job.face = q.get("face") == "B" ? Face::B : Face::A;
  job.day = today();
  if (const Status taken = queue_.take(job, number, q.body); !taken)
    return said(507, taken.error().message);
  pump();
  return said(200, "Taken.");
}

Answer Desk::seen(const Question& q) {
  const std::string id = q.get("job");
  const int number = QString::fromStdString(q.get("number")).toInt();
  if (!queue_.find(id) || number < 0 || number > kMostPhotos)
    return said(404, "There is no such photograph any more.");
  const std::string file = number == 0 ? "small.jpg" : "seen-" + std::to_string(number) + ".jpg";
  return jpegOf(queue_.outOf(id) / file);
}

Answer Desk::again(const Question& q) {
  const json body = objectOf(q.body);
  const PhoneJob* known = queue_.find(textOf(body, "job"));
  if (!known || known->state == PhoneJob::State::kept)
    return said(404, "This photograph is not here any more.");
  const auto rack = rack_.rack();
  if (!rack) return refused(rack.error());
  const auto words = readWords(body.value("words", json::object()), (*rack)->shop.show.system);
  if (!words) return said(422, words.error().message);
  PhoneJob job = *known;
  job.words = *words;
  job.state = PhoneJob::State::waiting;
  job.tries = 0;
  if (const Status changed = queue_.change(job); !changed)
    return said(507, changed.error().message);
  pump();
  return said(200, "Measured again.");
}

// The picture is there before the record names it, of a new board where its first save finds it;
// when the record is refused it goes again.
Status Desk::keepJob(PhoneJob& job, bool& stale) {
  Kept kept;
  fs::path picture;
  const Status done = rack_.perform([&](const Rack& rack) -> Result<std::unique_ptr<Edit>> {
    const auto board = keptBoard(rack, job, stale);
    if (!board) return board.error();
    kept = *board;
    const fs::path from = queue_.outOf(job.id) / "face.jpg";
    std::error_code none;
    if (!fs::is_regular_file(fs::symlink_status(from, none)))
      return Error{"The measured picture is gone. Have it measured again."};
    const auto bytes = readFile(from);
    if (!bytes) return bytes.error();
    const fs::path folder = kept.isNew ? waitingFolder(rack_.folder(), kept.board.id)
                                       : boardFolder(rack_.folder(), kept.board.id);
    if (const Status made = makeFolders(folder); !made) return made.error();
    picture = folder / kept.board.pictures.back().file;
    if (const Status written = writeFileAtomically(picture, *bytes); !written)
      return written.error();
    return keepEdit(kept);
  });
  if (done) {
    job.keptBoard = kept.board.id.text;
    return done;
  }
  std::error_code ignored;
  if (!picture.empty()) {
    fs::remove(picture, ignored);
    if (kept.isNew) fs::remove(picture.parent_path(), ignored);
  }
  return done;
}

Answer Desk::keep(const Question& q) {
  const json body = objectOf(q.body);
  const PhoneJob* known = queue_.find(textOf(body, "job"));
  if (known && known->state == PhoneJob::State::kept) return said(200, "Kept.");
  if (!known || known->what != PhoneJob::What::measure || known->state != PhoneJob::State::measured)
    return said(404, "This board is not measured. Wait for it, or retake the photograph.");
  const auto rack = rack_.rack();
  if (!rack) return refused(rack.error());
  PhoneJob job = *known;
  const auto words = readWords(body.value("words", json::object()), (*rack)->shop.show.system);
  if (!words) return said(422, words.error().message);
  const bool renamed = !words->board.empty() && words->board != job.words.board;
  const Board* other = renamed ? (*rack)->findBoardNamed(words->board) : nullptr;
  const std::string measuredAs = job.result["known"] ? textOf(job.result["board"], "id") : "";
  job.words = *words;
  bool stale = other && other->id.text != measuredAs;
  const Status done = stale ? Status(Error{"It is measured again as one more photograph of board " +
                                           words->board + "."})
                            : keepJob(job, stale);
  if (stale) {
    job.state = PhoneJob::State::waiting;
    job.tries = 0;
    (void)queue_.change(job);
    pump();
  }
  if (!done) return refused(done.error());
  job.state = PhoneJob::State::kept;
  job.day = today();
  (void)queue_.change(job);  // a full disk: the board is on the rack all the same
  queue_.forgetPictures(job.id);
  return told({{"say", "Kept."}, {"board", job.keptBoard}});
}

Answer Desk::drop(const Question& q) {
  const std::string id = textOf(objectOf(q.body), "job");
  if (!isSecretForm(id)) return said(404, "This photograph is not here any more.");
  const Status dropped = queue_.drop(id);
  return dropped ? said(200, "Dropped.") : refused(dropped.error());
}

}  // namespace rackside::serve
