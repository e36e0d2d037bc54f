// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/id.h"

#include <cstdint>
#include <random>

namespace rackside {
namespace {

// Base 32 in small letters, so that a folder name survives a file system that ignores case; without
// i, l, o and u, which are misread by hand.
constexpr std::string_view kAlphabet = "0123456789abcdefghjkmnpqrstvwxyz";
constexpr int kCharacters = 13;

// SplitMix64 (Steele, Lea, Flood 2014): a bijective mixing of 64 bits.
std::uint64_t mix(std::uint64_t z) {
  z += 0x9e3779b97f4a7c15ULL;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
  return z ^ (z >> 31);
}

// `next5` gives five bits a call.
template <class Next5>
std::string idText(std::string_view prefix, Next5 next5) {
  std::string text(prefix);
  text += '-';
  for (int i = 0; i < kCharacters; ++i) text += kAlphabet[next5() & 31U];
  return text;
}

}  // namespace

std::string newIdText(std::string_view prefix) {
  static thread_local std::random_device source;
  return idText(prefix, [] { return source(); });
}

std::string seededIdText(std::string_view prefix, unsigned long long seed,
                         unsigned long long index) {
  std::uint64_t state = mix(seed) ^ mix(~static_cast<std::uint64_t>(index));
  for (const char c : prefix) state = mix(state ^ static_cast<unsigned char>(c));
  return idText(prefix, [&state] {
    state = mix(state);
    return static_cast<unsigned>(state >> 59);
  });
}

}  // namespace rackside
