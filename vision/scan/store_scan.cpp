// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/store_scan.h"

#include <opencv2/imgcodecs.hpp>

#include "core/storage/atomic_file.h"
#include "core/storage/rack_folder.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

// 95 keeps the grain for later reading at about a tenth of the raw size.
constexpr int kJpegQuality = 95;

Result<std::string> encoded(const cv::Mat& picture) {
  std::vector<uchar> bytes;
  if (picture.empty() ||
      !cv::imencode(".jpg", picture, bytes, {cv::IMWRITE_JPEG_QUALITY, kJpegQuality}))
    return Error{"The face picture could not be packed as JPEG; nothing was stored."};
  return std::string(bytes.begin(), bytes.end());
}

// The folders that had to be made, outermost first.
Result<std::vector<fs::path>> makeFolders(const fs::path& folder) {
  std::vector<fs::path> missing;
  std::error_code ec;
  for (fs::path p = fs::absolute(folder); !p.empty() && !fs::exists(p, ec); p = p.parent_path())
    missing.insert(missing.begin(), p);
  fs::create_directories(folder, ec);
  if (ec)
    return Error{"The folder " + folder.string() + " cannot be made (" + ec.message() +
                 "). Choose a rack folder that you may write to."};
  return missing;
}

}  // namespace

Status storeFacePicture(ScanResult& result, const fs::path& rackFolder) {
  if (result.board.pictures.empty()) return Error{"The scan describes no picture; scan again."};
  auto bytes = encoded(result.facePicture);
  if (!bytes) return bytes.error();
  const fs::path folder = boardFolder(rackFolder, result.board.id);
  auto made = makeFolders(folder);
  if (!made) return made.error();
  Picture& picture = result.board.pictures.back();
  if (picture.file.empty()) picture.file = picture.id.text + ".jpg";
  const Status written = writeFileAtomically(folder / picture.file, *bytes);
  if (written) return success();
  std::error_code ignored;
  for (auto it = made->rbegin(); it != made->rend(); ++it) fs::remove(*it, ignored);
  return written;
}

}  // namespace rackside
