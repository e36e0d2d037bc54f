// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <functional>
#include <memory>
#include <vector>

namespace rackside {
std::vector<std::function<std::unique_ptr<QObject>()>> testClasses();
}
