// SPDX-License-Identifier: GPL-3.0-or-later
// What is known of a lens before any measurement.
#pragma once

#include "vision/lens/lens.h"
#include "vision/photo/photo.h"

namespace rackside {

// From EXIF, or from nothing: `source` says which of these was used, and the covariance is the
// spread that it deserves (one standard deviation):
//   focal length 2 % to 2.9 %  35 mm equivalent: by the diagonal of 43.27 mm (CIPA DCG-001); half a
//                              millimetre of rounding, 2 % for the maker's in-camera correction
//                3 % more      when the picture is neither 4:3 nor 3:2, for it was cut in the
//                camera 1 %           focal length and pitch of the sensor (focal plane resolution)
//                12 %          nothing: the main camera of a phone, 24 to 30 mm equivalent
//   principal point 0.4 % of the diagonal: 20 px of a 12-megapixel phone (its stabiliser moves it)
//   k1 0.015, k2 0.01; for an equivalent under 20 mm 0.05 and 0.03
// All but the rounding and the diagonal are common practice, no source.
Lens lensPrior(const Exif& exif, cv::Size size);

}  // namespace rackside
