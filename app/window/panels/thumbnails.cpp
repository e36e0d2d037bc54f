// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/panels/thumbnails.h"

#include <QCryptographicHash>
#include <QDateTime>
#include <QFileInfo>

#include "app/window/document/background.h"
#include "app/window/face/tile_pyramid.h"

namespace rackside {

namespace {

constexpr QSize kLargest(640, 200);

QImage thumbnailOf(const QString& picture) {
  const QFileInfo info(picture);
  const QString stamp = info.absoluteFilePath() + QLatin1Char('|') + QString::number(info.size()) +
                        QLatin1Char('|') + QString::number(info.lastModified().toMSecsSinceEpoch());
  const QString kept =
      pictureCacheFolder() + QLatin1Char('/') +
      QString::fromLatin1(
          QCryptographicHash::hash(stamp.toUtf8(), QCryptographicHash::Sha1).toHex()) +
      QStringLiteral(".small.jpg");
  QImage image(kept);
  if (!image.isNull()) return image;
  image = readReduced(picture, kLargest);
  if (!image.isNull()) image.save(kept, "JPG", 88);
  return image;
}

}  // namespace

Thumbnails::Thumbnails(QObject* parent) : QObject(parent) {
  pool_.setMaxThreadCount(1);
  pool_.setThreadPriority(QThread::LowestPriority);
}

Thumbnails::~Thumbnails() {
  pool_.clear();
  pool_.waitForDone();
}

QPixmap Thumbnails::of(const QString& file) {
  if (file.isEmpty()) return {};
  if (const QPixmap* ready = ready_.object(file)) return *ready;
  if (asked_.contains(file)) return {};
  asked_.insert(file);
  inBackground(
      pool_, this, [file] { return thumbnailOf(file); },
      [this, file](const QImage& image) {
        if (image.isNull()) return;  // stays asked: a broken picture is not read again and again
        asked_.remove(file);
        ready_.insert(file, new QPixmap(QPixmap::fromImage(image)));
        emit arrived(file);
      });
  return {};
}

}  // namespace rackside
