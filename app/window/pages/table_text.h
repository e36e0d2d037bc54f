// SPDX-License-Identifier: GPL-3.0-or-later
// Tables as text: what a spreadsheet puts on the clipboard (tabs) and CSV (RFC 4180).
#pragma once

#include <QStringList>
#include <vector>

namespace rackside {

// Separator: a tab when there is one outside quotes, else `;`, else `,`. Empty lines are left out.
std::vector<QStringList> readTable(const QString& text);
QString writeTable(const std::vector<QStringList>& rows, QChar separator);

}  // namespace rackside
