// SPDX-License-Identifier: GPL-3.0-or-later
// A face picture cut into tiles at every halving, in one file of the user's cache, so that a view
// reads only what it shows. The picture on the rack stays as it is; the file can be thrown away.
//
// Level 0 has the picture's own pixels, level n every 2ⁿ-th. Tile (column, row) of a level starts
// at pixel (column · kTilePx, row · kTilePx) of that level.
#pragma once

#include <QImage>
#include <QSize>
#include <QString>
#include <memory>
#include <vector>

#include "core/base/result.h"
#include "core/base/run_control.h"

namespace rackside {

inline constexpr int kTilePx = 512;

class TilePyramid {
 public:
  // Opens the tiles of a picture, making them when they are not there or older than the picture.
  // Slow the first time (decodes the picture once): call it off the window's thread. Fails when the
  // picture cannot be read.
  static Result<std::shared_ptr<const TilePyramid>> open(const QString& picture,
                                                         RunControl& control);

  int levels() const { return static_cast<int>(levels_.size()); }
  QSize size(int level) const { return levels_[static_cast<size_t>(level)].size; }
  int columns(int level) const { return (size(level).width() + kTilePx - 1) / kTilePx; }
  int rows(int level) const { return (size(level).height() + kTilePx - 1) / kTilePx; }
  // Thread-safe. A null image when the file was lost meanwhile.
  QImage tile(int level, int column, int row) const;

 private:
  struct Level {
    QSize size;
    std::vector<qint64> offsets;  // of each tile in the file, and the end, row by row
  };
  static Result<std::shared_ptr<const TilePyramid>> read(const QString& file, const QString& stamp);
  static Status build(const QString& picture, const QString& file, const QString& stamp,
                      RunControl& control);
  QString file_;
  std::vector<Level> levels_;
};

// A small picture of the whole, decoded at reduced size, for lists and for the first moment.
QImage readReduced(const QString& picture, QSize largest);

// Where tiles and thumbnails are kept; old files go when the folder passes 2 GB.
QString pictureCacheFolder();

}  // namespace rackside
