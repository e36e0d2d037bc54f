// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/picture_source.h"

#include <QImageReader>
#include <QPaintDevice>
#include <cmath>

#include "app/window/document/background.h"
#include "app/window/look/text.h"

namespace rackside {

namespace {

constexpr QSize kPreviewSize(1600, 1600);
constexpr int kMostAsked = 48;  // tiles under way at once; a 4K view shows about 40

int levelFor(double pxPerPicturePx, int levels) {
  const int level = static_cast<int>(std::floor(std::log2(1 / std::max(pxPerPicturePx, 1e-6))));
  return std::clamp(level, 0, levels - 1);
}

QRectF pictureBoxOf(const TileKey& key, QSize whole) {
  const double step = static_cast<double>(kTilePx) * (1 << key.level);
  return QRectF(key.column * step, key.row * step, step, step) &
         QRectF(QPointF(0, 0), QSizeF(whole));
}

}  // namespace

size_t qHash(const TileKey& key, size_t seed) {
  return qHashMulti(seed, key.source, key.level, key.column, key.row);
}

TileStore& TileStore::instance() {
  static TileStore store;
  return store;
}

TileStore::TileStore() {
  pool.setMaxThreadCount(2);
  pool.setThreadPriority(QThread::LowPriority);
}

PictureSource::PictureSource(QString file, QObject* parent)
    : QObject(parent), file_(std::move(file)), opening_(std::make_shared<RunControl>()) {
  static quint64 last = 0;
  number_ = ++last;
  inBackground(
      TileStore::instance().pool, this,
      [name = file_] {
        QImageReader reader(name);
        const QSize whole = reader.size();
        return std::pair(whole, readReduced(name, kPreviewSize));
      },
      [this](const std::pair<QSize, QImage>& read) {
        preview_ = read.second;
        size_ = read.first.isValid() ? read.first : read.second.size();
        if (preview_.isNull())
          failure_ = tr("The picture %1 cannot be read. Scan its photographs again.").arg(file_);
        else
          openTiles();
        emit arrived();
      });
}

PictureSource::~PictureSource() {
  opening_->stop();
}

void PictureSource::openTiles() {
  using Opened = std::shared_ptr<Result<std::shared_ptr<const TilePyramid>>>;
  inBackground(
      TileStore::instance().pool, this,
      [name = file_, control = opening_] {
        return std::make_shared<Result<std::shared_ptr<const TilePyramid>>>(
            TilePyramid::open(name, *control));
      },
      [this](const Opened& opened) {
        if (opened->ok())
          pyramid_ = opened->value();
        else
          failure_ = qt(opened->error().message);
        emit arrived();
      });
}

void PictureSource::fetch(const TileKey& key) {
  if (asked_.contains(key) || asked_.size() >= kMostAsked) return;
  asked_.insert(key);
  inBackground(
      TileStore::instance().pool, this,
      [pyramid = pyramid_, key] { return pyramid->tile(key.level, key.column, key.row); },
      [this, key](const QImage& tile) {
        asked_.remove(key);
        if (tile.isNull()) return;
        const int cost = static_cast<int>(tile.sizeInBytes() / 1024) + 1;
        TileStore::instance().tiles.insert(key, new QImage(tile), cost);
        emit arrived();
      });
}

void PictureSource::paint(QPainter& painter, const QTransform& t, const QRectF& clip, bool smooth) {
  sharp_ = false;
  if (preview_.isNull()) return;
  if (!pyramid_) {
    paintScaled(painter, t, QRectF(QPointF(0, 0), QSizeF(size_)), preview_, preview_.rect(),
                smooth);
    return;
  }
  sharp_ = true;
  const double ratio = painter.device()->devicePixelRatioF();
  const int level = levelFor(std::sqrt(std::abs(t.determinant())) * ratio, pyramid_->levels());
  const QRectF seen = t.inverted().mapRect(clip) & QRectF(QPointF(0, 0), QSizeF(size_));
  if (seen.isEmpty()) return;
  const double step = static_cast<double>(kTilePx) * (1 << level);
  const int lastColumn = std::min(pyramid_->columns(level) - 1, int(seen.right() / step));
  const int lastRow = std::min(pyramid_->rows(level) - 1, int(seen.bottom() / step));
  for (int row = int(seen.top() / step); row <= lastRow; ++row)
    for (int column = int(seen.left() / step); column <= lastColumn; ++column)
      paintTile(painter, t, {number_, level, column, row}, smooth);
}

// The tile, or until it is here the part of the nearest coarser one that is, or of the preview.
void PictureSource::paintTile(QPainter& painter, const QTransform& t, const TileKey& key,
                              bool smooth) {
  const QRectF box = pictureBoxOf(key, size_);
  TileKey at = key;
  for (;;) {
    if (const QImage* image = TileStore::instance().tiles.object(at)) {
      const QRectF whole = pictureBoxOf(at, size_);
      const double sx = image->width() / whole.width(), sy = image->height() / whole.height();
      const QRectF part((box.x() - whole.x()) * sx, (box.y() - whole.y()) * sy, box.width() * sx,
                        box.height() * sy);
      paintScaled(painter, t, box, *image, part, smooth);
      return;
    }
    if (at == key) {
      sharp_ = false;
      fetch(key);
    }
    if (at.level + 1 >= pyramid_->levels()) break;
    at = {number_, at.level + 1, at.column / 2, at.row / 2};
  }
  const double sx = preview_.width() / double(size_.width());
  const double sy = preview_.height() / double(size_.height());
  paintScaled(painter, t, box, preview_,
              QRectF(box.x() * sx, box.y() * sy, box.width() * sx, box.height() * sy), smooth);
}

// An upright picture is painted on whole device pixels, so that neighbouring tiles share a border
// exactly and no seam shows.
void PictureSource::paintScaled(QPainter& painter, const QTransform& t, const QRectF& pictureBox,
                                const QImage& image, const QRectF& imageBox, bool smooth) const {
  painter.save();
  painter.setRenderHint(QPainter::SmoothPixmapTransform, smooth);
  const bool upright = t.type() <= QTransform::TxScale && t.m11() > 0 && t.m22() > 0;
  if (upright) {
    const double ratio = painter.device()->devicePixelRatioF();
    const auto snap = [ratio](double v) { return std::round(v * ratio) / ratio; };
    const QRectF at = t.mapRect(pictureBox);
    const QPointF a(snap(at.left()), snap(at.top())), b(snap(at.right()), snap(at.bottom()));
    painter.drawImage(QRectF(a, b), image, imageBox);
  } else {
    painter.setTransform(t, true);
    painter.drawImage(pictureBox, image, imageBox);
  }
  painter.restore();
}

}  // namespace rackside
