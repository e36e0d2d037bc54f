// SPDX-License-Identifier: GPL-3.0-or-later
#include "random_rack.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "core/plan/plan_basis.h"

namespace rackside::tests {

std::string RandomRack::id(const char* prefix) {
  return seededIdText(prefix, random_(), next_++);
}

std::string RandomRack::word() {
  static const std::vector<std::string> words = {
      "", "cherry", "ash 2", "Bücher", "end \"grain\"", "a\\b\nc", "Esche №", "left, of; wall\t"};
  return words[static_cast<size_t>(whole(0, static_cast<int>(words.size()) - 1))];
}

// Keys of some later version, nested, as they would stand in a file.
nlohmann::json RandomRack::unknown() {
  if (maybe()) return nlohmann::json::object();
  return {{"x_later", whole(0, 9)}, {"x_nested", {{"deep", {1, 2, word()}}}}};
}

MarkShape RandomRack::shape() {
  const Point at{real(0, 2000), real(0, 200)};
  switch (whole(0, 2)) {
    case 0:
      return rectangle({at.x, at.y, at.x + real(1, 90), at.y + real(1, 40)});
    case 1:
      return Ellipse{at, real(1, 40), real(1, 40), real(-3, 3)};
    default:
      return Stroke{{at, at + Point{real(5, 90), real(-5, 5)}}, maybe() ? 0 : real(0, 4)};
  }
}

Mark RandomRack::mark() {
  Mark m;
  m.id.text = id("mark");
  m.kind = any<MarkKind>(static_cast<int>(allMarkKinds().size()));
  const int faces = whole(1, 3);
  if (faces & 1) m.onA = shape();
  if (faces & 2) m.onB = shape();
  m.through = maybe(0.3);
  if (!m.through && maybe()) {
    m.depthMm = real(0.1, 20);
    m.depthFrom = any<Face>(2);
  }
  const bool mayBeSound = m.kind == MarkKind::knot || m.kind == MarkKind::wormHoles;
  if (mayBeSound) m.soundness = any<Soundness>(3);
  m.live = m.kind == MarkKind::wormHoles && maybe();
  m.author = any<MarkAuthor>(3);
  m.confidence = real(0, 1);
  m.confirmed = maybe();
  m.note = word();
  m.extra = unknown();
  return m;
}

Outline RandomRack::outline() {
  Outline o;
  const double length = real(900, 3000), width = real(90, 300);
  for (const Point p : rectangle({0, 0, length, width}))
    o.vertices.push_back({p, real(0, 1), any<EdgeState>(4)});
  for (int i = whole(0, 3); i > 0; --i) {
    PlaneMode mode;
    mode.cause = any<PlaneMode::Cause>(2);
    for (size_t k = 0; k < mode.dx.size(); ++k) {
      mode.dx[k] = real(-1, 1);
      mode.dy[k] = real(-1, 1);
    }
    o.planeModes.push_back(mode);
  }
  return o;
}

Picture RandomRack::picture() {
  Picture p;
  p.id.text = id("picture");
  p.face = any<Face>(2);
  p.stage = any<FaceStage>(4);
  p.file = "face-" + p.id.text + ".jpg";
  if (maybe()) p.heldBy = BoardId{id("board")};
  p.widthPx = whole(1, 9000);
  p.heightPx = whole(1, 3000);
  p.mmPerPx = real(0.1, 1);
  for (double& m : p.boardFromPicture) m = real(-1, 1);
  p.sourceHashes = {word(), "aa"};
  p.takenAt = "2025-03-0" + std::to_string(whole(1, 9)) + "T10:00:00";
  p.extra = unknown();
  return p;
}

Board RandomRack::board() {
  Board b;
  b.id.text = id("board");
  b.name = word();
  if (maybe()) b.tag = whole(1, 999);
  b.place = word();
  b.species = word();
  b.thicknessMm = real(15, 60);
  b.outline = outline();
  for (int i = whole(0, 9); i > 0; --i)
    b.widthsMm.push_back({real(90, 300), real(0, 2), real(0, 3)});
  b.lengthMm = {real(900, 3000), real(0, 2), real(0, 5)};
  for (int i = whole(0, 3); i > 0; --i) b.pictures.push_back(picture());
  if (maybe()) b.faceB = FaceRegistration{real(0, 3), "tie points"};
  for (int i = whole(0, 6); i > 0; --i) b.marks.push_back(mark());
  for (int i = whole(0, 2); i > 0; --i) b.refused.push_back(mark());
  b.sawn = any<Sawn>(4);
  if (maybe()) b.barkSide = any<Face>(2);
  for (int i = whole(0, 2); i > 0; --i)
    b.moisture.push_back({real(6, 20), {}, {}, "2025-01-02", unknown()});
  b.bowMm = real(0, 9);
  b.cupMm = real(0, 9);
  b.twistMm = real(0, 9);
  b.pricePerBoardFoot = real(3, 15);
  if (maybe(0.1)) b.state = any<BoardState>(4);
  if (b.isSpokenFor()) b.stateNote = "the blanket chest";
  if (maybe(0.3)) b.thicknessSaid = "8/4";
  b.airDried = maybe(0.3);
  if (maybe()) b.offcutOf = BoardId{id("board")};
  b.leftEndSawn = maybe();
  b.rightEndSawn = maybe();
  b.cutUp = maybe(0.2);
  b.note = word();
  b.extra = unknown();
  return b;
}

FaceAllows RandomRack::face() {
  return {maybe(), maybe(), maybe(), any<SapwoodRule>(3)};
}

Part RandomRack::part() {
  Part p;
  p.id.text = id("part");
  p.name = "part " + word();
  p.copies = whole(1, 12);
  p.lengthMm = real(100, 1800);
  p.widthMm = real(30, 400);
  p.thicknessMm = real(8, 45);
  p.grain = any<GrainRule>(2);
  p.grainToleranceDeg = real(0, 45);
  p.showing = any<Showing>(3);
  p.show = face();
  p.back = face();
  p.look = any<Look>(5);
  p.species = word();
  p.glueUp = {maybe(), real(30, 60), real(60, 200)};
  p.matchGroup = word();
  if (maybe(0.3)) p.outline = Polygon{{0, 0}, {p.lengthMm, 0}, {0, p.widthMm}};
  p.value = real(0, 100);
  p.note = word();
  p.extra = unknown();
  return p;
}

Shop RandomRack::shop() {
  Shop s;
  s.ripKerfMm = real(1, 4);
  s.endTrimMm = real(0, 100);
  s.planerWidthMm = real(250, 600);
  s.lookWeight = real(0, 1);
  s.stockWeight = real(1, 9);
  s.offcutWeight = real(0, 1);
  s.restAllowanceMm = real(0, 5);
  s.widePartMm = real(100, 300);
  for (auto& [kind, mm] : s.clearanceMm) mm = real(0, 30);
  s.show = {any<UnitSystem>(2), whole(0, 2), 1 << whole(0, 6)};
  s.extra = unknown();
  return s;
}

Plan RandomRack::plan(const Rack& of) {
  Plan plan;
  for (const Board& board : of.boards) {
    Cut cut;
    cut.id.text = id("cut");
    cut.board = board.id;
    cut.order = 1;
    cut.kind = any<CutKind>(4);
    cut.line = {{real(0, 900), 0}, {real(0, 900), 100}};
    cut.kerfMm = 3.2;
    if (maybe()) cut.parent = CutId{id("cut")};
    cut.made = maybe();
    if (maybe()) cut.planned = Segment{{real(0, 900), 0}, {real(0, 900), 100}};
    cut.label = word();
    cut.firstRip = maybe();
    cut.offsetAtFromMm = real(0, 20);
    cut.offsetAtToMm = real(0, 20);
    cut.extra = unknown();
    Blank blank;
    blank.id.text = id("blank");
    blank.board = board.id;
    blank.boardFromBlank = {{real(0, 9), real(0, 9)}, real(-1, 1)};
    blank.roughLengthMm = real(300, 900);
    blank.remarks = {"turned for flattening", word()};
    blank.lastCut = cut.id;
    blank.extra = unknown();
    Piece piece;
    piece.id.text = id("piece");
    piece.kind = any<PieceKind>(2);
    piece.part = of.parts.empty() ? PartId{"part-none"} : of.parts.front().id;
    piece.blank = blank.id;
    piece.board = board.id;
    piece.showFace = any<Face>(2);
    piece.outline = rectangle({10, 10, 500, 80});
    piece.worth = real(0, 3);
    piece.extra = unknown();
    plan.cuts.push_back(cut);
    plan.blanks.push_back(blank);
    plan.pieces.push_back(piece);
    Unplaced unplaced{piece.part, 2, "no board is long enough", std::nullopt, {}, unknown()};
    if (maybe()) unplaced.remedies.push_back({"allowance", board.id, real(0, 9), word()});
    Spare spare{piece.id, std::nullopt, {}, false, unknown()};
    if (maybe()) spare = {piece.id, board.id, {1, 2, real(3, 900), 80}, maybe(), unknown()};
    plan.spares.push_back(spare);
    plan.score.push_back({"parts", 1, real(0, 9), real(0, 9), word()});
    plan.panels.push_back({piece.part, 1, 1.6, {piece.id}, {piece.id}, {0}, {word()}, unknown()});
    if (maybe()) unplaced.nearest = Unplaced::Nearest{board.id, real(1, 90), "length"};
    plan.unplaced.push_back(unplaced);
  }
  plan.value = real(0, 9);
  plan.bound = plan.value + real(0, 1);
  plan.stockMm2 = real(0, 1e6);
  plan.stockBound = real(0, 1e6);
  plan.remarks = {word(), word()};
  plan.stopped = word();
  plan.seconds = real(0, 60);
  plan.seed = static_cast<unsigned long long>(random_()) << 32U;
  plan.extra = unknown();
  noteBasis(plan, basisOf(of.boards, of.parts, of.shop));
  return plan;
}

Rack RandomRack::rack(int boards, int parts) {
  Rack r;
  for (int i = 0; i < boards; ++i) r.boards.push_back(board());
  for (int i = 0; i < parts; ++i) r.parts.push_back(part());
  r.shop = shop();
  r.partsExtra = unknown();
  if (maybe()) r.plan = plan(r);
  return r;
}

}  // namespace rackside::tests
