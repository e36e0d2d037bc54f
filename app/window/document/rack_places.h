// SPDX-License-Identifier: GPL-3.0-or-later
// Where racks and photographs lie on this computer.
#pragma once

#include <QStringList>

namespace rackside {

QString sampleRackFolder();  // empty: there is none
QString racksFolder();       // where new racks are begun, in the documents of whoever works here
QString freshRackFolder();   // a folder in it that is not there yet, named by the day
// The racks opened last, the latest first; those that are gone are left out.
QStringList recentRacks();
void rememberRack(const QString& folder);
// The photographs in a folder; none where it is a rack, or holds none.
QStringList photographsIn(const QString& folder);
// Endings of the photographs that can be read, as a file dialog wants them: "*.jpg *.jpeg …".
QString photographPatterns();

}  // namespace rackside
