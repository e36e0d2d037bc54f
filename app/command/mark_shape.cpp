// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/mark_shape.h"

#include <algorithm>
#include <numbers>

namespace rackside::command {
namespace {

Result<std::vector<double>> lengths(const std::vector<std::string>& texts, UnitSystem unit) {
  std::vector<double> values;
  for (const std::string& text : texts) {
    auto mm = parseLengthMm(text, unit);
    if (!mm) return mm.error();
    values.push_back(*mm);
  }
  return values;
}

Result<std::vector<Point>> points(const std::vector<std::string>& texts, size_t atLeast,
                                  const std::string& option, UnitSystem unit) {
  if (texts.size() % 2 != 0 || texts.size() < 2 * atLeast)
    return Error{option + " wants pairs of x and y, at least " + std::to_string(atLeast) +
                 " of them."};
  auto values = lengths(texts, unit);
  if (!values) return values.error();
  std::vector<Point> result;
  for (size_t i = 0; i < values->size(); i += 2) result.push_back({(*values)[i], (*values)[i + 1]});
  return result;
}

Result<MarkShape> ellipseFrom(const std::vector<std::string>& texts, UnitSystem unit) {
  if (texts.size() != 4 && texts.size() != 5)
    return Error{"--ellipse wants x, y, its size along and across, and perhaps degrees."};
  auto v = lengths({texts.begin(), texts.begin() + 4}, unit);
  if (!v) return v.error();
  double degrees = 0;
  if (texts.size() == 5) {
    try {
      degrees = std::stod(texts[4]);
    } catch (const std::exception&) {
      return Error{"\"" + texts[4] + "\" is not a number of degrees."};
    }
  }
  return MarkShape{
      Ellipse{{(*v)[0], (*v)[1]}, (*v)[2] / 2, (*v)[3] / 2, degrees * std::numbers::pi / 180}};
}

Result<MarkShape> polygonFrom(const ShapeText& text, UnitSystem unit) {
  auto corners = points(text.polygon, 3, "--polygon", unit);
  if (!corners) return corners.error();
  if (signedArea(*corners) < 0) std::reverse(corners.value().begin(), corners.value().end());
  return MarkShape{Polygon(*corners)};
}

Result<MarkShape> lineFrom(const ShapeText& text, UnitSystem unit) {
  auto along = points(text.line, 2, "--line", unit);
  if (!along) return along.error();
  auto width = parseLengthMm(text.lineWidth, unit);
  if (!width) return width.error();
  return MarkShape{Stroke{*along, *width}};
}

}  // namespace

Result<MarkShape> shapeFrom(const ShapeText& text, UnitSystem unit) {
  const int given =
      int(!text.ellipse.empty()) + int(!text.polygon.empty()) + int(!text.line.empty());
  if (given != 1) return Error{"A mark wants one shape: --ellipse, --polygon or --line."};
  if (!text.ellipse.empty()) return ellipseFrom(text.ellipse, unit);
  return text.line.empty() ? polygonFrom(text, unit) : lineFrom(text, unit);
}

}  // namespace rackside::command
