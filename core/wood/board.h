// SPDX-License-Identifier: GPL-3.0-or-later
// A board as measured: its outline with what is known of each stretch, its faces' pictures, its
// marks.
//
// Board frame (fixed and stored at the first scan, so that marks never move): millimetres; x along
// the board's axis (the least-squares line through the middles of its cross sections) from the left
// end, y across from the near edge, origin at the corner of the outline's box along that axis,
// right-handed, z up out of face A. Face B is stored in the same frame, so one (x, y) is one place
// in the wood.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/kept_keys.h"
#include "core/geometry/polygon.h"
#include "core/wood/mark.h"

namespace rackside {

// How a stretch of the outline is known: seen; seen but doubtful; hidden (by a card) and bridged;
// drawn by the maker.
enum class EdgeState { sure, unsure, bridged, drawn };

struct OutlineVertex {
  Point at;
  double sigmaMm =
      0;  // one standard deviation along the outline's normal, of finding the edge alone
  EdgeState state = EdgeState::sure;  // of the stretch from this vertex to the next
};

// One standard deviation of how the whole measured plane may be off, as a smooth displacement field
// shared by every point: the modes are independent, so variances add. A cubic in u = x/1000, v =
// y/1000: d(u,v) = Σ coefficient[k]·monomial[k], monomials 1, u, v, u², uv, v², u³, u²v, uv², v³
// (mm).
struct PlaneMode {
  enum class Cause { adjustment, cardScale };  // cardScale enters u95_total only
  Cause cause = Cause::adjustment;
  std::array<double, 10> dx{};
  std::array<double, 10> dy{};
};

struct Outline {
  std::vector<OutlineVertex> vertices;  // counter-clockwise, closed
  std::vector<PlaneMode> planeModes;
  Polygon polygon() const;
};

// A number with its 95 % uncertainty: `u95` given the cards' declared scale, `u95Total` with the
// prior of an unchecked print added.
struct Measured {
  double value = 0;
  double u95 = 0;
  double u95Total = 0;
};

enum class FaceStage { greyRough, windowPlaned, skimmed, planed };
enum class Sawn { unknown, flat, rift, quarter };
// What a board stands by for; only one that is on the rack is planned on.
enum class BoardState { onRack, setAside, sold, reserved };

// A picture of one face, perspective-true. `boardFromPicture` takes picture pixels (centres at
// integers, y down) to board mm: x = m[0] px + m[1] py + m[2], y = m[3] px + m[4] py + m[5].
struct Picture {
  PictureId id;
  Face face = Face::A;
  FaceStage stage = FaceStage::greyRough;
  std::string file;               // relative to the folder of the board that holds it
  std::optional<BoardId> heldBy;  // none: the board's own; an offcut's are its parent's
  int widthPx = 0;
  int heightPx = 0;
  double mmPerPx = 0;
  std::array<double, 6> boardFromPicture{};
  std::vector<std::string> sourceHashes;  // SHA-256 of the photographs it was made from
  std::string takenAt;                    // ISO 8601, from the photographs, may be empty
  KeptKeys extra;
};

struct MoistureReading {
  double percent = 0;                  // corrected, where the meter was corrected
  std::optional<double> meterPercent;  // what it showed, where that was corrected
  std::optional<double> woodCelsius;   // at which
  std::string date;                    // ISO 8601
  KeptKeys extra;
};

struct FaceRegistration {  // face B against face A
  double u95Mm = 0;
  std::string how;  // "outline", "tie points", …
};

struct Board {
  BoardId id;
  std::string name;
  std::optional<int> tag;  // number of the printed board tag
  std::string place;       // where it stands on the rack
  std::string species;
  double thicknessMm = 0;     // rough, as measured
  std::string thicknessSaid;  // as the maker said it, "8/4"; empty: as a length
  bool airDried = false;      // graded without the allowances of kiln-dried lumber
  Outline outline;
  std::vector<Measured> widthsMm;  // chord across at x = 100 mm · (index + 1)
  Measured lengthMm;
  std::vector<Picture> pictures;  // several a face, the last of a face is the newest
  std::optional<FaceRegistration> faceB;
  std::vector<Mark> marks;    // suggestions, which nobody took yet, among them
  std::vector<Mark> refused;  // suggestions that the maker refused: they do not come back
  Sawn sawn = Sawn::unknown;
  std::optional<Face> barkSide;
  std::vector<MoistureReading> moisture;
  // Deviations over the whole board, mm, as entered or read: greatest gap from an end-to-end line
  // (bow flatwise), across the width (cup), of one corner from the plane of the others (twist).
  double bowMm = 0, cupMm = 0, twistMm = 0;
  double pricePerBoardFoot = 0;
  BoardState state = BoardState::onRack;
  std::string stateNote;  // the reason, the buyer, the project
  // An offcut: the board it was sawn from; its pictures are in that board's folder.
  std::optional<BoardId> offcutOf;
  // A sawn end has no checks and grit to trim away.
  bool leftEndSawn = false, rightEndSawn = false;
  bool cutUp = false;  // cutting is done: what is left of it is pieces, offcuts and waste
  std::string note;
  KeptKeys extra;

  const Picture* newestPicture(Face f) const;
  // Sold, reserved or set aside: nothing is planned on it.
  bool isSpokenFor() const { return state != BoardState::onRack; }
  bool seen(Face f) const { return newestPicture(f) != nullptr; }
  const Mark* findMark(const MarkId& markId) const;
};

// "set aside (live insects)", "reserved for the blanket chest"; empty on the rack.
std::string stateWords(const Board& board);
// Live insects are kept away from the rack.
void setAsideAlive(Board& board);

std::string_view name(EdgeState s);
std::string_view name(FaceStage s);
std::string_view name(Sawn s);
std::string_view name(Face f);        // "A", "B"
std::string_view name(BoardState s);  // "on-rack", "set-aside", …
std::optional<EdgeState> edgeStateFromName(std::string_view s);
std::optional<FaceStage> faceStageFromName(std::string_view s);
std::optional<Sawn> sawnFromName(std::string_view s);
std::optional<Face> faceFromName(std::string_view s);
std::optional<BoardState> boardStateFromName(std::string_view s);

}  // namespace rackside
