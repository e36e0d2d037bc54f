// SPDX-License-Identifier: GPL-3.0-or-later
// What a synthetic board is cut from: the log, its defects, the saw and the weather.
//
// Model frame: millimetres, x along the board from the left end, y across from the near edge,
// z up from the underside (face B at z = 0, face A at z = thickness). The fibres run along x.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace rackside::synthetic {

// A defect as it shows on face A (or on face B when onB). Meaning of the sizes by kind:
//   knot, hole, bark: semi-axes alongMm, acrossMm (for a knot alongMm is its radius)
//   check, split: a line of alongMm from (x, y) in the direction of +x (or -x when negative) that
//                 follows the fibres, acrossMm wide at its mouth
//   stain: a blotch with semi-axes alongMm, acrossMm
struct DefectSpec {
  std::string kind = "knot";  // knot, check, split, hole, bark, stain
  double x = 0, y = 0;        // model frame, at the face it shows on
  double alongMm = 10, acrossMm = 10;
  bool through = false;
  double depthMm = 6;  // from the face it shows on, when it does not go through
  bool onB = false;    // shows on face B only (unless through)
  bool loose = false;  // a dead knot with a dark ring of bark
  double tiltX = 0;    // dx/dz and dy/dz of a knot's or a hole's axis
  double tiltY = 0;
};

struct SawSpec {
  std::string kind = "band";  // none, band (straight marks), circular (arcs)
  double pitchMm = 4;
  double strength = 1;    // 1: as a sharp mill leaves it
  double slantDeg = 3;    // of straight marks from square across
  double radiusMm = 600;  // of arcs
};

struct WoodSpec {
  std::string species = "cherry";  // cherry, ash, walnut, maple, oak, beech
  uint32_t seed = 1;
  // The log: the pith runs along x at (pithY, pithZ), turning slowly; the rings taper along it.
  double pithYMm = 100, pithZMm = -70;
  double pithSlopeY = 0, pithSlopeZ = 0;  // mm per mm
  double pithWanderMm = 8;
  double taperMmPerM = 9;  // of the ring radius towards +x
  double ringMm = 3.2;
  double sapRadiusMm = 0;  // sapwood lies outside this radius; 0: none
  double curl = 0;         // 0..1: strength of the ripple across the grain
  double curlPitchMm = 14;
  double fibreSlope = 0;  // dy/dx of the fibres far from knots
  std::vector<DefectSpec> defects;
  SawSpec saw;
};

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(DefectSpec, kind, x, y, alongMm, acrossMm, through,
                                                depthMm, onB, loose, tiltX, tiltY)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(SawSpec, kind, pitchMm, strength, slantDeg,
                                                radiusMm)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(WoodSpec, species, seed, pithYMm, pithZMm,
                                                pithSlopeY, pithSlopeZ, pithWanderMm, taperMmPerM,
                                                ringMm, sapRadiusMm, curl, curlPitchMm, fibreSlope,
                                                defects, saw)

}  // namespace rackside::synthetic
