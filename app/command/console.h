// SPDX-License-Identifier: GPL-3.0-or-later
// What the verbs say and where: results on standard output, messages on standard error.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "app/command/verb.h"
#include "core/base/result.h"

namespace rackside::command {

// Prints "rackside: message" and returns kInputAtFault or kUsage.
int inputAtFault(const Error& error);
int usageAtFault(const std::string& message);

void say(const std::string& line);      // a result, standard output
void message(const std::string& line);  // a remark, standard error
void printJson(const nlohmann::json& j);

double rounded(double value, int decimals = 3);
std::string fixed(double value, int decimals);

}  // namespace rackside::command
