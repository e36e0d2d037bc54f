// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "app/sheets/vector_files.h"
#include "core/base/number_text.h"

namespace rackside::sheets {
namespace {

std::string number(double v) {
  return fixedText(v, 3);
}

std::string escaped(const std::string& s) {
  std::string out;
  for (const char c : s) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else {
      out += c;
    }
  }
  return out;
}

Rect boxOf(const std::vector<Layer>& layers) {
  Rect all{1e300, 1e300, -1e300, -1e300};
  const auto take = [&](Point p) {
    all = {std::min(all.x0, p.x), std::min(all.y0, p.y), std::max(all.x1, p.x),
           std::max(all.y1, p.y)};
  };
  for (const Layer& l : layers) {
    for (const Polygon& p : l.closed) std::for_each(p.begin(), p.end(), take);
    for (const Segment& s : l.lines) take(s.from), take(s.to);
  }
  return all;
}

}  // namespace

std::string svgText(const std::vector<Layer>& layers, const std::string& title) {
  const Rect box = boxOf(layers);
  // Board y runs up, SVG's down: y' = top − y.
  const auto point = [&](Point p) { return number(p.x) + "," + number(box.y1 - p.y); };
  std::string out =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" "
      "width=\"" +
      number(box.width()) + "mm\" height=\"" + number(box.height()) + "mm\" viewBox=\"" +
      number(box.x0) + " 0 " + number(box.width()) + " " + number(box.height()) + "\">\n<title>" +
      escaped(title) + "</title>\n";
  for (const Layer& l : layers) {
    out +=
        "<g id=\"" + escaped(l.name) + "\" fill=\"none\" stroke=\"black\" stroke-width=\"0.5\">\n";
    for (const Polygon& p : l.closed) {
      out += "<polygon points=\"";
      for (const Point q : p) out += point(q) + " ";
      out += "\"/>\n";
    }
    for (const Segment& s : l.lines)
      out += "<polyline points=\"" + point(s.from) + " " + point(s.to) + "\"/>\n";
    for (const LayerText& t : l.texts)
      out += "<text x=\"" + number(t.at.x) + "\" y=\"" + number(box.y1 - t.at.y) +
             "\" font-size=\"" + number(t.heightMm) +
             "\" font-family=\"sans-serif\" fill=\"black\" stroke=\"none\">" + escaped(t.text) +
             "</text>\n";
    out += "</g>\n";
  }
  return out + "</svg>\n";
}

}  // namespace rackside::sheets
