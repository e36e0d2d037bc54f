// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/face_file.h"

#include <QBuffer>
#include <QImage>
#include <cmath>
#include <cstdio>

#include "app/sheets/face_picture.h"
#include "core/base/number_text.h"

namespace rackside::sheets {

Result<FaceFile> faceFile(const Board& board, Face face, const std::filesystem::path& rackFolder) {
  const Picture* picture = board.newestPicture(face);
  auto read = readFacePicture(board, face, rackFolder, 0);
  if (!picture || !read)
    return Error{"The picture of face " + std::string(name(face)) + " of board " + board.name +
                 " cannot be read: scan that face again."};
  const int dots = int(std::lround(1000 / picture->mmPerPx));
  read->image.setDotsPerMeterX(dots);
  read->image.setDotsPerMeterY(dots);
  QBuffer buffer;
  buffer.open(QIODevice::WriteOnly);
  read->image.save(&buffer, "PNG");
  const auto& m = picture->boardFromPicture;
  std::string world;
  for (const size_t i : {0, 3, 1, 4, 2, 5}) {
    world += fixedText(m[i], 10) + "\n";
  }
  return FaceFile{buffer.data().toStdString(), world};
}

}  // namespace rackside::sheets
