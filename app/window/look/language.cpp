// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/language.h"

#include <QCoreApplication>
#include <QLibraryInfo>
#include <QLocale>
#include <QSettings>
#include <QTranslator>

// The translations lie in a static library, whose resources are linked only when asked for.
static void askForTranslations() {
  Q_INIT_RESOURCE(translations);
}

namespace rackside {

namespace {

const QString kSetting = QStringLiteral("window/language");

}  // namespace

std::vector<std::pair<QString, QString>> languages() {
  return {{QStringLiteral("en"), QStringLiteral("English")},
          {QStringLiteral("de"), QStringLiteral("Deutsch")}};
}

QString languageWish() {
  return QSettings().value(kSetting).toString();
}

void setLanguageWish(const QString& code) {
  QSettings().setValue(kSetting, code);
}

void installLanguage() {
  const QString wish = languageWish();
  installLanguage(wish.isEmpty() ? QLocale::system().name().section(QLatin1Char('_'), 0, 0) : wish);
}

void installLanguage(const QString& code) {
  askForTranslations();
  // The figures' decimal sign follows the language too.
  if (code != QLocale::system().name().section(QLatin1Char('_'), 0, 0))
    QLocale::setDefault(QLocale(code));
  auto* ours = new QTranslator(QCoreApplication::instance());
  if (ours->load(QStringLiteral(":/i18n/rackside_%1.qm").arg(code)))
    QCoreApplication::installTranslator(ours);
  auto* qts = new QTranslator(QCoreApplication::instance());
  if (qts->load(QStringLiteral("qtbase_%1").arg(code),
                QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
    QCoreApplication::installTranslator(qts);
}

}  // namespace rackside
