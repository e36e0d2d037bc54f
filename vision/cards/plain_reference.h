// SPDX-License-Identifier: GPL-3.0-or-later
// A reference for makers without a printer: a bank card (ISO/IEC 7810 ID-1), an A4 or a Letter
// sheet lying in the picture. Found by itself, or from four corners that the maker points at.
//
// Its corners are the crossings of its sides, which also steps over the round corners of a bank
// card. They are known less well than a printed card's: each carries a sigma of at least 0.5 px
// (card) or 0.7 px (sheet) for the shadow along the sides, thickness and curl (common practice, no
// source).
#pragma once

#include <array>
#include <opencv2/core.hpp>

#include "core/base/result.h"
#include "vision/lens/lens.h"
#include "vision/measure/target.h"

namespace rackside {

enum class PlainReference { bankCard, a4, letter };

// Looks for the one quadrilateral that can be this reference under `lens` (a prior does). Fails
// with what to do when none or several fit. grey: CV_8UC1, image frame.
Result<SeenTarget> findPlainReference(const cv::Mat& grey, PlainReference what, const Lens& lens);

// From corners within about reachPx of the true ones, in order round the reference, either way, any
// first corner. Fails when the sides cannot be seen there or the shape does not fit.
Result<SeenTarget> plainReferenceAt(const cv::Mat& grey, PlainReference what, const Lens& lens,
                                    const std::array<cv::Point2d, 4>& cornersPx, double reachPx);

}  // namespace rackside
