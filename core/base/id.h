// SPDX-License-Identifier: GPL-3.0-or-later
// Ids that never change or return. An id names one object for ever; names and numbers are fields.
#pragma once

#include <compare>
#include <functional>
#include <string>
#include <string_view>

namespace rackside {

// Tag keeps the id of a board from being taken for the id of a mark.
template <class Tag>
struct Id {
  std::string text;
  bool empty() const { return text.empty(); }
  // clang-tidy 14 takes the 0 that a comparison is rewritten with for a pointer.
  auto operator<=>(const Id&) const = default;  // NOLINT(modernize-use-nullptr)
};

struct BoardTagType;
struct PictureTagType;
struct MarkTagType;
struct PartTagType;
struct BlankTagType;
struct PieceTagType;
struct CutTagType;
using BoardId = Id<BoardTagType>;
using PictureId = Id<PictureTagType>;
using MarkId = Id<MarkTagType>;
using PartId = Id<PartTagType>;
using BlankId = Id<BlankTagType>;
using PieceId = Id<PieceTagType>;
using CutId = Id<CutTagType>;

// A new id text: `prefix`, a dash and 13 characters of base 32 (65 random bits), so that folders
// merged by a person or a version-control program never meet the same id twice.
std::string newIdText(std::string_view prefix);

// The same with a fixed source, for plans: one seed, one plan, to the letter.
std::string seededIdText(std::string_view prefix, unsigned long long seed,
                         unsigned long long index);

}  // namespace rackside

template <class Tag>
struct std::hash<rackside::Id<Tag>> {
  size_t operator()(const rackside::Id<Tag>& id) const { return std::hash<std::string>()(id.text); }
};
