// SPDX-License-Identifier: GPL-3.0-or-later
// Many boards in one go: the photographs of a folder grouped by the board they show, each group
// scanned into the rack; one failure never stops the rest.
#pragma once

#include "vision/scan/scan_to_rack.h"

namespace rackside {

struct PhotoGroup {
  std::optional<int> tag;
  std::string name;                          // "tag 7", or of the first file
  std::vector<std::filesystem::path> files;  // by name
  std::vector<std::string> remarks;          // which file came in without its tag, and why
};

struct BatchLine {
  PhotoGroup group;
  bool found = false;
  std::string text;  // one line for people: what was measured, or what to retake and why
  std::optional<ScanToRackResult> result;  // its face picture is dropped, to bound memory
};

struct BatchOptions {
  ScanOptions scan;
  // Fills in what photographs cannot tell of one board: name, species, thickness, place.
  std::function<void(const PhotoGroup&, ScanOptions&)> describe;
  int workers = 2;                                // scans at a time
  std::function<void(const BatchLine&)> onBoard;  // called as each is done, one at a time
};

// What is in the folder, grouped: by the tag seen; a photograph without a tag goes with its
// neighbour in time or name that shows one of its cards; one that belongs to none stands alone.
// Fails when the folder cannot be read or holds no photograph.
Result<std::vector<PhotoGroup>> groupPhotos(const std::filesystem::path& folder,
                                            std::vector<BatchLine>& unreadable);

// In the order of the groups.
Result<std::vector<BatchLine>> scanBatch(const std::filesystem::path& folder,
                                         const std::filesystem::path& rackFolder,
                                         const BatchOptions& options, RunControl& control);

}  // namespace rackside
