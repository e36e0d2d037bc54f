// SPDX-License-Identifier: GPL-3.0-or-later
// The language that people read here: the system's, or one that was chosen.
#pragma once

#include <QString>
#include <utility>
#include <vector>

namespace rackside {

// Code and own name: "de", "Deutsch". English needs no translation.
std::vector<std::pair<QString, QString>> languages();
QString languageWish();  // empty: as the system
void setLanguageWish(const QString& code);
// Before the first window is made; unknown languages fall back to English.
void installLanguage();
void installLanguage(const QString& code);

}  // namespace rackside
