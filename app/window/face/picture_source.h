// SPDX-License-Identifier: GPL-3.0-or-later
// One face picture on the screen: paints what is in memory at once, and fetches the rest in the
// background. Tiles of all pictures share one cache of bounded size.
#pragma once

#include <QCache>
#include <QImage>
#include <QObject>
#include <QPainter>
#include <QSet>
#include <QThreadPool>
#include <memory>

#include "app/window/face/tile_pyramid.h"

namespace rackside {

struct TileKey {
  quint64 source = 0;
  int level = 0, column = 0, row = 0;
  bool operator==(const TileKey&) const = default;
};
size_t qHash(const TileKey& key, size_t seed = 0);

// Shared by every PictureSource; window's thread only.
class TileStore {
 public:
  static constexpr int kCacheKilobytes = 256 * 1024;
  static TileStore& instance();
  QCache<TileKey, QImage> tiles{kCacheKilobytes};
  QThreadPool pool;  // two threads below normal priority, so that the window comes first

 private:
  TileStore();
};

class PictureSource : public QObject {
  Q_OBJECT
 public:
  explicit PictureSource(QString file, QObject* parent = nullptr);
  ~PictureSource() override;

  // `screenFromPicture` maps the picture's pixels (corners at integers) to the painter's units.
  void paint(QPainter& painter, const QTransform& screenFromPicture, const QRectF& clip,
             bool smooth);
  // True when the last paint() showed every tile at its right sharpness.
  bool sharp() const { return sharp_; }
  const QString& failure() const { return failure_; }
  // Null until they are made.
  const std::shared_ptr<const TilePyramid>& tiles() const { return pyramid_; }

 signals:
  void arrived();  // something new to paint

 private:
  void openTiles();
  void fetch(const TileKey& key);
  void paintTile(QPainter& painter, const QTransform& t, const TileKey& key, bool smooth);
  void paintScaled(QPainter& painter, const QTransform& t, const QRectF& pictureBox,
                   const QImage& image, const QRectF& imageBox, bool smooth) const;

  QString file_;
  quint64 number_;
  QSize size_;
  QImage preview_;
  std::shared_ptr<const TilePyramid> pyramid_;
  std::shared_ptr<RunControl> opening_;
  QSet<TileKey> asked_;
  QString failure_;
  bool sharp_ = false;
};

}  // namespace rackside
