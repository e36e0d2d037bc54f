// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/face/tile_pyramid.h"

#include <QBuffer>
#include <QCryptographicHash>
#include <QDataStream>
#include <QDateTime>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QSaveFile>
#include <QStandardPaths>

#include "app/window/look/text.h"

namespace rackside {

namespace {

constexpr quint32 kMagic = 0x52535450;  // "RSTP"
constexpr quint32 kVersion = 1;
constexpr int kTileQuality = 92;               // the eye sees no loss at twice the size
constexpr int kLargestPictureMegabytes = 800;  // 200 megapixels at four bytes
constexpr qint64 kCacheBytes = 2'000'000'000;

// Changes whenever the picture does.
QString stampOf(const QString& picture) {
  const QFileInfo info(picture);
  return info.absoluteFilePath() + QLatin1Char('|') + QString::number(info.size()) +
         QLatin1Char('|') + QString::number(info.lastModified().toMSecsSinceEpoch());
}

QString cacheName(const QString& stamp) {
  return pictureCacheFolder() + QLatin1Char('/') +
         QString::fromLatin1(
             QCryptographicHash::hash(stamp.toUtf8(), QCryptographicHash::Sha1).toHex()) +
         QStringLiteral(".tiles");
}

QByteArray encoded(const QImage& tile) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  tile.save(&buffer, "JPG", kTileQuality);
  return bytes;
}

QImage halved(const QImage& image) {
  return image.scaled((image.width() + 1) / 2, (image.height() + 1) / 2, Qt::IgnoreAspectRatio,
                      Qt::SmoothTransformation);
}

void dropOldest() {
  QDir folder(pictureCacheFolder());
  qint64 kept = 0;
  for (const QFileInfo& info : folder.entryInfoList(QDir::Files, QDir::Time)) {
    kept += info.size();
    if (kept > kCacheBytes) QFile::remove(info.absoluteFilePath());
  }
}

}  // namespace

QString pictureCacheFolder() {
  QString folder =
      QStandardPaths::writableLocation(QStandardPaths::CacheLocation) + QStringLiteral("/pictures");
  QDir().mkpath(folder);
  return folder;
}

QImage readReduced(const QString& picture, QSize largest) {
  QImageReader reader(picture);
  reader.setAllocationLimit(kLargestPictureMegabytes);
  const QSize size = reader.size();
  if (size.isValid() && (size.width() > largest.width() || size.height() > largest.height()))
    reader.setScaledSize(size.scaled(largest, Qt::KeepAspectRatio).expandedTo(QSize(1, 1)));
  const QImage image = reader.read();
  return image.isNull() ? image : image.convertToFormat(QImage::Format_RGB32);
}

Result<std::shared_ptr<const TilePyramid>> TilePyramid::open(const QString& picture,
                                                             RunControl& control) {
  const QString stamp = stampOf(picture);
  const QString file = cacheName(stamp);
  if (auto ready = read(file, stamp)) return ready;
  if (const Status built = build(picture, file, stamp, control); !built) return built.error();
  dropOldest();
  return read(file, stamp);
}

Status TilePyramid::build(const QString& picture, const QString& file, const QString& stamp,
                          RunControl& control) {
  QImageReader reader(picture);
  reader.setAllocationLimit(kLargestPictureMegabytes);
  QImage image = reader.read();
  if (image.isNull())
    return Error{"The face picture " + plain(picture) + " cannot be read (" +
                 plain(reader.errorString()) + "). Scan its photographs again."};
  image = image.convertToFormat(QImage::Format_RGB32);

  QSaveFile out(file);
  if (!out.open(QIODevice::WriteOnly))
    return Error{"Cannot write to " + plain(pictureCacheFolder()) + ". Free some room there."};
  QDataStream stream(&out);
  std::vector<Level> levels;
  for (;;) {
    Level level{image.size(), {}};
    for (int y = 0; y < image.height(); y += kTilePx) {
      for (int x = 0; x < image.width(); x += kTilePx) {
        level.offsets.push_back(out.pos());
        const QRect box = QRect(x, y, kTilePx, kTilePx) & image.rect();
        out.write(encoded(image.copy(box)));
        if (control.shouldEnd()) return Error{"stopped"};
      }
    }
    level.offsets.push_back(out.pos());
    levels.push_back(level);
    if (image.width() <= kTilePx && image.height() <= kTilePx) break;
    image = halved(image);
  }
  const qint64 tableAt = out.pos();
  stream << stamp << static_cast<quint32>(levels.size());
  for (const Level& level : levels) {
    stream << level.size << static_cast<quint32>(level.offsets.size());
    for (const qint64 offset : level.offsets) stream << offset;
  }
  stream << tableAt << kVersion << kMagic;
  if (!out.commit()) return Error{"Cannot write " + plain(file) + ". Free some room there."};
  return success();
}

Result<std::shared_ptr<const TilePyramid>> TilePyramid::read(const QString& file,
                                                             const QString& stamp) {
  constexpr qint64 kTail = 8 + 4 + 4;
  QFile in(file);
  if (!in.open(QIODevice::ReadOnly) || in.size() < kTail) return Error{"no tiles yet"};
  QDataStream stream(&in);
  qint64 tableAt = 0;
  quint32 version = 0, magic = 0, count = 0;
  in.seek(in.size() - kTail);
  stream >> tableAt >> version >> magic;
  if (magic != kMagic || version != kVersion || !in.seek(tableAt)) return Error{"other tiles"};
  QString storedStamp;
  stream >> storedStamp >> count;
  if (storedStamp != stamp || count > 40) return Error{"tiles of another picture"};
  auto pyramid = std::make_shared<TilePyramid>();
  pyramid->file_ = file;
  for (quint32 i = 0; i < count; ++i) {
    Level level;
    quint32 offsets = 0;
    stream >> level.size >> offsets;
    if (stream.status() != QDataStream::Ok || offsets > 1'000'000) return Error{"broken tiles"};
    level.offsets.resize(offsets);
    for (qint64& offset : level.offsets) stream >> offset;
    pyramid->levels_.push_back(std::move(level));
  }
  if (stream.status() != QDataStream::Ok) return Error{"broken tiles"};
  return std::shared_ptr<const TilePyramid>(std::move(pyramid));
}

QImage TilePyramid::tile(int level, int column, int row) const {
  const Level& at = levels_[static_cast<size_t>(level)];
  const size_t index =
      static_cast<size_t>(row) * static_cast<size_t>(columns(level)) + static_cast<size_t>(column);
  if (index + 1 >= at.offsets.size()) return {};
  QFile in(file_);
  if (!in.open(QIODevice::ReadOnly) || !in.seek(at.offsets[index])) return {};
  const QByteArray bytes = in.read(at.offsets[index + 1] - at.offsets[index]);
  const QImage image = QImage::fromData(bytes, "JPG");
  return image.isNull() ? image : image.convertToFormat(QImage::Format_RGB32);
}

}  // namespace rackside
