// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/wood_species.h"

#include <map>
#include <stdexcept>

namespace rackside::synthetic {
namespace {

cv::Vec3f rgb(int r, int g, int b) {
  return {static_cast<float>(b) / 255, static_cast<float>(g) / 255, static_cast<float>(r) / 255};
}

std::map<std::string, Species> allSpecies() {
  std::map<std::string, Species> all;
  all["cherry"] = {rgb(201, 143, 104),
                   rgb(158, 98, 64),
                   rgb(226, 199, 163),
                   rgb(205, 172, 132),
                   rgb(144, 130, 114),
                   4.5F,
                   0.15F,
                   0.10F,
                   7,
                   0.22F,
                   0.05F,
                   0.05F};
  all["ash"] = {rgb(196, 165, 122),
                rgb(225, 203, 164),
                rgb(214, 190, 150),
                rgb(234, 217, 184),
                rgb(160, 151, 138),
                0.7F,
                1.0F,
                0.42F,
                14,
                0.40F,
                0,
                0.035F};
  all["walnut"] = {rgb(124, 92, 69),
                   rgb(84, 58, 43),
                   rgb(205, 181, 145),
                   rgb(180, 152, 116),
                   rgb(109, 100, 93),
                   3.0F,
                   0.45F,
                   0.30F,
                   11,
                   0.35F,
                   0,
                   0.08F};
  all["maple"] = {rgb(226, 203, 166),
                  rgb(196, 163, 121),
                  rgb(236, 219, 190),
                  rgb(214, 188, 150),
                  rgb(160, 150, 138),
                  6.0F,
                  0.0F,
                  0.05F,
                  4,
                  0.18F,
                  0.10F,
                  0.03F};
  all["oak"] = {rgb(176, 138, 95),
                rgb(208, 174, 128),
                rgb(204, 180, 143),
                rgb(224, 203, 169),
                rgb(147, 137, 123),
                0.8F,
                0.9F,
                0.45F,
                16,
                0.45F,
                0.35F,
                0.04F};
  all["beech"] = {rgb(206, 164, 128),
                  rgb(186, 138, 102),
                  rgb(222, 190, 156),
                  rgb(206, 168, 132),
                  rgb(152, 140, 128),
                  3.0F,
                  0.0F,
                  0.07F,
                  3,
                  0.20F,
                  0.30F,
                  0.03F};
  return all;
}

}  // namespace

const Species& speciesNamed(const std::string& name) {
  static const std::map<std::string, Species> all = allSpecies();
  const auto it = all.find(name);
  if (it == all.end()) throw std::logic_error("no synthetic species named " + name);
  return it->second;
}

}  // namespace rackside::synthetic
