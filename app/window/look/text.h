// SPDX-License-Identifier: GPL-3.0-or-later
// Between the core's texts (UTF-8) and Qt's.
#pragma once

#include <QString>
#include <QStringList>
#include <filesystem>
#include <string>
#include <string_view>

#include "app/sheets/own_units.h"
#include "core/base/length.h"
#include "core/wood/board.h"

namespace rackside {

inline QString qt(std::string_view s) {
  return QString::fromUtf8(s.data(), static_cast<qsizetype>(s.size()));
}
inline std::string plain(const QString& s) {
  return s.toStdString();
}
inline QString qtPath(const std::filesystem::path& p) {
  return qt(p.string());
}
inline std::filesystem::path pathOf(const QString& s) {
  return std::filesystem::path(plain(s));
}

inline QString lengthText(double mm, const LengthStyle& style) {
  return qt(formatLength(mm, style));
}
using sheets::inOwnUnits;
// `595 mm ± 0.8 mm`; the length alone where no uncertainty is known.
QString measuredText(const Measured& m, const LengthStyle& style);
QString plusMinusText(double u95Mm, const LengthStyle& style);
// "a", "a and b", "a, b and c".
QString listed(const QStringList& words);

}  // namespace rackside
