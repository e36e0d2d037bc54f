// SPDX-License-Identifier: GPL-3.0-or-later
// Puts a scanned board into a rack folder: a new board, a retake of one that is there, or its face
// B. The picture and the board's file are one change of the rack, made under its lock: of two scans
// of one board at the same time the second is a retake of the first.
#pragma once

#include "core/storage/rack_folder.h"
#include "vision/scan/scan.h"

namespace rackside {

struct ScanToRackOptions {
  ScanOptions scan;  // faceA is filled in from the rack where face B is scanned
  // The board meant, by name, tag number or id; empty: the tag in view, else scan.name, else new.
  std::string board;
};

struct ScanToRackResult {
  ScanResult scan;  // its board as stored
  bool isNew = true;
  std::filesystem::path boardFolder;
  std::filesystem::path pictureFile;
};

// A retake keeps id, name, marks and the board frame: the new outline and picture are laid on the
// stored ones. Fails, and changes nothing on disk, when the scan fails, when face B has no face A
// in the rack, or when the retake's outline does not fit the board.
Result<ScanToRackResult> scanToRack(const std::vector<Photo>& photos,
                                    const ScanToRackOptions& options,
                                    const std::filesystem::path& rackFolder, RunControl& control);

// The same for a scan that was already made.
Result<ScanToRackResult> storeScan(ScanResult scan, const ScanToRackOptions& options,
                                   const std::filesystem::path& rackFolder);

}  // namespace rackside
