// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command/verb_scan.h"

#include <memory>

#include "app/command/common_options.h"
#include "app/command/console.h"
#include "app/command/decimal_option.h"
#include "app/command/option_parser.h"
#include "app/command/scan_batch.h"
#include "app/command/scan_job.h"
#include "app/command/scan_report.h"
#include "core/base/number_text.h"
#include "core/base/temperature.h"

namespace rackside::command {
namespace {

// A good tape of class II (2014/32/EU, MI-008: 0.3 + 0.2 L mm, L in m), read to half a millimetre
// at either end; one standard deviation.
constexpr double kTapeSigmaMm = 0.4;
constexpr double kTapeSigmaShare = 0.0001;

struct ScanVerb {
  CommonOptions common;
  std::vector<std::string> photos;
  std::string batchFolder, listFile;
  ScanJob job;
  std::string reference, bow, woodTemperature;
  std::vector<std::string> referenceAt, taped, ties;
  std::string thickness, cardScale, cardThickness = "0", face = "A", cardsOn = "board",
                                    stage = "grey-rough";
};

// "0.9985", or what a rule shows along the card's check bar: "99.9 of 100".
Result<double> readCardScale(const std::string& text) {
  const size_t of = text.find("of");
  const auto first = numberFrom(text.substr(0, of));
  const auto whole = of == std::string::npos ? std::optional(1.0) : numberFrom(text.substr(of + 2));
  if (first && whole && *whole > 0)
    if (const double scale = *first / *whole; scale > 0.9 && scale < 1.1) return scale;
  return Error{
      "--card-scale wants the measured length of the check bar over its printed one, such "
      "as 0.998 or \"99.8 of 100\", and within a tenth of 1; got \"" +
      text + "\"."};
}

// "1-3=1830mm": between the middles of cards 1 and 3.
Result<TapedDistance> readTaped(const std::string& text, const CommonOptions& common) {
  TapedDistance taped;
  int used = 0;
  const bool cards = std::sscanf(text.c_str(), "%d-%d=%n", &taped.cardA, &taped.cardB, &used) == 2;
  const auto mm = cards && used > 0 ? parseLengthMm(text.substr(size_t(used)), common.bareUnit())
                                    : Result<double>(Error{"no cards"});
  if (!mm)
    return Error{
        "--taped wants two cards and the distance of their middles, such as "
        "1-3=1830mm; got \"" +
        text + "\"."};
  taped.mm = *mm;
  taped.sigmaMm = kTapeSigmaMm + kTapeSigmaShare * taped.mm;
  return taped;
}

// "812,1450": a pixel of the photograph as stored, before it is turned upright.
Result<std::array<cv::Point2d, 4>> readCorners(const std::vector<std::string>& texts) {
  std::array<cv::Point2d, 4> corners;
  for (size_t i = 0; i < 4; ++i) {
    int used = 0;
    if (std::sscanf(texts[i].c_str(), "%lf,%lf%n", &corners[i].x, &corners[i].y, &used) != 2 ||
        size_t(used) != texts[i].size())
      return Error{"--reference-at wants four corners such as 812,1450; got \"" + texts[i] + "\"."};
  }
  return corners;
}

// "1250,80=2210,1405": a place on the stored board, from the left end and the near edge, and the
// pixel of the photograph as stored; "@2" after it: of the second photograph.
Result<TiePoint> readTie(const std::string& text, const CommonOptions& common) {
  char x[32], y[32];
  TiePoint tie;
  int used = 0, photo = 1;
  const bool seen = std::sscanf(text.c_str(), "%31[^,],%31[^=]=%lf,%lf%n", x, y, &tie.px.x,
                                &tie.px.y, &used) == 4;
  int more = 0;
  const std::string rest = seen ? text.substr(size_t(used)) : "";
  const bool whole = rest.empty() || (std::sscanf(rest.c_str(), "@%d%n", &photo, &more) == 1 &&
                                      size_t(more) == rest.size() && photo >= 1);
  const auto along = seen ? parseLengthMm(x, common.bareUnit()) : Result<double>(Error{""});
  const auto across = seen ? parseLengthMm(y, common.bareUnit()) : Result<double>(Error{""});
  if (!seen || !whole || !along || !across)
    return Error{
        "--tie wants a place on the stored board and the pixel where it is seen now, such as "
        "1250,80=2210,1405, with @2 after it for the second photograph; got \"" +
        text + "\"."};
  tie.boardMm = {*along, *across};
  tie.photo = size_t(photo) - 1;
  return tie;
}

Status readReferences(ScanVerb& v) {
  ScanOptions& o = v.job.options;
  if (!v.reference.empty())
    o.reference = v.reference == "a4"       ? PlainReference::a4
                  : v.reference == "letter" ? PlainReference::letter
                                            : PlainReference::bankCard;
  if (!v.referenceAt.empty()) {
    if (!v.batchFolder.empty())
      return Error{"--reference-at points into one photograph: it does not go with --batch."};
    const auto corners = readCorners(v.referenceAt);
    if (!corners) return corners.error();
    o.referenceCorners = {{0, *corners}};
  }
  if (!v.ties.empty() && !v.batchFolder.empty())
    return Error{"--tie points into the photographs of one board: it does not go with --batch."};
  for (const std::string& text : v.ties) {
    const auto tie = readTie(text, v.common);
    if (!tie) return tie.error();
    o.tiePoints.push_back(*tie);
  }
  for (const std::string& text : v.taped) {
    const auto taped = readTaped(text, v.common);
    if (!taped) return taped.error();
    o.taped.push_back(*taped);
  }
  return success();
}

Status finishJob(ScanVerb& v) {
  ScanOptions& o = v.job.options;
  if (const Status s = readReferences(v); !s) return s;
  if (!v.bow.empty()) o.bowMm = lengthMm(v.bow, v.common);
  if (!v.thickness.empty()) {
    const SaidThickness said = thickness(v.thickness, v.common);
    o.thicknessMm = said.mm;
    o.thicknessSaid = said.said;
  }
  if (!v.woodTemperature.empty()) {
    const auto celsius = parseCelsius(v.woodTemperature, v.common.bareUnit() == UnitSystem::inches);
    if (!celsius) return celsius.error();
    v.job.woodCelsius = *celsius;
  }
  o.cardThicknessMm = lengthMm(v.cardThickness, v.common);
  o.face = v.face == "B" ? Face::B : Face::A;
  o.stage = *faceStageFromName(v.stage);
  o.cardsOn = v.cardsOn == "bench" ? CardsOn::bench : CardsOn::board;
  if (!v.cardScale.empty()) {
    auto scale = readCardScale(v.cardScale);
    if (!scale) return scale.error();
    o.cardScale = *scale;
    o.cardScaleMeasured = true;
  }
  v.job.rackFolder = v.common.rack;
  return success();
}

int scanOne(ScanVerb& v) {
  RunControl control;
  auto result = runScanJob(v.job, {v.photos.begin(), v.photos.end()}, control);
  if (!result) return inputAtFault(result.error());
  for (const std::string& w : result->scan.warnings) message("note: " + w);
  if (const auto rack = openRack(v.common))
    if (const std::string note = unknownWoodNote(result->scan.board.species, rack->shop.ownSpecies);
        !note.empty())
      message("note: " + note);
  if (v.common.json) {
    printJson(scanJson(result->scan));
  } else {
    for (const std::string& line : scanLines(result->scan, v.common.style(LengthStyle{})))
      say(line);
  }
  return kDone;
}

int run(ScanVerb& v) {
  if (v.photos.empty() == v.batchFolder.empty())
    return usageAtFault("scan wants photographs of one board, or --batch with a folder.");
  if (const Status s = finishJob(v); !s) return usageAtFault(s.error().message);
  if (const Status s = takeLens(v.job); !s) return inputAtFault(s.error());
  if (v.batchFolder.empty()) return scanOne(v);
  return runScanBatch({v.batchFolder, v.listFile, v.job, v.common});
}

}  // namespace

VerbRun setUpScan(CLI::App& app) {
  auto v = std::make_shared<ScanVerb>();
  app.add_option("PHOTO", v->photos, "Photographs of one board's face, in order along it");
  addRack(app, v->common);
  app.add_option("--batch", v->batchFolder,
                 "Folder of photographs of many boards, told apart by the tag in each");
  app.add_option("--list", v->listFile,
                 "With --batch: CSV with the columns tag, name, species, thickness, place");
  app.add_option("--name", v->job.options.name, "Name of the board");
  app.add_option("--species", v->job.options.species, "Species, such as cherry");
  app.add_option("--thickness", v->thickness, "Rough thickness: a length, or 4/4, 8/4 …")
      ->check(thicknessText());
  app.add_option("--moisture", v->job.moisturePercent,
                 "What the moisture meter shows, in percent: blanks of wood wetter than the shop "
                 "are planned so much larger")
      ->transform(decimalNumber())
      ->check(CLI::Range(1.0, 60.0));
  app.add_option(
      "--wood-temperature", v->woodTemperature,
      "Of the wood when it was metered, such as 5C or 40F: the reading of a pin meter is "
      "corrected for it");
  app.add_option("--place", v->job.options.place, "Where the board stands on the rack");
  app.add_option("--face", v->face, "A, or B for the other face of a board already scanned")
      ->check(CLI::IsMember({"A", "B"}));
  app.add_option("--stage", v->stage, "How far the face has been worked")
      ->check(CLI::IsMember({"grey-rough", "window-planed", "skimmed", "planed"}));
  app.add_option("--lens", v->job.lensFile, "Lens file made by the verb lens");
  app.add_option("--cards-on", v->cardsOn, "What the cards lie on")
      ->check(CLI::IsMember({"board", "bench"}));
  app.add_option("--card-scale", v->cardScale,
                 "Measured length of the card's check bar over its printed length, such as 0.998 "
                 "or \"99.8 of 100\"");
  app.add_option("--card-thickness", v->cardThickness, "Thickness of the stock under the print")
      ->check(lengthText());
  app.add_option("--reference", v->reference,
                 "Without a printer: what lies where the cards would (or beside them)")
      ->check(CLI::IsMember({"bank-card", "a4", "letter"}));
  app.add_option("--reference-at", v->referenceAt,
                 "Its four corners in the first photograph, in order, as X,Y in pixels of the "
                 "picture as stored")
      ->expected(4);
  app.add_option("--tie", v->ties,
                 "For face B or a retake whose ends could be swapped: a place on the stored board "
                 "and the pixel where it is seen now, such as 1250,80=2210,1405");
  app.add_option("--taped", v->taped,
                 "A taped distance between the middles of two cards, such as 1-3=1830mm");
  app.add_option("--bow", v->bow,
                 "How far both ends stand up towards the camera, measured against a straight line")
      ->check(lengthText());
  addUnits(app, v->common);
  addJson(app, v->common);
  return [v] { return run(*v); };
}

}  // namespace rackside::command
