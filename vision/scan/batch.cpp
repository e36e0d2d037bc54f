// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/batch.h"

#include <atomic>
#include <cstdio>
#include <mutex>
#include <thread>

#include "core/storage/open_rack.h"

namespace rackside {
namespace {

std::string measuredText(const ScanToRackResult& r) {
  const Board& b = r.scan.board;
  double low = 1e9, high = 0;
  for (const Measured& w : b.widthsMm) low = std::min(low, w.value), high = std::max(high, w.value);
  char text[200];
  std::snprintf(text, sizeof text, "%s: %.0f ± %.1f mm long, %.0f to %.0f mm wide%s",
                b.name.c_str(), b.lengthMm.value, b.lengthMm.u95, low, high,
                r.isNew ? "" : " (again)");
  std::string out = text;
  if (b.lengthMm.u95Total > 1.05 * b.lengthMm.u95) out += "; the cards' print is not checked yet";
  for (const std::string& w : r.scan.warnings) out += "; " + w;
  return out;
}

// The stored board whose face B a group shows.
Result<Board> boardOfGroup(const PhotoGroup& group, const std::filesystem::path& rackFolder) {
  const auto opened = openRack(rackFolder);
  if (!opened) return opened.error();
  for (const Board& b : opened->rack.boards)
    if (group.tag && b.tag == group.tag) return b;
  return Error{"no board with this tag is on the rack: scan its face A first."};
}

BatchLine scanGroup(const PhotoGroup& group, const std::filesystem::path& rackFolder,
                    const BatchOptions& options, RunControl& control, std::mutex& writing) {
  BatchLine line{group, false, "", std::nullopt};
  std::vector<Photo> photos;
  for (const auto& file : group.files) {
    auto photo = readPhoto(file);
    if (!photo) {
      line.text = group.name + ": retake: " + photo.error().message;
      return line;
    }
    photos.push_back(std::move(*photo));
  }
  ScanToRackOptions one;
  one.scan = options.scan;
  if (one.scan.name.empty() || group.tag) one.scan.name = group.name;
  if (options.describe) options.describe(group, one.scan);
  Board faceA;
  if (one.scan.face == Face::B) {
    auto stored = boardOfGroup(group, rackFolder);
    if (!stored) {
      line.text = group.name + ": " + stored.error().message;
      return line;
    }
    faceA = std::move(stored).value();
    one.scan.faceA = &faceA;
    if (one.scan.thicknessMm <= 0) one.scan.thicknessMm = faceA.thicknessMm;
  } else if (one.scan.thicknessMm <= 0) {  // a retake: it was said before
    if (const auto stored = boardOfGroup(group, rackFolder))
      one.scan.thicknessMm = stored->thicknessMm;
  }
  auto scan = scanFace(photos, one.scan, control);
  if (!scan) {
    line.text = group.name + ": retake: " + scan.error().message;
    return line;
  }
  const std::lock_guard lock(writing);  // the rack is read and written by one at a time
  auto stored = storeScan(std::move(*scan), one, rackFolder);
  if (!stored) {
    line.text = group.name + ": retake: " + stored.error().message;
    return line;
  }
  stored.value().scan.facePicture.release();
  line.found = true;
  line.text = measuredText(*stored);
  for (const std::string& remark : group.remarks) line.text += "; " + remark;
  line.result = std::move(*stored);
  return line;
}

}  // namespace

Result<std::vector<BatchLine>> scanBatch(const std::filesystem::path& folder,
                                         const std::filesystem::path& rackFolder,
                                         const BatchOptions& options, RunControl& control) {
  std::vector<BatchLine> unreadable;
  auto groups = groupPhotos(folder, unreadable);
  if (!groups) return groups.error();
  std::vector<BatchLine> lines(groups->size());
  std::atomic<size_t> next{0}, done{0};
  std::mutex telling, writing;
  const auto work = [&] {
    RunControl own;  // progress is told by board, not by the stages of each
    for (size_t i = next++; i < groups->size() && !control.shouldEnd(); i = next++) {
      try {
        lines[i] = scanGroup((*groups)[i], rackFolder, options, own, writing);
      } catch (const std::exception& e) {
        lines[i] = {(*groups)[i], false,
                    (*groups)[i].name + ": retake: could not be read (" + e.what() + ")",
                    std::nullopt};
      }
      const std::lock_guard lock(telling);
      if (options.onBoard) options.onBoard(lines[i]);
      control.report(double(++done) / double(groups->size()), lines[i].text);
    }
  };
  std::vector<std::thread> pool;
  for (int w = 1; w < options.workers; ++w) pool.emplace_back(work);
  work();
  for (std::thread& t : pool) t.join();
  for (BatchLine& line : unreadable) lines.push_back(std::move(line));
  return lines;
}

}  // namespace rackside
