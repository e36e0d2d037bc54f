// SPDX-License-Identifier: GPL-3.0-or-later
// The three-way merge of rack_merge.h.
#include <algorithm>
#include <nlohmann/json.hpp>

#include "core/storage/rack_merge.h"

namespace rackside {
namespace {

using nlohmann::json;

const json& nothing() {
  static const json null;
  return null;
}

const json& under(const json& object, const std::string& key) {
  const auto found = object.find(key);
  return found == object.end() ? nothing() : *found;
}

bool hasIds(const json& list) {
  return list.is_array() && std::all_of(list.begin(), list.end(), [](const json& item) {
           return item.is_object() && item.contains("id") && item["id"].is_string();
         });
}

// The list as an object by id, so that it merges like one.
json byId(const json& list) {
  json out = json::object();
  for (const json& item : list) out[item["id"].get<std::string>()] = item;
  return out;
}

json mergedAt(const std::string& place, const json& base, const json& ours, const json& theirs,
              std::vector<std::string>& conflicts);

json mergedObjects(const std::string& place, const json& base, const json& ours, const json& theirs,
                   std::vector<std::string>& conflicts) {
  json out = json::object();
  const auto take = [&](const std::string& key) {
    if (out.contains(key)) return;
    json value = mergedAt(place + "/" + key, under(base, key), under(ours, key), under(theirs, key),
                          conflicts);
    if (!value.is_null()) out[key] = std::move(value);
  };
  for (const json* side : {&ours, &theirs})
    for (const auto& item : side->items()) take(item.key());
  return out;
}

// In their order, with what only we have after it.
json mergedLists(const std::string& place, const json& base, const json& ours, const json& theirs,
                 std::vector<std::string>& conflicts) {
  const json all = mergedObjects(place, byId(base), byId(ours), byId(theirs), conflicts);
  json out = json::array();
  json done = json::object();
  for (const json* side : {&theirs, &ours})
    for (const json& item : *side) {
      const std::string id = item["id"];
      if (!all.contains(id) || done.contains(id)) continue;
      done[id] = true;
      out.push_back(all[id]);
    }
  return out;
}

// Null stands for "not there".
json mergedAt(const std::string& place, const json& base, const json& ours, const json& theirs,
              std::vector<std::string>& conflicts) {
  if (ours == theirs || theirs == base) return ours;
  if (ours == base) return theirs;
  if (ours.is_object() && theirs.is_object())
    return mergedObjects(place, base.is_object() ? base : json::object(), ours, theirs, conflicts);
  const json none = json::array();
  const json& from = base.is_null() ? none : base;
  if (hasIds(ours) && hasIds(theirs) && hasIds(from))
    return mergedLists(place, from, ours, theirs, conflicts);
  conflicts.push_back(place);
  return ours.is_null() ? theirs : ours;  // what one side took away and the other changed stays
}

}  // namespace

json merged(const json& base, const json& ours, const json& theirs,
            std::vector<std::string>& conflicts) {
  return mergedAt("", base, ours, theirs, conflicts);
}

}  // namespace rackside
