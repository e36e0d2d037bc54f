// SPDX-License-Identifier: GPL-3.0-or-later
// Printed cards measured in an independent rendering of the PDF (pdftoppm of Poppler).
#include "app/sheets/card_pdf.h"

#include <QImage>
#include <QTemporaryDir>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <opencv2/imgcodecs.hpp>

#include "app/sheets/gui_session.h"
#include "vision/cards/card_model.h"

using namespace rackside;
using namespace rackside::sheets;

namespace {

constexpr double kDpi = 600;
constexpr double kPxPerMm = kDpi / 25.4;
constexpr double kMarginMm = 22;  // left and right, where the words stand

// Page 1 as grey levels, by a program that knows nothing of ours.
cv::Mat rendered(const std::string& folder, const std::string& pdf) {
  const std::string command =
      "pdftoppm -gray -r 600 -f 1 -l 1 -singlefile '" + pdf + "' '" + folder + "/page' 2>/dev/null";
  if (std::system(command.c_str()) != 0) return {};
  return cv::imread(folder + "/page.pgm", cv::IMREAD_GRAYSCALE);
}

// Places (mm) where a line of pixels crosses half way between black and white.
std::vector<double> edges(int count, const std::function<int(int)>& greyAt) {
  std::vector<double> found;
  for (int i = 0; i + 1 < count; ++i) {
    const double a = greyAt(i) - 127.5, b = greyAt(i + 1) - 127.5;
    if (a * b < 0) found.push_back((i + 0.5 + a / (a - b)) / kPxPerMm);
  }
  return found;
}

// Measured from the margin.
std::vector<double> edgesOfRow(const cv::Mat& page, double yMm) {
  const int y = int(yMm * kPxPerMm), margin = int(kMarginMm * kPxPerMm);
  return edges(page.cols - 2 * margin, [&](int x) { return int(page.at<uchar>(y, margin + x)); });
}

}  // namespace

TEST_CASE("printed cards and their check bars have their true size", "[sheets][cards]") {
  const GuiSession session;
  const QTemporaryDir folder;
  const std::string at = folder.path().toStdString();
  for (Paper paper : {Paper::a4, Paper::letter}) {
    const std::string pdf = at + "/cards.pdf";
    REQUIRE(writeCardPdf({paper, 4, 3}, pdf).ok());
    const cv::Mat page = rendered(at, pdf);
    REQUIRE_FALSE(page.empty());
    const double paperHeight = paper == Paper::a4 ? 210 : 215.9;
    CHECK(page.rows / kPxPerMm == Approx(paperHeight).margin(0.2));
    const CardModel card = cardModel(4);
    for (int k = 0; k < 3; ++k) {
      INFO("card " << 4 + k);
      const double below = (paperHeight - 3 * 64) / 2 + 64 * (k + 1);  // lower edge, from the top
      // Half-way up the ticks of the 200 mm bar: five ticks, two edges each.
      std::vector<double> ticks = edgesOfRow(page, below - 2.3);
      REQUIRE(ticks.size() == 10);
      CHECK((ticks[8] + ticks[9]) / 2 - (ticks[0] + ticks[1]) / 2 == Approx(200).margin(0.05));
      // The 8 in bar hangs its ticks down from the upper edge.
      ticks = edgesOfRow(page, below - 64 + 2.3);
      REQUIRE(ticks.size() >= 10);
      std::vector<double> inch(ticks);
      CHECK((inch[8] + inch[9]) / 2 - (inch[0] + inch[1]) / 2 == Approx(203.2).margin(0.05));
      // The lower row of fields: five black ones of 32 mm, 45 mm apart.
      const std::vector<double> fields = edgesOfRow(page, below - 11.5);
      REQUIRE(fields.size() == 10);
      for (size_t i = 0; i < 10; ++i)
        CHECK(fields[i] - fields[0] ==
              Approx(card.columnsAt[i + 1] - card.columnsAt[1]).margin(0.05));
      // Down through the first black column field: 32 mm high.
      const int x = int((kMarginMm + fields[0] - 6) * kPxPerMm);
      const int top = int((below - 60) * kPxPerMm);
      const auto column =
          edges(int(56 * kPxPerMm), [&](int y) { return int(page.at<uchar>(top + y, x)); });
      REQUIRE(column.size() >= 2);
      CHECK(column[column.size() - 1] - column[column.size() - 2] == Approx(32).margin(0.05));
    }
  }
}

TEST_CASE("a tag sheet has twenty tags of 32 mm a page", "[sheets][cards]") {
  const GuiSession session;
  const QTemporaryDir folder;
  const std::string at = folder.path().toStdString(), pdf = at + "/tags.pdf";
  REQUIRE(writeTagPdf({Paper::letter, 1, 25}, pdf).ok());
  const cv::Mat page = rendered(at, pdf);
  REQUIRE_FALSE(page.empty());
  // The lower border of the first row's codes: one black run of 32 mm a tag.
  const double y = (279.4 - 5 * 50) / 2 + 50 - 14 - 2;
  const std::vector<double> runs = edgesOfRow(page, y);
  std::vector<double> wide;
  for (size_t i = 0; i + 1 < runs.size(); ++i)
    if (runs[i + 1] - runs[i] > 20) wide.push_back(runs[i + 1] - runs[i]);
  REQUIRE(wide.size() == 4);
  for (double mm : wide) CHECK(mm == Approx(32).margin(0.05));
}

TEST_CASE("card sheets as PNG carry their resolution", "[sheets][cards]") {
  const GuiSession session;
  const QTemporaryDir folder;
  const auto files = writeCardPngs({Paper::a4, 1, 7}, 300, folder.path().toStdString() + "/new");
  REQUIRE(files.ok());
  REQUIRE(files->size() == 3 + 7);
  const QImage page(QString::fromStdString(files->front().string()));
  CHECK(page.dotsPerMeterX() == 11811);
  CHECK(page.width() == 3508);  // 297 mm at 300 dpi
}

TEST_CASE("a card alone fills its picture and is read as itself", "[sheets][cards]") {
  const GuiSession session;
  const QTemporaryDir folder;
  const auto files = writeCardPngs({Paper::a4, 5, 1}, 254, folder.path().toStdString());
  REQUIRE(files.ok());
  REQUIRE(files->back().filename() == "card-5.png");
  const cv::Mat alone = cv::imread(files->back().string(), cv::IMREAD_GRAYSCALE);
  const CardModel card = cardModel(5);
  CHECK(alone.cols == std::lround(card.lengthMm * 10));  // 254 dpi: ten pixels a millimetre
  CHECK(alone.rows == std::lround(card.heightMm * 10));
  // Against OpenCV's drawing of the same geometry: words apart, the same black and white.
  const cv::Mat drawn = drawCard(card, 10);
  REQUIRE(drawn.size() == alone.size());
  cv::Mat differ = cv::abs(drawn - alone) > 128;
  CHECK(cv::countNonZero(differ) < 0.02 * double(differ.total()));
}

TEST_CASE("numbers that do not exist and folders that cannot be are refused", "[sheets][cards]") {
  const QTemporaryDir folder;
  const std::filesystem::path file = folder.path().toStdString() + "/x.pdf";
  CHECK_FALSE(writeCardPdf({Paper::a4, 38, 4}, file).ok());
  CHECK_FALSE(writeCardPdf({Paper::a4, 1, 0}, file).ok());
  CHECK_FALSE(writeTagPdf({Paper::a4, 9, 3}, file).ok());
  CHECK_FALSE(writeTagPdf({Paper::a4, 990, 1000}, file).ok());
  CHECK_FALSE(writeCardPngs({Paper::a4, 1, 3}, 10, folder.path().toStdString()).ok());
  CHECK_FALSE(std::filesystem::exists(file));
  CHECK_FALSE(writeCardPdf({}, "/nowhere/at/all/cards.pdf").ok());
}
