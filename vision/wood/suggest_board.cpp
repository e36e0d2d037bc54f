// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/suggest_board.h"

#include "core/base/progress_part.h"
#include "core/document/edits.h"
#include "vision/wood/crayon/crayon_marks.h"
#include "vision/wood/figure_cache.h"
#include "vision/wood/sapwood.h"

namespace rackside {
namespace {

// What one face is not sure of the other may confirm: looked for down to this share of the bar.
constexpr double kShareForTwins = 0.6;

// Where sapwood begins, read off the face's figure; nothing on a grey face.
void addSapwood(const Board& board, Face side, const std::filesystem::path& boardFolder,
                RunControl& run, std::vector<Mark>& marks) {
  // RACK/boards/<board id>
  const auto rackFolder = boardFolder.parent_path().parent_path();
  const auto figure = figureOf(board, side, rackFolder, defaultCacheFolder(), run);
  if (!figure) return;  // the face was read above: what fails here is said there
  for (Mark& m : sapwoodMarks(board, side, *figure)) marks.push_back(std::move(m));
}

}  // namespace

Result<BoardSuggestions> suggestForBoard(const Board& board,
                                         const std::filesystem::path& boardFolder,
                                         const SuggestOptions& options, RunControl& run) {
  BoardSuggestions out;
  std::optional<MarkModel> own;
  if (options.wood && !options.model.empty()) {
    auto read = readMarkModel(options.model);
    if (!read) return read.error();
    own = std::move(read).value();
  }
  const MarkModel& model = own ? *own : builtInMarkModel();
  std::array<std::vector<Mark>, 2> found;
  for (const Face side : {Face::A, Face::B}) {
    if (!board.seen(side)) continue;
    const double share = board.seen(otherFace(side)) ? 0.5 : 1,
                 from = side == Face::B ? 1 - share : 0;
    const ProgressPart part(run, from, from + share, "face " + std::string(name(side)) + ": ");
    run.report(0, "reading the picture");
    auto face = boardFace(board, side, boardFolder);
    if (!face) return face.error();
    FaceToRead& picture = face.value().face;
    if (options.crayon) {
      const CrayonReading reading = readCrayon(picture, *options.crayon);
      for (Mark& m : crayonMarks(reading.strokes, *face, board, side))
        out.crayon.push_back(std::move(m));
      picture.wood.setTo(0, reading.covered);
    }
    const double bar = board.seen(otherFace(side)) ? kShareForTwins : 1;
    if (options.wood) {
      found[static_cast<size_t>(side)] =
          marksFrom(proposeMarks(picture, model, run, bar), *face, board, side);
      if (const auto weak = weaknessOf(picture))
        out.remarks.push_back("Face " + std::string(name(side)) + " of board " + board.name +
                              ": proposals are weak here, " + *weak + ".");
    }
    if (run.shouldEnd()) return Error{"Looking for marks was stopped; nothing was changed."};
    out.facesLookedAt.push_back(side);
  }
  if (out.facesLookedAt.empty())
    return Error{"Board " + board.name + " has no picture to look at: scan it first."};
  out.wood = joinFaces(std::move(found[0]), std::move(found[1]), board, model);
  if (options.wood) {
    for (const Face side : out.facesLookedAt) addSapwood(board, side, boardFolder, run, out.wood);
  }
  return out;
}

std::unique_ptr<Edit> editOf(const Board& board, const SuggestOptions& options,
                             BoardSuggestions found) {
  std::vector<std::unique_ptr<Edit>> edits;
  if (options.crayon)
    edits.push_back(suggestMarks(board.id, MarkAuthor::crayon, std::move(found.crayon)));
  if (options.wood)
    edits.push_back(suggestMarks(board.id, MarkAuthor::proposal, std::move(found.wood)));
  return together("Look for marks", std::move(edits));
}

}  // namespace rackside
