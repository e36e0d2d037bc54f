// SPDX-License-Identifier: GPL-3.0-or-later
// A small validator of JSON Schema (draft 2020-12), written for the tests and sharing nothing with
// the program's own readers. It knows the keywords that our schemas use and throws on any other, so
// that a rule can never be passed over in silence.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace rackside::tests {

// What is wrong, one line a fault, each with its place; empty when the document holds.
std::vector<std::string> schemaFaults(const nlohmann::json& schema, const nlohmann::json& document);

nlohmann::json schemaNamed(const std::string& name);  // "board" → board.schema.json

}  // namespace rackside::tests
