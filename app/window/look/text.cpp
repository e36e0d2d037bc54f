// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/look/text.h"

namespace rackside {

// A ± is told in decimals in both systems: a fraction would suggest that it is known as well as the
// length.
QString plusMinusText(double u95Mm, const LengthStyle& style) {
  if (style.system == UnitSystem::inches)
    return QStringLiteral("± %1 in").arg(u95Mm / kMmPerInch, 0, 'f', 3);
  return QStringLiteral("± %1 mm").arg(u95Mm, 0, 'f', u95Mm < 10 ? 1 : 0);
}

QString measuredText(const Measured& m, const LengthStyle& style) {
  if (!(m.u95Total > 0)) return lengthText(m.value, style);
  return lengthText(m.value, style) + QLatin1Char(' ') + plusMinusText(m.u95Total, style);
}

QString listed(const QStringList& words) {
  if (words.size() < 2) return words.value(0);
  return words.mid(0, words.size() - 1).join(QStringLiteral(", ")) + QStringLiteral(" and ") +
         words.last();
}

}  // namespace rackside
