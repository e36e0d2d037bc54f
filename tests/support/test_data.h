// SPDX-License-Identifier: GPL-3.0-or-later
// Where the open test pictures lie that tests/fetch_data.sh fetches.
#pragma once

#include <filesystem>

namespace rackside::test {

// The root of the unpacked Debian package: $RACKSIDE_OPENCV_DOC, $RACKSIDE_VISP_IMAGES, or the
// script's own folder. Empty when it was not fetched: the test says that it is skipped.
std::filesystem::path openCvDocRoot();
std::filesystem::path vispImagesRoot();

}  // namespace rackside::test
