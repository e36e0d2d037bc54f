// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/trade/milling_route.h"

#include <algorithm>
#include <cmath>

#include "core/plan/drying.h"

namespace rackside {
namespace {

// Square stock of at least this section is milled as a leg, square within so much (common practice,
// no source, as are the steps and their cautions).
constexpr double kLegFromMm = 30;
constexpr double kSquareWithinMm = 1;
const char* const kHands =
    "Hands 150 mm (6 in) from the blade, push blocks when nearer; guard and riving knife on.";
const char* const kJointer = "Push blocks on the jointer, never a hand over the cutters.";
const char* const kSled =
    "A stiff flat sled; shims fixed under every hollow so that nothing rocks or slides; a stop at "
    "its end.";
const char* const kHandPlane =
    "Clamp it so that it cannot slide; winding sticks and a straight edge tell when it is flat.";
const char* const kTaper =
    "Taper in a jig or on a sled, the piece clamped to it where a hand would come near.";

class Writer {
 public:
  Writer(const Blank& blank, const Shop& shop, double roughThicknessMm)
      : shop_(shop), size_{blank.roughLengthMm, blank.roughWidthMm, roughThicknessMm} {
    route_.blank = blank.id;
    route_.rough = size_;
  }

  void add(MillingStepKind kind, const std::string& what, const std::string& caution = {}) {
    route_.steps.push_back({kind, what, caution, size_});
  }
  std::string mm(double length) const { return formatLength(length, shop_.show); }
  MillingSize& size() { return size_; }
  const MillingSize& size() const { return size_; }
  const Shop& shop() const { return shop_; }
  MillingRoute take() { return std::move(route_); }

 private:
  const Shop& shop_;
  MillingSize size_;
  MillingRoute route_;
};

// A piece of the blank: its own finished size, which for a strip of a panel is not the part's.
struct Held {
  const Part* part = nullptr;
  std::string title;
  MillingSize size;
  bool strip = false;
  double acrossMm = 0;  // of its near edge in the blank: pieces side by side differ
};

double nearEdgeMm(const Blank& blank, const Piece& piece) {
  const double angle = blank.boardFromBlank.angleRad;
  double least = piece.outline.empty() ? 0 : 1e300;
  for (const Point q : piece.outline) {
    const Point p = q - blank.boardFromBlank.origin;
    least = std::min(least, p.y * std::cos(angle) - p.x * std::sin(angle));
  }
  return least;
}

Held heldOf(const Blank& blank, const Piece& piece, const Part& part) {
  const bool strip = piece.kind == PieceKind::panelStrip;
  return {&part,
          part.name + (strip ? ", strip " + std::to_string(piece.strip) : std::string()),
          {piece.lengthMm, piece.widthMm, part.thicknessMm},
          strip,
          nearEdgeMm(blank, piece)};
}

// Pieces that lie end to end, row by row across the blank.
std::vector<std::vector<Held>> rowsOf(const std::vector<Held>& held) {
  constexpr double kSameMm = 0.5;
  std::vector<std::vector<Held>> rows;
  for (const Held& h : held) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const std::vector<Held>& r) {
      return std::abs(r[0].acrossMm - h.acrossMm) < kSameMm;
    });
    if (row == rows.end())
      rows.push_back({h});
    else
      row->push_back(h);
  }
  return rows;
}

bool isLeg(const Held& held) {
  return !held.strip && held.size.thicknessMm >= kLegFromMm &&
         std::abs(held.size.widthMm - held.size.thicknessMm) <= kSquareWithinMm;
}

bool isTapered(const Part& part) {
  return part.outline &&
         std::abs(signedArea(*part.outline)) < part.lengthMm * part.widthMm * (1 - 1e-6);
}

// A rough edge never goes against a fence: the outline is sawn along a line.
void roughSteps(Writer& w) {
  w.add(MillingStepKind::roughCut,
        "Cut out rough, " + w.mm(w.size().lengthMm) + " × " + w.mm(w.size().widthMm) +
            ": crosscut, then along a straight line with a guided (track) saw or on the bandsaw, "
            "not against a fence. Label one end.",
        kHands);
  if (w.size().lengthMm < w.shop().shortestSafeMm)
    w.add(MillingStepKind::gang,
          "Shorter than " + w.mm(w.shop().shortestSafeMm) +
              ": mill it joined end to end with another piece and part them afterwards.",
          "Short stock tips into the cutters; the machine's manual gives its least length.");
  if (w.shop().snipeMm > 0)
    w.add(MillingStepKind::roughCut,
          "The planer spoils " + w.mm(w.shop().snipeMm) +
              " at each end: keep that much waste there until it is cut to length.");
}

// Wood that is wetter than the shop comes to its size before it is milled.
void dryFirst(Writer& w, const Board& board) {
  const Drying drying = dryingOf(board, w.shop());
  if (!drying.any()) return;
  const MillingSize wet = w.size();
  w.size().widthMm *= 1 - drying.acrossShare;
  w.size().thicknessMm *= 1 - drying.thicknessShare;
  w.add(MillingStepKind::dry,
        "Wetter than the shop: let it dry on sticks, air on all sides, until the meter shows " +
            std::to_string(std::lround(w.shop().shopMoisturePercent)) + " %; it loses about " +
            w.mm(wet.widthMm - w.size().widthMm) + " of width and " +
            w.mm(wet.thicknessMm - w.size().thicknessMm) + " of thickness.");
}

bool fitsJointer(const Writer& w) {
  return w.size().widthMm <= w.shop().jointerWidthMm;
}
bool fitsPlaner(const Writer& w) {
  return w.size().widthMm <= w.shop().planerWidthMm;
}

// Two pieces of a blank, each with what jointing takes for the glue line.
double halfWidthMm(const Writer& w) {
  return w.size().widthMm / 2 + w.shop().glueLineAllowanceMm;
}

std::string tooWideWords(const Writer& w) {
  std::string words =
      "Wider than the planer (" + w.mm(w.shop().planerWidthMm) + "): flatten it with hand planes";
  if (halfWidthMm(w) <= w.shop().planerWidthMm)
    words += ", or saw it into halves along a line, mill each and glue them up again";
  return words + ", or have it planed on a wider machine elsewhere";
}

void firstFace(Writer& w, double takeMm) {
  w.size().thicknessMm -= takeMm;
  if (fitsJointer(w)) {
    w.add(MillingStepKind::face,
          "Flatten one face on the jointer; takes about " + w.mm(takeMm) + ".", kJointer);
  } else if (fitsPlaner(w)) {
    w.add(MillingStepKind::sledFace,
          "Wider than the jointer: flatten one face on the planer over a sled; takes about " +
              w.mm(takeMm) + ".",
          kSled);
    w.add(MillingStepKind::turn, "Turn it over: the flat face now runs on the planer's bed.");
  } else {
    w.add(MillingStepKind::byHand, tooWideWords(w) + "; one face takes about " + w.mm(takeMm) + ".",
          kHandPlane);
  }
}

void firstEdge(Writer& w) {
  w.size().widthMm -= w.shop().widthAllowanceMm / 2;
  if (fitsPlaner(w))
    w.add(MillingStepKind::edge, "True one edge square to the flat face.", kJointer);
  else
    w.add(MillingStepKind::edge,
          "Saw one edge straight with a guided (track) saw, or plane it true by hand: it is "
          "unwieldy on the jointer.",
          kHands);
}

void toThickness(Writer& w, MillingStepKind kind, const std::string& machine,
                 const std::string& byHand, const char* caution) {
  w.add(fitsPlaner(w) ? kind : MillingStepKind::byHand, fitsPlaner(w) ? machine : byHand,
        fitsPlaner(w) ? caution : kHandPlane);
}

void firstMilling(Writer& w, double finishedMm) {
  const double spare = w.size().thicknessMm - finishedMm;
  const double rest = std::min(w.shop().restAllowanceMm, spare / 2);
  firstFace(w, (spare - rest) / 2);
  firstEdge(w);
  w.size().thicknessMm = finishedMm + rest;
  const std::string kept = w.mm(w.size().thicknessMm) + "; " + w.mm(rest) + " are kept.";
  toThickness(w, MillingStepKind::thickness, "Plane parallel to " + kept,
              "Bring the other face parallel the same way, to " + kept, "");
  w.add(MillingStepKind::rest,
        "Let it rest on sticks, air on all sides, for some days: opened wood moves.");
}

// Once it has rested the face and the edge are made true anew before the last thickness.
void secondMilling(Writer& w, double finishedMm) {
  w.size().thicknessMm = finishedMm;
  const std::string on = fitsJointer(w) ? "on the jointer" : "over the sled";
  toThickness(w, MillingStepKind::final,
              "True it again: one face flat " + on + ", the edge square to it, then plane to " +
                  w.mm(finishedMm) + ", taking alike from both faces.",
              "True it again: one face flat by hand or on the wider machine, the edge square to "
              "it, then to " +
                  w.mm(finishedMm) + ", taking alike from both faces.",
              kJointer);
}

// Pieces side by side are ripped from the milled blank one after the other.
void ripToWidth(Writer& w, const std::vector<Held>& held) {
  const double finishedMm = held[0].size.widthMm;
  w.size().widthMm = finishedMm;
  std::string what = "Rip to " + w.mm(finishedMm) + " with the true edge along the fence.";
  if (const auto rows = rowsOf(held); rows.size() > 1) {
    what = "Rip the pieces from it in turn, with the true edge along the fence: ";
    for (size_t i = 0; i < rows.size(); ++i)
      what += (i > 0 ? ", " : "") + rows[i][0].title + " " + w.mm(rows[i][0].size.widthMm);
    what += ".";
  }
  std::string caution;
  if (finishedMm < w.shop().narrowestSafeMm)
    caution = "Narrower than is safe by hand: push stick and feather board. ";
  w.add(MillingStepKind::rip, what, caution.append(kHands));
}

// Stock for legs is brought to size from all four sides by turns, so that they come square.
void legMilling(Writer& w, const Held& leg) {
  const double finished = leg.size.thicknessMm, rough = w.shop().legAllowanceMm, kept = rough / 2;
  const auto over = [&](double allowance) {
    w.size().thicknessMm = std::min(w.size().thicknessMm, finished + allowance);
    w.size().widthMm = std::min(w.size().widthMm, leg.size.widthMm + allowance);
  };
  over(rough);
  w.add(MillingStepKind::rip,
        "Saw the leg from the rough along a line, " + w.mm(rough) +
            " over size, on the bandsaw or with a guided (track) saw: no edge is true yet for a "
            "fence.",
        kHands);
  over((rough + kept) / 2);
  w.add(MillingStepKind::face, "Flatten one face.", kJointer);
  w.add(MillingStepKind::edge, "True one edge square to it.", kJointer);
  over(kept);
  w.add(MillingStepKind::thickness, "Plane the other two sides to " + w.mm(kept) + " over.");
  w.add(MillingStepKind::rest,
        "Let it rest for some days; true a face and an edge again if it moved.");
  w.size().thicknessMm = finished;
  w.size().widthMm = leg.size.widthMm;
  w.add(MillingStepKind::square,
        "Plane to " + w.mm(finished) + " square, turning a quarter at each pass.");
}

void finish(Writer& w, const std::vector<Held>& held) {
  w.add(MillingStepKind::relabel,
        "Write the label again on a face that will not show: the labelled end goes now.");
  w.size().lengthMm = held.front().size.lengthMm;
  std::string cut = held.size() == 1 ? "Square one end, cut to length: "
                                     : "Square one end, then cut the pieces from it in turn: ";
  for (size_t i = 0; i < held.size(); ++i)
    cut += (i > 0 ? ", " : "") + held[i].title + " " + w.mm(held[i].size.lengthMm);
  std::string caution;
  if (held.front().size.lengthMm < w.shop().shortestSafeMm)
    caution = "A short piece: clamp it, a stop block clear of the blade. ";
  w.add(MillingStepKind::length, cut + ".", caution.append(kHands));
  for (const Held& h : held)
    if (isTapered(*h.part) && !h.strip)
      w.add(MillingStepKind::taper,
            "Shape " + h.title + " to its outline: sawn " + w.mm(w.shop().curvedAllowanceMm) +
                " outside the line, then worked to it.",
            std::string(kTaper).append(" ").append(kHands));
}

std::string faultOf(const MillingSize& rough, const std::vector<Held>& held) {
  double widthMm = 0;
  for (const std::vector<Held>& row : rowsOf(held)) {
    double lengthMm = 0;
    for (const Held& h : row) {
      lengthMm += h.size.lengthMm;
      if (h.size.widthMm > rough.widthMm) return "narrower than " + h.title;
      if (h.size.thicknessMm > rough.thicknessMm) return "thinner than " + h.title;
    }
    if (lengthMm > rough.lengthMm) return "shorter than what it holds";
    widthMm += row[0].size.widthMm;
  }
  return widthMm > rough.widthMm ? "narrower than what it holds" : "";
}

}  // namespace

Result<MillingRoute> millingRoute(const Board& board, const Blank& blank,
                                  const std::vector<Piece>& pieces, const std::vector<Part>& parts,
                                  const Shop& shop) {
  std::vector<Held> held;
  for (const Piece& piece : pieces) {
    const auto part = std::find_if(parts.begin(), parts.end(),
                                   [&piece](const Part& p) { return p.id == piece.part; });
    if (part == parts.end())
      return Error{
          "A piece of the plan belongs to a part that is no longer in the list. Plan again."};
    held.push_back(heldOf(blank, piece, *part));
  }
  if (held.empty()) return Error{"A blank of the plan holds no piece. Plan again."};
  Writer w(blank, shop, board.thicknessMm);
  if (const std::string wrong = faultOf(w.size(), held); !wrong.empty())
    return Error{"A blank of the plan is " + wrong + ". Plan again."};
  roughSteps(w);
  dryFirst(w, board);
  const Held& first = held.front();
  if (isLeg(first)) {
    legMilling(w, first);
  } else {
    firstMilling(w, first.size.thicknessMm);
    secondMilling(w, first.size.thicknessMm);
    ripToWidth(w, held);
  }
  finish(w, held);
  return w.take();
}

}  // namespace rackside
