// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of several pieces of wood one under another, at one scale, with a line of text each and
// a scale bar.
#pragma once

#include <QImage>
#include <filesystem>
#include <opencv2/core.hpp>
#include <string>
#include <vector>

#include "core/base/result.h"

namespace rackside::sheets {

struct Shown {
  cv::Mat3b picture;  // at the sheet's mmPerPx
  std::string heading, text;
};

// True to scale when printed at the size the file states. Keep a GuiSession while calling.
QImage sideBySide(const std::string& title, const std::vector<Shown>& shown, double mmPerPx);

Status writePng(const QImage& image, const std::filesystem::path& file);
// Of a bare picture, with its scale stated.
Status writePng(const cv::Mat3b& picture, double mmPerPx, const std::filesystem::path& file);

}  // namespace rackside::sheets
