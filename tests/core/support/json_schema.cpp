// SPDX-License-Identifier: GPL-3.0-or-later
#include "json_schema.h"

#include <fstream>
#include <functional>
#include <map>
#include <regex>
#include <stdexcept>

namespace rackside::tests {
namespace {

using Json = nlohmann::json;

class Validator {
 public:
  explicit Validator(const Json& root) : root_(root) {}
  std::vector<std::string> faults;

  void check(const Json& schema, const Json& value, const std::string& at) {
    for (const auto& [keyword, rule] : schema.items()) {
      const auto found = rules().find(keyword);
      if (found == rules().end()) throw std::logic_error("schema keyword " + keyword);
      if (found->second) found->second(*this, rule, value, at);
    }
  }

 private:
  using Rule =
      std::function<void(Validator&, const Json& rule, const Json& value, const std::string& at)>;

  void need(bool holds, const std::string& at, const std::string& what) {
    if (!holds) faults.push_back(at + " " + what);
  }
  bool holds(const Json& schema, const Json& value) const {
    Validator inner(root_);
    inner.check(schema, value, "");
    return inner.faults.empty();
  }
  static bool isOfType(const Json& v, const std::string& type) {
    if (type == "object") return v.is_object();
    if (type == "array") return v.is_array();
    if (type == "string") return v.is_string();
    if (type == "boolean") return v.is_boolean();
    if (type == "number") return v.is_number();
    if (type == "integer")
      return v.is_number_integer() || (v.is_number() && v == std::floor(v.get<double>()));
    throw std::logic_error("schema type " + type);
  }
  int matching(const Json& list, const Json& value) const {
    int n = 0;
    for (const Json& schema : list) n += holds(schema, value) ? 1 : 0;
    return n;
  }

  static const std::map<std::string, Rule>& rules() {
    static const std::map<std::string, Rule> all = makeRules();
    return all;
  }
  static std::map<std::string, Rule> makeRules();
  static void addObjectRules(std::map<std::string, Rule>& all);
  static void addValueRules(std::map<std::string, Rule>& all);

  const Json& root_;
};

void Validator::addObjectRules(std::map<std::string, Rule>& all) {
  all["required"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    if (value.is_object())
      for (const Json& key : rule)
        v.need(value.contains(key.get<std::string>()), at, "lacks " + key.dump());
  };
  all["properties"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    if (value.is_object())
      for (const auto& [key, schema] : rule.items())
        if (value.contains(key)) v.check(schema, value[key], at + "/" + key);
  };
  all["additionalProperties"] = [](Validator& v, const Json& rule, const Json& value,
                                   const std::string& at) {
    if (value.is_object())
      for (const auto& [key, member] : value.items()) v.check(rule, member, at + "/" + key);
  };
  all["items"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    if (value.is_array())
      for (size_t i = 0; i < value.size(); ++i)
        v.check(rule, value[i], at + "/" + std::to_string(i));
  };
  all["minItems"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(!value.is_array() || value.size() >= rule.get<size_t>(), at, "is too short a list");
  };
  all["maxItems"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(!value.is_array() || value.size() <= rule.get<size_t>(), at, "is too long a list");
  };
  all["oneOf"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(v.matching(rule, value) == 1, at, "matches not exactly one of the forms");
  };
  all["anyOf"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(v.matching(rule, value) >= 1, at, "matches none of the forms");
  };
  all["$ref"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.check(v.root_.at(Json::json_pointer(rule.get<std::string>().substr(1))), value, at);
  };
}

void Validator::addValueRules(std::map<std::string, Rule>& all) {
  all["type"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(isOfType(value, rule), at, "is no " + rule.get<std::string>());
  };
  all["const"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(value == rule, at, "is not " + rule.dump());
  };
  all["enum"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(std::find(rule.begin(), rule.end(), value) != rule.end(), at, "is none of the words");
  };
  all["minimum"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(!value.is_number() || value >= rule, at, "is too small");
  };
  all["exclusiveMinimum"] = [](Validator& v, const Json& rule, const Json& value,
                               const std::string& at) {
    v.need(!value.is_number() || value > rule, at, "is too small");
  };
  all["maximum"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(!value.is_number() || value <= rule, at, "is too great");
  };
  all["minLength"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(!value.is_string() || value.get<std::string>().size() >= rule.get<size_t>(), at,
           "is too short");
  };
  all["pattern"] = [](Validator& v, const Json& rule, const Json& value, const std::string& at) {
    v.need(!value.is_string() ||
               std::regex_search(value.get<std::string>(), std::regex(rule.get<std::string>())),
           at, "does not match " + rule.dump());
  };
}

std::map<std::string, Validator::Rule> Validator::makeRules() {
  std::map<std::string, Rule> all;
  for (const char* said : {"$schema", "title", "description", "default", "$defs"})
    all[said] = nullptr;
  addObjectRules(all);
  addValueRules(all);
  return all;
}

}  // namespace

std::vector<std::string> schemaFaults(const Json& schema, const Json& document) {
  Validator validator(schema);
  validator.check(schema, document, "");
  return validator.faults;
}

Json schemaNamed(const std::string& name) {
  std::ifstream file(std::string(RACKSIDE_SOURCE_DIR) + "/core/storage/schemas/" + name +
                     ".schema.json");
  return Json::parse(file);
}

}  // namespace rackside::tests
