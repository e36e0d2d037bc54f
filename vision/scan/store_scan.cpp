// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/store_scan.h"

#include <opencv2/imgcodecs.hpp>

#include "core/storage/atomic_file.h"
#include "core/storage/durable_file.h"
#include "core/storage/open_rack.h"
#include "core/storage/rack_files.h"
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

}  // namespace

Status storeFacePicture(ScanResult& result, const fs::path& rackFolder) {
  if (result.board.pictures.empty()) return Error{"The scan describes no picture; scan again."};
  auto bytes = encoded(result.facePicture);
  if (!bytes) return bytes.error();
  Picture& picture = result.board.pictures.back();
  if (picture.file.empty()) picture.file = picture.id.text + ".jpg";
  std::error_code error;
  const bool known = fs::exists(boardFolder(rackFolder, result.board.id) / kBoardFile, error);
  const fs::path folder =
      known ? boardFolder(rackFolder, result.board.id) : waitingFolder(rackFolder, result.board.id);
  if (const Status made = makeFolders(folder); !made) return made;
  return writeFileAtomically(folder / picture.file, *bytes);
}

}  // namespace rackside
