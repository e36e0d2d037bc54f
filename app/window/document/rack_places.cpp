// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/rack_places.h"

#include <QCoreApplication>
#include <QDate>
#include <QDir>
#include <QSettings>
#include <QStandardPaths>
#include <algorithm>

namespace rackside {

QString sampleRackFolder() {
  const QStringList places{QCoreApplication::applicationDirPath() + QStringLiteral("/sample-rack"),
                           QStringLiteral(RACKSIDE_SAMPLE_RACK)};
  for (const QString& place : places)
    if (QDir(place).exists()) return place;
  return {};
}

QString racksFolder() {
  return QDir(QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation))
      .filePath(QStringLiteral("Rackside"));
}

QString freshRackFolder() {
  const QString day = QDate::currentDate().toString(Qt::ISODate);
  const QDir racks(racksFolder());
  QString name = QObject::tr("rack %1").arg(day);
  for (int i = 2; racks.exists(name); ++i) name = QObject::tr("rack %1 (%2)").arg(day).arg(i);
  return racks.filePath(name);
}

QStringList recentRacks() {
  QStringList racks = QSettings().value(QStringLiteral("rack/recent")).toStringList();
  racks.erase(std::remove_if(racks.begin(), racks.end(),
                             [](const QString& folder) { return !QDir(folder).exists(); }),
              racks.end());
  return racks;
}

void rememberRack(const QString& folder) {
  constexpr int kMost = 10;
  QStringList racks = recentRacks();
  racks.removeAll(folder);
  racks.prepend(folder);
  QSettings settings;
  settings.setValue(QStringLiteral("rack/recent"), racks.mid(0, kMost));
  settings.setValue(QStringLiteral("rack/latest"), folder);
}

QStringList photographsIn(const QString& folder) {
  const QDir dir(folder);
  if (dir.exists(QStringLiteral("boards")) || dir.exists(QStringLiteral("parts.json"))) return {};
  QStringList files;
  for (const QString& name :
       dir.entryList(photographPatterns().split(QLatin1Char(' ')), QDir::Files, QDir::Name))
    files << dir.filePath(name);
  return files;
}

QString photographPatterns() {
  return QStringLiteral("*.jpg *.jpeg *.png *.webp *.heic *.heif");
}

}  // namespace rackside
