// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/text.h"

#include <QObject>
#include <algorithm>
#include <cmath>

namespace rackside {

// In inches the next sixty-fourth above, so that it never promises more than is known.
QString plusMinusText(double u95Mm, const LengthStyle& style) {
  constexpr double kFinest = kMmPerInch / 64;
  if (style.system == UnitSystem::inches)
    return QStringLiteral("± ") +
           lengthText(std::max(1.0, std::ceil(u95Mm / kFinest - 1e-6)) * kFinest,
                      {UnitSystem::inches, 0, 64});
  return QStringLiteral("± %1 mm").arg(u95Mm, 0, 'f', u95Mm < 10 ? 1 : 0);
}

QString measuredText(const Measured& m, const LengthStyle& style) {
  if (!(m.u95Total > 0)) return lengthText(m.value, style);
  const QString text = lengthText(m.value, style) + QLatin1Char(' ') + plusMinusText(m.u95, style);
  if (m.u95Total <= 1.05 * m.u95) return text;
  return text + QObject::tr(" (%1 until the print of the cards is checked)")
                    .arg(plusMinusText(m.u95Total, style));
}

QString listed(const QStringList& words) {
  if (words.size() < 2) return words.value(0);
  return words.mid(0, words.size() - 1).join(QStringLiteral(", ")) + QStringLiteral(" and ") +
         words.last();
}

}  // namespace rackside
