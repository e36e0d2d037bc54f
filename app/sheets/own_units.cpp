// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/own_units.h"

#include <QRegularExpression>

namespace rackside::sheets {

QString inOwnUnits(const QString& text, const LengthStyle& style) {
  if (style.system == UnitSystem::millimetres) return text;
  // Areas and volumes, `mm²`, are no lengths.
  static const QRegularExpression length(
      QStringLiteral("(?<![\\d.])(\\d+(?:\\.\\d+)?) mm(?![\\w²³/])"));
  QString own;
  qsizetype from = 0;
  for (auto it = length.globalMatch(text); it.hasNext();) {
    const QRegularExpressionMatch found = it.next();
    own += text.mid(from, found.capturedStart() - from);
    own += QString::fromStdString(formatLength(found.captured(1).toDouble(), style));
    from = found.capturedEnd();
  }
  return own + text.mid(from);
}

std::string inOwnUnits(const std::string& text, const LengthStyle& style) {
  return inOwnUnits(QString::fromStdString(text), style).toStdString();
}

}  // namespace rackside::sheets
