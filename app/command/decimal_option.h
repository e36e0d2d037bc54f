// SPDX-License-Identifier: GPL-3.0-or-later
// For an option that holds a number: a comma serves as a decimal point. Goes before other checks.
#pragma once

namespace CLI {
class Validator;
}

namespace rackside::command {

CLI::Validator decimalNumber();

}  // namespace rackside::command
