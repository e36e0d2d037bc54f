// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/face_picture.h"

#include <algorithm>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/storage/rack_folder.h"

namespace rackside::sheets {

std::optional<FacePicture> readFacePicture(const Board& board, Face face,
                                           const std::filesystem::path& rackFolder,
                                           double mmPerPx) {
  const Picture* picture = board.newestPicture(face);
  if (!picture || picture->mmPerPx <= 0) return std::nullopt;
  const auto file = pictureFile(rackFolder, board, *picture);
  const double shrink = std::max(1.0, mmPerPx / picture->mmPerPx);
  // The decoder halves for free; the rest is an area average.
  const int flag = shrink >= 4   ? cv::IMREAD_REDUCED_COLOR_4
                   : shrink >= 2 ? cv::IMREAD_REDUCED_COLOR_2
                                 : cv::IMREAD_COLOR;
  std::error_code error;  // the library says its own about a file that is not there
  if (!std::filesystem::is_regular_file(file, error)) return std::nullopt;
  cv::Mat bgr = cv::imread(file.string(), flag | cv::IMREAD_IGNORE_ORIENTATION);
  if (bgr.empty()) return std::nullopt;
  const cv::Size wanted(std::max(1, int(picture->widthPx / shrink)),
                        std::max(1, int(picture->heightPx / shrink)));
  if (wanted.width < bgr.cols) cv::resize(bgr, bgr, wanted, 0, 0, cv::INTER_AREA);
  FacePicture result;
  result.image = QImage(bgr.data, bgr.cols, bgr.rows, int(bgr.step), QImage::Format_BGR888).copy();
  // Picture pixels have their centres at integers; Qt's image has corners there.
  const auto& m = picture->boardFromPicture;
  const double sx = double(picture->widthPx) / bgr.cols, sy = double(picture->heightPx) / bgr.rows;
  result.boardFromImage = QTransform(m[0] * sx, m[3] * sx, m[1] * sy, m[4] * sy,
                                     m[2] - 0.5 * (m[0] + m[1]), m[5] - 0.5 * (m[3] + m[4]));
  return result;
}

}  // namespace rackside::sheets
