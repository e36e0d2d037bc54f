// SPDX-License-Identifier: GPL-3.0-or-later
// Every page of the pack, on both papers and in both units: no text outside the page, none over
// another, none cut short.
#include "app/sheets/pack.h"

#include <QImage>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <set>

#include "tests/app/bench_rack.h"
#include "tests/core/support/temporary_folder.h"

using namespace rackside;
using namespace rackside::sheets;

namespace {

constexpr double kPxPerMm = 4;  // about 100 dots an inch; layout does not depend on it

QImage blank(const PackOptions& options) {
  const QSizeF mm = paperSizeMm(options.paper, true);
  QImage image(qRound(mm.width() * kPxPerMm), qRound(mm.height() * kPxPerMm), QImage::Format_RGB32);
  image.fill(Qt::white);
  return image;
}

// For a person to look at: RACKSIDE_SHEETS_OUT=folder keeps every page painted here.
void keep(const QImage& image, const std::string& name) {
  if (const char* folder = std::getenv("RACKSIDE_SHEETS_OUT"))
    image.save(QString::fromStdString(std::string(folder) + "/" + name + ".png"));
}

void checkTexts(const std::vector<DrawnText>& texts, const QRectF& page) {
  for (size_t i = 0; i < texts.size(); ++i) {
    INFO("text: " << texts[i].text.toStdString());
    CHECK(page.contains(texts[i].inkMm));
    CHECK_FALSE(texts[i].cutShort);
    for (size_t k = i + 1; k < texts.size(); ++k) {
      INFO("against: " << texts[k].text.toStdString());
      // Inked boxes may touch but not cover: a tenth of a millimetre is the width of a thin line.
      CHECK_FALSE(texts[i]
                      .inkMm.adjusted(0.05, 0.05, -0.05, -0.05)
                      .intersects(texts[k].inkMm.adjusted(0.05, 0.05, -0.05, -0.05)));
    }
  }
}

}  // namespace

TEST_CASE("every page keeps its text whole, apart and on the paper") {
  const tests::TemporaryFolder folder;
  const Rack rack = tests::benchRack(folder.path());
  const auto paper = GENERATE(Paper::a4, Paper::letter);
  const auto system = GENERATE(UnitSystem::millimetres, UnitSystem::inches);
  PackOptions options;
  options.paper = paper;
  options.lengths = {system, 0, 16};
  options.parts = options.cuts = options.fill = options.movement = options.tally = true;
  const auto pages = packPages(rack, folder.path(), options);
  REQUIRE(pages.size() >= 6);
  for (size_t i = 0; i < pages.size(); ++i) {
    INFO("page " << i + 1 << ": " << pages[i].title.toStdString());
    QImage image = blank(options);
    QPainter painter(&image);
    const auto texts = paintPage(painter, kPxPerMm, pages, i, rack, options);
    painter.end();
    keep(image, std::string(paper == Paper::a4 ? "a4" : "letter") +
                    (system == UnitSystem::inches ? "_in_" : "_mm_") + std::to_string(i + 1));
    CHECK(texts.size() > 5);
    checkTexts(texts, QRectF(QPointF(0, 0), paperSizeMm(paper, true)));
  }
}

TEST_CASE("the usual pack has a page a board that is cut and six more at most") {
  const tests::TemporaryFolder folder;
  const Rack rack = tests::benchRack(folder.path());
  std::set<BoardId> cut;
  for (const Cut& c : rack.plan->cuts) cut.insert(c.board);
  const auto pages = packPages(rack, folder.path(), PackOptions{});
  CHECK(pages.size() <= cut.size() + 6);
  for (const Board& board : rack.boards) {
    const auto sheets = std::count_if(pages.begin(), pages.end(), [&](const Page& page) {
      return page.title == wordForBoard(board);
    });
    CHECK((sheets > 0) == (cut.count(board.id) > 0));
  }
}
