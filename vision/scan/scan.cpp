// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/scan.h"

#include "core/geometry/polygon.h"
#include "core/wood/measure.h"
#include "vision/face/board_frame.h"
#include "vision/face/face_picture.h"
#include "vision/face/register_face.h"
#include "vision/scan/photo_advice.h"
#include "vision/scan/sights.h"

namespace rackside {
namespace {

// A thickness nobody gave: most rough boards lie between 25 and 52 mm (common practice, no source).
constexpr double kUsualThicknessMm = 28;
constexpr double kWidthStepMm = 100;
// The commonest slip is a page shrunk to fit the paper's margins, by 3 % and more; a print that
// nobody checked may be one.
constexpr double kUncheckedPrintSigma = 0.016;

AdjustmentOptions adjustmentOptions(const ScanOptions& o) {
  AdjustmentOptions a;
  a.cardsOn = o.cardsOn;
  a.boardThicknessMm = o.thicknessMm;
  a.cardThicknessMm = o.cardThicknessMm;
  a.cardThicknessSigmaMm = o.cardThicknessSigmaMm;
  a.cardScale = o.cardScale;
  a.taped = o.taped;
  a.cardScaleSigma = o.cardScaleMeasured ? kMeasuredPrintSigma : kUncheckedPrintSigma;
  return a;
}

// A bank card or a sheet where the adjustment placed it.
std::optional<PlacedCard> placedReference(PlainReference what, const Adjustment& adjustment,
                                          double zMm) {
  const Target target = what == PlainReference::bankCard ? bankCardTarget()
                        : what == PlainReference::a4     ? a4Target()
                                                         : letterTarget();
  const auto pose = adjustment.planeFromTarget(target.name);
  if (!pose) return std::nullopt;
  return PlacedCard{rackside::apply(*pose, target.points), rackside::apply(*pose, target.centre),
                    pose->angleRad, zMm};
}

FaceViews viewsOf(const std::vector<Photo>& photos, const std::vector<size_t>& used,
                  const Adjustment& adjustment, const ScanOptions& o) {
  FaceViews views;
  views.adjustment = &adjustment;
  views.cardsOn = o.cardsOn;
  views.thicknessMm = o.thicknessMm > 0 ? o.thicknessMm : kUsualThicknessMm;
  for (size_t i : used) views.photos.emplace_back(photos[i].bgr);
  const double z =
      o.cardsOn == CardsOn::bench ? o.cardThicknessMm - o.thicknessMm : o.cardThicknessMm;
  for (const CardFit& card : adjustment.cards())
    if (const auto pose = adjustment.planeFromCard(card.number))
      views.cards.push_back(placedCard(card.number, *pose, z));
  if (o.reference)
    if (const auto reference = placedReference(*o.reference, adjustment,
                                               o.cardsOn == CardsOn::bench ? -o.thicknessMm : 0))
      views.cards.push_back(*reference);
  return views;
}

void measureBoard(Board& board) {
  board.lengthMm = lengthOf(board.outline);
  board.widthsMm = widthsEvery(board.outline, kWidthStepMm);
}

Picture describePicture(const FacePicture& face, const std::vector<Photo>& photos,
                        const std::vector<size_t>& used, Face side) {
  Picture p;
  p.id.text = newIdText("picture");
  p.face = side;
  p.file =
      "face-" + std::string(name(side)) + "-" + p.id.text.substr(p.id.text.find('-') + 1) + ".jpg";
  p.widthPx = face.bgr.cols;
  p.heightPx = face.bgr.rows;
  p.mmPerPx = face.mmPerPx;
  p.boardFromPicture = face.boardFromPicture;
  for (size_t i : used) p.sourceHashes.push_back(photos[i].sha256);
  p.takenAt = photos[used.front()].exif.takenAt;
  return p;
}

Board newBoard(const ScanOptions& o) {
  Board board;
  board.id.text = newIdText("board");
  board.name = o.name;
  board.species = o.species;
  board.place = o.place;
  board.thicknessMm = o.thicknessMm;
  board.thicknessSaid = o.thicknessSaid;
  return board;
}

struct Placed {  // where the board frame lies in the plane of the photographs
  cv::Matx23d planeFromBoard;
  Rect box;
};

// Face A: the frame comes from the outline found.
Placed placeFaceA(Board& board, const FoundOutline& found, const FaceViews& views, Point down) {
  const BoardFrame frame = frameBoard(found, down);
  Polygon plane;
  for (const OutlineVertex& v : found.vertices) plane.push_back(v.at);
  board.outline.vertices = frame.vertices;
  board.outline.planeModes = views.adjustment->planeModes(plane, frame.boardFromPlane);
  measureBoard(board);
  return {affineOf(inverse(frame.boardFromPlane)), bounds(board.outline.polygon())};
}

// Stored board frame, plane of the photographs.
TiePairs tiesInPlane(const ScanOptions& o, const Adjustment& adjustment,
                     const std::vector<size_t>& used) {
  TiePairs ties;
  for (const TiePoint& t : o.tiePoints)
    for (size_t i = 0; i < used.size(); ++i)
      if (used[i] == t.photo)
        if (const auto plane = adjustment.planeFromImage(i, t.px))
          ties.emplace_back(t.boardMm, *plane);
  return ties;
}

// Face B: the frame is face A's; the outline found says how the board was turned over.
Result<Placed> placeFaceB(Board& board, const ScanOptions& o, const FoundOutline& found,
                          const TiePairs& ties) {
  const Board& a = *o.faceA;
  const auto registered = registerFaceB(a.outline, found, ties);
  if (!registered) return registered.error();
  board = a;
  board.faceB = FaceRegistration{registered->u95Mm, registered->how};
  return Placed{registered->planeFromBoard, bounds(a.outline.polygon())};
}

void addOutlineAdvice(const FoundOutline& found, std::vector<std::string>& warnings) {
  if (found.unsureShare > 0.01)
    warnings.push_back("The edge is unsure along " +
                       std::to_string(int(std::lround(100 * found.unsureShare))) +
                       " % of the outline: look at it and redraw those stretches.");
  if (found.bridgedShare > 0)
    warnings.push_back("A card covers part of the edge; the outline is bridged there.");
}

struct Seen {
  std::unique_ptr<Adjustment> adjustment;
  FaceViews views;
  FoundOutline outline;
};

Result<Seen> see(const std::vector<Photo>& photos, const Sights& sights, const ScanOptions& options,
                 const AdjustmentOptions& how, RunControl& control) {
  control.report(0.25, "adjusting cameras");
  auto adjustment = adjust(sights.sights, how);
  if (!adjustment) return adjustment.error();
  if (control.shouldEnd()) return Error{"Stopped."};
  Seen seen{std::move(adjustment.value()), {}, {}};
  seen.views = viewsOf(photos, sights.used, *seen.adjustment, options);
  control.report(0.4, "finding the outline");
  auto found = findOutline(seen.views);
  if (!found) return found.error();
  seen.outline = std::move(found.value());
  return seen;
}

// A straight edge is a curve in the photograph: the lens bends it.
constexpr double kOutlineStepMm = 50;

std::vector<OutlineInPhoto> outlinesInPhotos(const FoundOutline& found,
                                             const Adjustment& adjustment,
                                             const std::vector<size_t>& used) {
  std::vector<OutlineInPhoto> outlines;
  const auto& v = found.vertices;
  for (size_t i = 0; i < used.size(); ++i) {
    OutlineInPhoto outline{used[i], {}};
    for (size_t k = 0; k < v.size(); ++k) {
      const Point from = v[k].at, edge = v[(k + 1) % v.size()].at - from;
      const int steps = std::max(1, int(std::ceil(norm(edge) / kOutlineStepMm)));
      for (int s = 0; s < steps; ++s)
        outline.px.push_back(adjustment.imageFromPlane(i, from + (double(s) / steps) * edge));
    }
    outlines.push_back(std::move(outline));
  }
  return outlines;
}

// The line along the middle of the board, end to end.
Bow bowAlong(const FoundOutline& found, const ScanOptions& options, Point down) {
  const BoardFrame frame = frameBoard(found, down);
  const Pose planeFromBoard = inverse(frame.boardFromPlane);
  Polygon board;
  for (const OutlineVertex& v : frame.vertices) board.push_back(v.at);
  const Rect box = bounds(board);
  const double middle = (box.y0 + box.y1) / 2;
  return {apply(planeFromBoard, Point{box.x0, middle}),
          apply(planeFromBoard, Point{box.x1, middle}), options.bowMm, options.bowSigmaMm};
}

}  // namespace

Status ScanOptions::validate() const {
  if (thicknessMm < 0 || thicknessMm > 200)
    return Error{"The thickness must lie between 0 and 200 mm."};
  if (cardsOn == CardsOn::bench && thicknessMm <= 0)
    return Error{
        "With cards on the bench the board's thickness is needed: measure it and give it."};
  if (cardScale < 0.9 || cardScale > 1.1)
    return Error{"The card scale is measured ÷ printed length, near 1; check the measurement."};
  if (!(std::abs(bowMm) <= 100)) return Error{"A bow is given in mm, at most 100 either way."};
  if (!referenceCorners.empty() && !reference)
    return Error{
        "Corners were given without saying of what: a bank card, an A4 or a Letter sheet."};
  if (face == Face::B && !faceA) return Error{"Face A has to be scanned before face B."};
  return success();
}

Result<ScanResult> scanFace(const std::vector<Photo>& photos, const ScanOptions& options,
                            RunControl& control) {
  if (const Status ok = options.validate(); !ok) return ok.error();
  if (photos.empty()) return Error{"No photograph was given."};
  control.report(0.05, "finding cards");
  auto sights = findSights(photos, options);
  if (!sights) return sights.error();
  AdjustmentOptions how = adjustmentOptions(options);
  auto seen = see(photos, *sights, options, how, control);
  if (!seen) return seen.error();
  const auto downOf = [&](const Seen& s) {
    return seenDown(*s.adjustment, 0, s.outline.vertices.front().at,
                    photos[sights->used.front()].exif.orientation);
  };
  if (options.bowMm != 0) {  // the line of the bow is known once the board is
    how.bow = bowAlong(seen->outline, options, downOf(*seen));
    seen = see(photos, *sights, options, how, control);
    if (!seen) return seen.error();
  }
  const Adjustment& adjustment = *seen->adjustment;
  const FoundOutline& found = seen->outline;
  FaceViews& views = seen.value().views;
  const Point down = downOf(*seen);

  ScanResult result;
  result.warnings = sights->warnings;
  result.board = newBoard(options);
  const TiePairs ties = tiesInPlane(options, adjustment, sights->used);
  Result<Placed> placed = options.face == Face::A
                              ? Result<Placed>(placeFaceA(result.board, found, views, down))
                              : placeFaceB(result.board, options, found, ties);
  if (!placed) return placed.error();
  control.report(0.7, "drawing the face");
  const FacePicture face =
      facePicture(views, placed->planeFromBoard, placed->box, options.finestMmPerPx);
  result.facePicture = face.bgr;
  result.board.pictures.push_back(describePicture(face, photos, sights->used, options.face));
  result.board.pictures.back().stage = options.stage;
  result.tag = sights->tag;
  result.outlines = outlinesInPhotos(found, adjustment, sights->used);
  if (result.tag && !result.board.tag) result.board.tag = result.tag;
  result.lens = adjustment.lens(0);
  for (const CardFit& c : adjustment.cards())
    result.cards.push_back({c.number, c.name, c.corners, c.rmsPx});
  Polygon plane;
  for (const OutlineVertex& v : found.vertices) plane.push_back(v.at);
  const Pose boardFromPlane = frameBoard(found, down).boardFromPlane;
  if (options.face == Face::A)
    for (const auto& [stored, seenAt] : ties)
      result.ties.emplace_back(stored, apply(boardFromPlane, seenAt));
  result.advice = adjustment.advice(plane, boardFromPlane);
  for (const std::string& w : adjustment.warnings()) result.warnings.push_back(w);
  addOutlineAdvice(found, result.warnings);
  for (const std::string& w : photoWarnings(views, plane, face.mmPerPx, sights->markers))
    result.warnings.push_back(w);
  control.report(1, "done");
  return result;
}

}  // namespace rackside
