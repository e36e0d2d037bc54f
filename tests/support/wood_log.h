// SPDX-License-Identifier: GPL-3.0-or-later
// The geometry inside synthetic wood: growth rings and fibres as fields in the model frame
// (wood_spec.h), bent round the knots, the same for both faces, the edges and the ends.
#pragma once

#include <optional>

#include "core/geometry/shapes.h"
#include "tests/support/wood_spec.h"

namespace rackside::synthetic {

class WoodLog {
 public:
  WoodLog(const WoodSpec& spec, double thicknessMm);

  // The fibre that passes (x, y, z): its y far from any knot. Level lines on a face are fibres.
  double fibreY(double x, double y, double z) const;
  // Radius in the undisturbed log of the growth that passes (x, y, z), mm; level sets are rings.
  double ringRadius(double x, double y, double z) const;
  // Angle in the plane of the face from +x, -pi/2..pi/2: of the fibres, and of the ring lines
  // (the arches), both in radians.
  double fibreAngle(double x, double y, double z) const;
  double ringAngle(double x, double y, double z) const;
  // The knot's or hole's section by the plane z; empty where it does not reach.
  std::optional<Ellipse> section(const DefectSpec& defect, double z) const;
  // The line of a check or split at the plane z, following the fibres from its mouth.
  std::vector<Point> crackLine(const DefectSpec& defect, double z) const;
  bool reaches(const DefectSpec& defect, double z) const;

  double thicknessMm() const { return thicknessMm_; }
  const WoodSpec& spec() const { return spec_; }

 private:
  double surfaceZ(const DefectSpec& d) const { return d.onB ? 0 : thicknessMm_; }
  double bumpOfKnots(double x, double y, double z) const;

  WoodSpec spec_;
  double thicknessMm_;
};

}  // namespace rackside::synthetic
