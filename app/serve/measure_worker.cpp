// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/serve/measure_worker.h"

#include <sys/prctl.h>
#include <sys/resource.h>

#include <csignal>
#include <cstring>
#include <iostream>
#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"
#include "core/storage/rack_folder.h"
#include "vision/scan/retake.h"
#include "vision/scan/scan.h"
#include "vision/scan/sights.h"

namespace rackside::serve {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr rlim_t kMemoryBytes = 6'000'000'000;  // of addresses: libraries and threads take two
constexpr rlim_t kProcessorSeconds = 120;
constexpr rlim_t kFileBytes = 200'000'000;
constexpr rlim_t kFiles = 128;
constexpr int kSeenPx = 1280;  // longest side of the picture that is shown on the phone
constexpr int kSmallPx = 240;
constexpr int kSeenQuality = 80;
constexpr int kFaceQuality = 95;  // as vision/scan/store_scan.cpp keeps it

struct Job {
  std::vector<Photo> photos;
  fs::path rackFolder, out;
  ScanOptions options;
  std::string board;  // as typed
};

Status writePicture(const fs::path& file, const cv::Mat& picture, int quality) {
  if (cv::imwrite(file.string(), picture, {cv::IMWRITE_JPEG_QUALITY, quality})) return success();
  return Error{"A picture could not be written; is the computer's disk full?"};
}

cv::Mat scaledTo(const cv::Mat& picture, int longest) {
  const double scale = std::min(1.0, double(longest) / std::max(picture.cols, picture.rows));
  cv::Mat small;
  cv::resize(picture, small, {}, scale, scale, cv::INTER_AREA);
  return small;
}

// As the maker held the phone (EXIF 2.3, orientation; mirrored pictures no phone takes).
cv::Mat upright(const cv::Mat& picture, int orientation) {
  cv::Mat turned = picture;
  if (orientation == 3) cv::rotate(picture, turned, cv::ROTATE_180);
  if (orientation == 6) cv::rotate(picture, turned, cv::ROTATE_90_CLOCKWISE);
  if (orientation == 8) cv::rotate(picture, turned, cv::ROTATE_90_COUNTERCLOCKWISE);
  return turned;
}

// The board and a little round it: on a phone's screen the rest only makes the board small.
cv::Rect boardInPhoto(const std::vector<cv::Point2d>& outlinePx, cv::Size photo) {
  std::vector<cv::Point2f> points(outlinePx.begin(), outlinePx.end());
  const cv::Rect box = cv::boundingRect(points);
  const int round = std::max(box.width, box.height) / 20;
  return cv::Rect(box.x - round, box.y - round, box.width + 2 * round, box.height + 2 * round) &
         cv::Rect({}, photo);
}

// A dark line with a bright core shows on any wood.
void drawOutline(cv::Mat& picture, const std::vector<cv::Point2d>& outlinePx, cv::Point corner,
                 double scale) {
  constexpr int kFine = 4;  // bits of a pixel's fraction
  std::vector<cv::Point> line;
  for (const cv::Point2d& p : outlinePx)
    line.emplace_back(cvRound((p.x - corner.x) * scale * (1 << kFine)),
                      cvRound((p.y - corner.y) * scale * (1 << kFine)));
  cv::polylines(picture, line, true, {20, 20, 20}, 6, cv::LINE_AA, kFine);
  cv::polylines(picture, line, true, {90, 255, 120}, 3, cv::LINE_AA, kFine);
}

Result<int> writeSeen(const Job& job, const ScanResult& scan) {
  int number = 0;
  for (const OutlineInPhoto& outline : scan.outlines) {
    const Photo& photo = job.photos[outline.photo];
    const cv::Rect part = boardInPhoto(outline.px, photo.bgr.size());
    if (part.empty()) continue;
    cv::Mat shown = scaledTo(photo.bgr(part), kSeenPx);
    drawOutline(shown, outline.px, part.tl(), double(shown.cols) / part.width);
    shown = upright(shown, photo.exif.orientation);
    if (number == 0)
      if (const Status s =
              writePicture(job.out / "small.jpg", scaledTo(shown, kSmallPx), kSeenQuality);
          !s)
        return s.error();
    const fs::path file = job.out / ("seen-" + std::to_string(++number) + ".jpg");
    if (const Status s = writePicture(file, shown, kSeenQuality); !s) return s.error();
  }
  return number;
}

// What cannot be measured is shown as it is, so that the maker sees which picture it was.
void writeSmallOnly(const Job& job) {
  if (job.photos.empty()) return;
  const Photo& photo = job.photos.front();
  const cv::Mat shown = upright(scaledTo(photo.bgr, kSeenPx), photo.exif.orientation);
  (void)writePicture(job.out / "seen-1.jpg", shown, kSeenQuality);
  (void)writePicture(job.out / "small.jpg", scaledTo(shown, kSmallPx), kSeenQuality);
}

const Board* boardWithTag(const Rack& rack, std::optional<int> tag) {
  if (!tag) return nullptr;
  for (const Board& b : rack.boards)
    if (b.tag == tag) return &b;
  return nullptr;
}

// As typed, else by the tag. A tag in view that is another board's is said.
Result<const Board*> boardMeant(const Rack& rack, const std::string& typed,
                                std::optional<int> tag) {
  const Board* tagged = boardWithTag(rack, tag);
  if (typed.empty()) return tagged;
  const Board* named = rack.findBoardNamed(typed);
  if (tagged && tagged != named)
    return Error{"The photograph shows tag " + std::to_string(*tag) + " of board " + tagged->name +
                 ", but you typed " + typed + ". Put the right number in, or leave it empty."};
  if (named && named->tag && tag && *named->tag != *tag)
    return Error{"Board " + typed + " carries tag " + std::to_string(*named->tag) +
                 ", but the photograph shows tag " + std::to_string(*tag) +
                 ". Photograph the right board, or leave the number empty."};
  return named;
}

Result<ScanResult> measureFaceB(Job& job, const Rack& rack) {
  std::optional<int> tag;
  if (job.board.empty()) {
    const auto sights = findSights(job.photos, job.options);
    if (!sights) return sights.error();
    tag = sights->tag;
  }
  const auto meant = boardMeant(rack, job.board, tag);
  if (!meant) return meant.error();
  if (!*meant)
    return Error{
        "The other face belongs to a board whose first face is on the rack. Type its "
        "number, or take and keep its first face before."};
  job.options.faceA = *meant;
  if (job.options.thicknessMm <= 0) job.options.thicknessMm = (*meant)->thicknessMm;
  RunControl control;
  return scanFace(job.photos, job.options, control);
}

Result<ScanResult> measureFaceA(Job& job, const Rack& rack, bool& known) {
  if (const Board* named = job.board.empty() ? nullptr : rack.findBoardNamed(job.board))
    if (job.options.thicknessMm <= 0) job.options.thicknessMm = named->thicknessMm;
  RunControl control;
  auto scan = scanFace(job.photos, job.options, control);
  if (!scan) return scan;
  const auto meant = boardMeant(rack, job.board, scan->tag);
  if (!meant) return meant.error();
  known = *meant != nullptr;
  if (known)
    if (const Status laid = layRetakeOn(**meant, job.rackFolder, scan.value()); !laid)
      return laid.error();
  return scan;
}

Result<json> measure(Job& job) {
  const auto rack = loadRack(job.rackFolder);
  if (!rack) return rack.error();
  bool known = job.options.face == Face::B;
  auto scan = known ? measureFaceB(job, *rack) : measureFaceA(job, *rack, known);
  if (!scan) return scan.error();
  if (const Status s = writePicture(job.out / "face.jpg", scan->facePicture, kFaceQuality); !s)
    return s.error();
  const auto seen = writeSeen(job, *scan);
  if (!seen) return seen.error();
  return json{{"ok", true},      {"board", toJson(scan->board)}, {"known", known},
              {"photos", *seen}, {"advice", scan->advice},       {"warnings", scan->warnings}};
}

// An option of the command line is no help at the rack.
Error inThePhonesWords(const Error& error) {
  if (error.message.find("--") == std::string::npos) return error;
  return Error{
      "The photograph does not fit this board as it was measured before. Check its number; "
      "if the board is the right one, retake it whole, with its tag in view."};
}

Result<json> findTags(const Job& job) {
  json tags = json::array();
  for (const Photo& photo : job.photos) {
    cv::Mat grey;
    cv::cvtColor(photo.bgr, grey, cv::COLOR_BGR2GRAY);
    for (const FoundTag& tag : findMarkers(grey).tags) tags.push_back(tag.number);
  }
  return json{{"ok", true}, {"tags", tags}};
}

Result<json> work(const json& wish) {
  Job job;
  job.rackFolder = wish.at("rack").get<std::string>();
  job.out = wish.at("out").get<std::string>();
  const json& words = wish.at("words");
  job.board = words.at("board").get<std::string>();
  job.options.name = job.board;
  job.options.species = words.at("species").get<std::string>();
  job.options.place = words.at("place").get<std::string>();
  job.options.thicknessMm = words.at("thickness_mm").get<double>();
  job.options.face = wish.at("face") == "B" ? Face::B : Face::A;
  for (const json& file : wish.at("photos")) {
    auto photo = readPhoto(file.get<std::string>());
    // Where the file lies means nothing to who holds the phone.
    if (!photo)
      return Error{
          "This photograph cannot be read: it is damaged, cut off or too large. "
          "Take it again."};
    job.photos.push_back(std::move(photo).value());
  }
  if (wish.at("what") == "find") return findTags(job);
  auto result = measure(job);
  if (result) return result;
  writeSmallOnly(job);
  return inThePhonesWords(result.error());
}

json answerTo(const std::string& line) {
  const json wish = json::parse(line, nullptr, false);
  if (wish.is_discarded()) return {{"ok", false}, {"say", "The worker was asked for nothing."}};
  try {
    const auto result = work(wish);
    if (result) return *result;
    return {{"ok", false}, {"say", result.error().message}};
  } catch (const std::bad_alloc&) {
    return {{"ok", false},
            {"say",
             "The photograph is too large for the computer's memory. Take it with fewer "
             "megapixels."}};
  } catch (const std::exception&) {
    return {{"ok", false},
            {"say", "The photograph could not be measured. Retake it, whole and in even light."}};
  }
}

void limit(__rlimit_resource resource, rlim_t most) {
  const rlimit wish{most, most};
  ::setrlimit(resource, &wish);
}

}  // namespace

bool isWorker(int argc, char** argv) {
  return argc == 2 && std::strcmp(argv[1], kWorkerWord) == 0;
}

void setWorkerLimits() {
  limit(RLIMIT_AS, kMemoryBytes);
  limit(RLIMIT_CPU, kProcessorSeconds);
  limit(RLIMIT_FSIZE, kFileBytes);
  limit(RLIMIT_NOFILE, kFiles);
  limit(RLIMIT_CORE, 0);
  ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);  // no worker outlives the program
}

int workerMain() {
  std::string line;
  if (!std::getline(std::cin, line) || line.empty()) return 0;  // the program ended meanwhile
  std::cout << answerTo(line).dump(-1, ' ', false, json::error_handler_t::replace) << std::endl;
  return 0;
}

}  // namespace rackside::serve
