// SPDX-License-Identifier: GPL-3.0-or-later
// How each species looks: colours (sRGB, 0..1, blue green red) and the build of its grain. Chosen
// by eye to resemble planed and rough boards; no source.
#pragma once

#include <opencv2/core.hpp>
#include <string>

namespace rackside::synthetic {

struct Species {
  cv::Vec3f early, late;        // heartwood at the start and the end of a year's growth
  cv::Vec3f sapEarly, sapLate;  // sapwood
  cv::Vec3f rough;              // what years of grey make of it
  float lateSharpness = 3;      // exponent: high = a thin dark line at the end of the ring
  float ringPorous = 0;         // 0 pores everywhere, 1 in the early wood only
  float poreStrength = 0.1F;    // darkening
  float poreLengthMm = 4, poreWidthMm = 0.25F;
  float rays = 0;              // short dark dashes on flat sawn faces
  float toneFromRing = 0.04F;  // change of lightness from ring to ring
};

const Species& speciesNamed(const std::string& name);  // throws std::logic_error

}  // namespace rackside::synthetic
