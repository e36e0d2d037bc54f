// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/phone_queue.h"

#include <algorithm>

#include "app/serve/secret.h"
#include "core/storage/atomic_file.h"
#include "core/storage/json_text.h"

namespace rackside::serve {
namespace {

namespace fs = std::filesystem;

constexpr const char* kFolder = ".phone";
constexpr const char* kRecord = "job.json";

Status makeFolder(const fs::path& folder) {
  std::error_code failure;
  fs::create_directories(folder, failure);
  if (!failure) return success();
  return Error{"The folder " + folder.string() + " cannot be made: " + failure.message() + "."};
}

std::string photoStem(int number) {
  return "photo-" + std::to_string(number);
}

// Of a file written earlier, whatever it ends with.
std::optional<fs::path> photoFile(const fs::path& folder, int number) {
  for (const char* ending : {".jpg", ".png", ".webp", ".heic"}) {
    const fs::path file = folder / (photoStem(number) + ending);
    std::error_code ignored;
    if (fs::exists(file, ignored)) return file;
  }
  return std::nullopt;
}

std::optional<PhoneJob> readRecord(const fs::path& folder) {
  const auto bytes = readFile(folder / kRecord);
  if (!bytes) return std::nullopt;
  const auto document = parseJson(*bytes);
  if (!document) return std::nullopt;
  auto job = phoneJobFromJson(*document);
  if (!job || job->id != folder.filename().string()) return std::nullopt;
  return std::move(job).value();
}

}  // namespace

std::string pictureEnding(const QByteArray& bytes) {
  if (bytes.startsWith("\xFF\xD8\xFF")) return ".jpg";
  if (bytes.startsWith("\x89PNG\r\n\x1A\n")) return ".png";
  if (bytes.startsWith("RIFF") && bytes.mid(8, 4) == "WEBP") return ".webp";
  if (bytes.mid(4, 4) == "ftyp") return ".heic";  // ISO/IEC 14496-12, box type
  return {};
}

Result<PhoneQueue> PhoneQueue::open(const fs::path& rackFolder, Limits limits) {
  PhoneQueue queue(rackFolder / kFolder, limits);
  if (const Status made = makeFolder(queue.folder_); !made) return made.error();
  queue.readAll();
  return queue;
}

// A folder without a record was cut off before its first picture was whole: the phone still has it.
// Records of boards kept on an earlier day have done their work.
void PhoneQueue::readAll() {
  std::error_code ignored;
  std::vector<std::pair<fs::file_time_type, PhoneJob>> found;
  for (const auto& entry : fs::directory_iterator(folder_, ignored)) {
    if (!isSecretForm(entry.path().filename().string())) continue;
    auto job = readRecord(entry.path());
    const bool cutOff = !job && !fs::exists(entry.path() / kRecord, ignored);
    if (cutOff || (job && job->state == PhoneJob::State::kept && job->day != today()))
      fs::remove_all(entry.path(), ignored);
    else if (job)
      found.emplace_back(fs::last_write_time(entry.path() / kRecord, ignored), std::move(*job));
  }
  std::sort(found.begin(), found.end(),
            [](const auto& a, const auto& b) { return a.first < b.first; });
  for (auto& [when, job] : found) jobs_.push_back(std::move(job));
}

const PhoneJob* PhoneQueue::find(const std::string& id) const {
  const auto at =
      std::find_if(jobs_.begin(), jobs_.end(), [&](const PhoneJob& j) { return j.id == id; });
  return at == jobs_.end() ? nullptr : &*at;
}

Status PhoneQueue::roomFor(const PhoneJob* known, qsizetype bytes) const {
  const auto open = std::count_if(jobs_.begin(), jobs_.end(), [](const PhoneJob& j) {
    return j.state != PhoneJob::State::kept;
  });
  if (!known && static_cast<size_t>(open) >= limits_.jobs)
    return Error{"The computer holds " + std::to_string(open) +
                 " boards that wait for keep or drop. Look through Today first."};
  std::error_code failure;
  const fs::space_info space = fs::space(folder_, failure);
  if (!failure && space.available < limits_.freeBytes + static_cast<std::uintmax_t>(bytes))
    return Error{
        "The computer's disk is nearly full. Make room there; the photograph stays on the "
        "phone meanwhile."};
  return success();
}

Status PhoneQueue::take(const PhoneJob& wish, int number, const QByteArray& picture) {
  const PhoneJob* known = find(wish.id);
  const int there = known ? known->photos : 0;
  if (number <= there) return success();
  if (number != there + 1 || number > kMostPhotos)
    return Error{"This photograph is not the next of its board: send the one before it first."};
  if (known && known->state == PhoneJob::State::kept)
    return Error{"This board was kept already: retake it as a new one."};
  if (const Status room = roomFor(known, picture.size()); !room) return room;
  const fs::path folder = folderOf(wish.id);
  if (const Status made = makeFolder(folder); !made) return made;
  const fs::path file = folder / (photoStem(number) + pictureEnding(picture));
  Status written =
      writeFileAtomically(file, {picture.constData(), static_cast<size_t>(picture.size())});
  PhoneJob job = known ? *known : wish;
  job.photos = number;
  job.state = PhoneJob::State::waiting;
  job.tries = 0;
  job.said.clear();
  job.result = nullptr;
  if (written) written = change(job);
  if (written) return written;
  std::error_code ignored;
  fs::remove(file, ignored);
  if (!find(wish.id)) fs::remove_all(folder, ignored);
  return written;
}

Status PhoneQueue::write(const PhoneJob& job) const {
  const auto bytes = jsonText(toJson(job));
  if (!bytes) return bytes.error();
  return writeFileAtomically(folderOf(job.id) / kRecord, *bytes);
}

Status PhoneQueue::change(const PhoneJob& job) {
  if (const Status written = write(job); !written) return written;
  ++version_;
  for (PhoneJob& known : jobs_)
    if (known.id == job.id) {
      known = job;
      return success();
    }
  jobs_.push_back(job);
  return success();
}

Status PhoneQueue::drop(const std::string& id) {
  if (!find(id)) return success();
  std::error_code failure;
  fs::remove_all(folderOf(id), failure);
  if (failure) return Error{"The photograph cannot be taken away: " + failure.message() + "."};
  std::erase_if(jobs_, [&](const PhoneJob& j) { return j.id == id; });
  ++version_;
  return success();
}

void PhoneQueue::forgetPictures(const std::string& id) {
  const PhoneJob* job = find(id);
  if (!job) return;
  std::error_code ignored;
  for (const fs::path& photo : photosOf(*job)) fs::remove(photo, ignored);
  for (const auto& entry : fs::directory_iterator(outOf(id), ignored))
    if (entry.path().filename() != "small.jpg") fs::remove(entry.path(), ignored);
}

std::vector<fs::path> PhoneQueue::photosOf(const PhoneJob& job) const {
  std::vector<fs::path> files;
  for (int i = 1; i <= job.photos; ++i)
    if (const auto file = photoFile(folderOf(job.id), i)) files.push_back(*file);
  return files;
}

}  // namespace rackside::serve
