// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/decimal_option.h"

#include <algorithm>

#include "app/command/option_parser.h"
#include "core/base/number_text.h"

namespace rackside::command {

CLI::Validator decimalNumber() {
  return CLI::Validator(
      [](std::string& text) {
        if (!numberFrom(text)) return "\"" + text + "\" is no number, such as 12 or 7.5";
        std::replace(text.begin(), text.end(), ',', '.');
        return std::string();
      },
      "NUMBER");
}

}  // namespace rackside::command
