// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/console.h"

#include <cmath>
#include <iostream>

#include "core/base/number_text.h"

namespace rackside::command {

int inputAtFault(const Error& error) {
  message("rackside: " + error.message);
  return kInputAtFault;
}

int usageAtFault(const std::string& text) {
  message("rackside: " + text);
  return kUsage;
}

void say(const std::string& line) {
  std::cout << line << '\n';
}

void message(const std::string& line) {
  std::cerr << line << '\n';
}

void printJson(const nlohmann::json& j) {
  // A file name may hold bytes that are not UTF-8: they are replaced rather than thrown over.
  std::cout << j.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
}

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double r = std::round(value * scale) / scale;
  return r == 0 ? 0 : r;  // never -0
}

std::string fixed(double value, int decimals) {
  return fixedText(value, decimals);
}

}  // namespace rackside::command
