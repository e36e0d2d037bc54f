// SPDX-License-Identifier: GPL-3.0-or-later
// SVG and DXF read back by programs that are not ours: dxflib (Debian's libdxflib) and Qt's SVG
// renderer and XML reader. Points agree within 0.01 mm.
#include "app/sheets/vector_files.h"

#include <dxflib/dl_creationadapter.h>
#include <dxflib/dl_dxf.h>

#include <QSvgRenderer>
#include <QXmlStreamReader>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cctype>
#include <map>

#include "tests/app/bench_rack.h"
#include "tests/app/program.h"

using namespace rackside;
using namespace rackside::sheets;

namespace {

constexpr double kToleranceMm = 0.01;

// What dxflib finds, by layer.
struct DxfReader : DL_CreationAdapter {
  std::map<std::string, Polygons> closed;
  std::map<std::string, std::vector<Segment>> lines;
  std::map<std::string, int> texts;
  std::vector<std::string> layers;
  std::string layer() { return getAttributes().getLayer(); }
  void addLayer(const DL_LayerData& data) override { layers.push_back(data.name); }
  void addPolyline(const DL_PolylineData& data) override {
    CHECK((data.flags & 1) == 1);
    closed[layer()].emplace_back();
  }
  void addVertex(const DL_VertexData& v) override { closed[layer()].back().push_back({v.x, v.y}); }
  void addLine(const DL_LineData& l) override {
    lines[layer()].push_back({{l.x1, l.y1}, {l.x2, l.y2}});
  }
  void addText(const DL_TextData&) override { ++texts[layer()]; }
};

void checkSame(const Polygon& found, const Polygon& wanted) {
  REQUIRE(found.size() == wanted.size());
  for (size_t i = 0; i < wanted.size(); ++i) CHECK(norm(found[i] - wanted[i]) < kToleranceMm);
}

std::string inCapitals(std::string s) {
  std::transform(s.begin(), s.end(), s.begin(),
                 [](unsigned char c) { return char(std::toupper(c)); });
  return s;
}

// Polygons of an SVG by group id, as an XML reader sees them.
std::map<std::string, Polygons> svgPolygons(const std::string& svg) {
  std::map<std::string, Polygons> found;
  QXmlStreamReader xml(QByteArray::fromStdString(svg));
  std::string group;
  while (!xml.atEnd()) {
    if (xml.readNext() != QXmlStreamReader::StartElement) continue;
    if (xml.name() == QString("g")) group = xml.attributes().value("id").toString().toStdString();
    if (xml.name() != QString("polygon")) continue;
    Polygon p;
    for (const QString& pair :
         xml.attributes().value("points").toString().split(' ', Qt::SkipEmptyParts))
      p.push_back({pair.section(',', 0, 0).toDouble(), pair.section(',', 1, 1).toDouble()});
    found[group].push_back(p);
  }
  CHECK_FALSE(xml.hasError());
  return found;
}

}  // namespace

TEST_CASE("a DXF reads back layer by layer") {
  const Rack rack = tests::benchRack();
  for (const Board& board : rack.boards) {
    const auto layers = boardLayers(rack, board);
    const tests::Folder folder;
    DxfReader reader;
    DL_Dxf dxf;
    REQUIRE(dxf.in(folder.file("board.dxf", dxfText(layers)), &reader));
    CHECK(reader.layers.size() == layers.size());
    for (const Layer& layer : layers) {
      const std::string name = inCapitals(layer.name);
      INFO(name);
      REQUIRE(reader.closed[name].size() == layer.closed.size());
      for (size_t i = 0; i < layer.closed.size(); ++i)
        checkSame(reader.closed[name][i], layer.closed[i]);
      REQUIRE(reader.lines[name].size() == layer.lines.size());
      for (size_t i = 0; i < layer.lines.size(); ++i)
        checkSame({reader.lines[name][i].from, reader.lines[name][i].to},
                  {layer.lines[i].from, layer.lines[i].to});
      CHECK(reader.texts[name] == int(layer.texts.size()));
    }
  }
}

TEST_CASE("an SVG reads back in millimetres") {
  const Rack rack = tests::benchRack();
  const Board& board = rack.boards[1];
  const auto layers = boardLayers(rack, board);
  const std::string svg = svgText(layers, "Board <7> & more");
  const auto found = svgPolygons(svg);
  const QSvgRenderer renderer(QByteArray::fromStdString(svg));
  REQUIRE(renderer.isValid());
  const Rect outline = bounds(board.outline.polygon());
  // The page starts at the lowest x and the highest y of all that is drawn.
  const double top = renderer.viewBoxF().height() + [&] {
    double low = 0;
    for (const Layer& l : layers)
      for (const Polygon& p : l.closed) low = std::min(low, bounds(p).y0);
    for (const Layer& l : layers)
      for (const Segment& s : l.lines) low = std::min({low, s.from.y, s.to.y});
    return low;
  }();
  for (const Layer& layer : layers) {
    INFO(layer.name);
    if (layer.closed.empty()) continue;
    REQUIRE(found.at(layer.name).size() == layer.closed.size());
    for (size_t i = 0; i < layer.closed.size(); ++i) {
      Polygon turned = layer.closed[i];
      for (Point& p : turned) p.y = top - p.y;
      checkSame(found.at(layer.name)[i], turned);
    }
  }
  // The renderer's box holds half the pen's width of 0.5 mm on each side.
  const QRectF drawn = renderer.boundsOnElement("outline");
  CHECK(drawn.width() == Approx(outline.width()).margin(0.5 + kToleranceMm));
  CHECK(svg.find("Board &lt;7&gt; &amp; more") != std::string::npos);
}
