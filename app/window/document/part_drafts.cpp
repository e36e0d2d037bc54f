// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/document/part_drafts.h"

#include <nlohmann/json.hpp>

#include "core/storage/json_forms.h"

namespace rackside {

namespace {

constexpr auto kKey = "unfinished_rows";

std::optional<PartDraft> readDraft(const nlohmann::json& j) {
  if (!j.is_object()) return std::nullopt;
  PartDraft draft;
  const auto row = j.find("row"), typed = j.find("typed"), part = j.find("part");
  if (row != j.end() && row->is_number_unsigned()) draft.row = row->get<size_t>();
  if (part != j.end())
    if (const auto parts = partsFromJson(*part); parts && parts->size() == 1)
      draft.part = parts->front();
  if (typed != j.end() && typed->is_object())
    for (const auto& [heading, text] : typed->items())
      if (text.is_string()) draft.typed[heading] = text.get<std::string>();
  if (draft.typed.empty()) return std::nullopt;
  return draft;
}

nlohmann::json draftJson(const PartDraft& draft) {
  nlohmann::json j{{"row", draft.row}, {"typed", draft.typed}};
  if (draft.part) j["part"] = toJson(std::vector{*draft.part}, nlohmann::json::object());
  return j;
}

}  // namespace

std::vector<PartDraft> partDrafts(const Rack& rack) {
  std::vector<PartDraft> drafts;
  const auto found = rack.partsExtra->find(kKey);
  if (found == rack.partsExtra->end() || !found->is_array()) return drafts;
  for (const auto& j : *found)
    if (auto draft = readDraft(j)) drafts.push_back(std::move(*draft));
  return drafts;
}

KeptKeys withPartDrafts(const Rack& rack, const std::vector<PartDraft>& drafts) {
  nlohmann::json keys = *rack.partsExtra;
  keys.erase(kKey);
  for (const PartDraft& draft : drafts) keys[kKey].push_back(draftJson(draft));
  return keys;
}

}  // namespace rackside
