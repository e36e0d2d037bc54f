// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/wood/species.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <numeric>
#include <unordered_map>

#include "core/base/name_table.h"

namespace rackside {
namespace {

constexpr std::array<std::string_view, 5> kProvenance = {
    "Wood Handbook", "quoted", "from memory", "reckoned from shrinkage", "the shop's own"};

// "White-Ash" and "white ash" are one.
std::string plainName(std::string_view name) {
  std::string plain;
  for (const char c : name) {
    const bool gap = c == ' ' || c == '-' || c == '_';
    if (!gap)
      plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    else if (!plain.empty() && plain.back() != ' ')
      plain += ' ';
  }
  if (!plain.empty() && plain.back() == ' ') plain.pop_back();
  return plain;
}

using Index = std::unordered_map<std::string, const Species*>;

void addNames(const Species& species, Index& index) {
  index.emplace(plainName(species.name), &species);
  for (const std::string& other : species.alsoCalled) index.emplace(plainName(other), &species);
}

const Index& publishedNames() {
  static const Index index = [] {
    Index all;
    for (const Species& species : allSpecies()) addNames(species, all);
    return all;
  }();
  return index;
}

// Letters to put in, take out or change (Levenshtein).
size_t lettersApart(std::string_view a, std::string_view b) {
  std::vector<size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), size_t{0});
  for (size_t i = 1; i <= a.size(); ++i) {
    size_t diagonal = row[0];
    row[0] = i;
    for (size_t j = 1; j <= b.size(); ++j) {
      const size_t changed = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
    }
  }
  return row.back();
}

struct Near {
  size_t apart = 0;
  std::string name;  // the spelling that comes nearest
  std::string wood;  // of this species
};

Near nearestSpelling(const std::string& typed, const Species& species) {
  Near best{lettersApart(typed, plainName(species.name)), species.name, species.name};
  for (const std::string& other : species.alsoCalled)
    if (const size_t apart = lettersApart(typed, plainName(other)); apart < best.apart)
      best = {apart, other, species.name};
  return best;
}

MaybeFigure reckoned(const MaybeFigure& shrinkage) {
  if (!shrinkage) return std::nullopt;
  const double s = shrinkage->value;
  return Figure{s / 3000 / (1 - s / 150), Provenance::reckoned};
}

}  // namespace

std::string_view name(Provenance provenance) {
  return nameIn(kProvenance, provenance);
}

const Species* speciesNamed(std::string_view name, const std::vector<Species>& own) {
  const std::string plain = plainName(name);
  if (plain.empty()) return nullptr;
  for (const Species& species : own) {
    if (plainName(species.name) == plain) return &species;
    for (const std::string& other : species.alsoCalled)
      if (plainName(other) == plain) return &species;
  }
  const auto found = publishedNames().find(plain);
  return found == publishedNames().end() ? nullptr : found->second;
}

std::string woodKey(std::string_view name, const std::vector<Species>& own) {
  const Species* species = speciesNamed(name, own);
  return species ? plainName(species->name) : plainName(name);
}

bool sameWood(std::string_view a, std::string_view b, const std::vector<Species>& own) {
  return a == b || woodKey(a, own) == woodKey(b, own);
}

bool woodServes(std::string_view wanted, std::string_view board, const std::vector<Species>& own) {
  return wanted.empty() || sameWood(wanted, board, own);
}

ChangeCoefficients changeOf(const Species& species) {
  ChangeCoefficients c = species.change;
  if (!c.radial) c.radial = reckoned(species.shrinkage.radial);
  if (!c.tangential) c.tangential = reckoned(species.shrinkage.tangential);
  return c;
}

std::string unknownWoodNote(std::string_view name, const std::vector<Species>& own) {
  const std::string typed = plainName(name);
  if (typed.empty() || speciesNamed(name, own)) return {};
  std::vector<Near> near;
  for (const auto* list : {&own, &allSpecies()})
    for (const Species& species : *list) near.push_back(nearestSpelling(typed, species));
  std::stable_sort(near.begin(), near.end(),
                   [](const Near& a, const Near& b) { return a.apart < b.apart; });
  constexpr size_t kNamed = 3;
  std::string names;
  for (size_t i = 0; i < std::min(kNamed, near.size()); ++i)
    names += (i > 0 ? ", " : "") + near[i].name +
             (near[i].name == near[i].wood ? "" : " (" + near[i].wood + ")");
  return "No wood called \"" + std::string(name) + "\" is known here; the nearest names are " +
         names +
         ". It is kept as typed. Its movement, weight and drying are not told until its figures "
         "stand under \"own_species\" in shop.json.";
}

}  // namespace rackside
