// SPDX-License-Identifier: GPL-3.0-or-later
// Small face pictures for lists: decoded in the background, only those asked for, kept on disk.
#pragma once

#include <QCache>
#include <QObject>
#include <QPixmap>
#include <QSet>
#include <QThreadPool>

namespace rackside {

class Thumbnails : public QObject {
  Q_OBJECT
 public:
  explicit Thumbnails(QObject* parent = nullptr);
  ~Thumbnails() override;
  // The whole picture, at most 640 px long; null until it is there.
  QPixmap of(const QString& pictureFile);

 signals:
  void arrived(const QString& pictureFile);

 private:
  QThreadPool pool_;
  QCache<QString, QPixmap> ready_{600};
  QSet<QString> asked_;
};

}  // namespace rackside
