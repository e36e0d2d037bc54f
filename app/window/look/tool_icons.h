// SPDX-License-Identifier: GPL-3.0-or-later
// Small pictures for the tools, drawn here, in the colour of the text they stand beside.
#pragma once

#include <QIcon>
#include <QString>

namespace rackside {

// By Tool::id(); an empty icon for an unknown one.
QIcon toolIcon(const QString& tool);

}  // namespace rackside
