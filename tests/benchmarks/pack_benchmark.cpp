// SPDX-License-Identifier: GPL-3.0-or-later
// How long the pack of a large rack takes and how large its PDF is:
//
//   pack_benchmark RACK [BOARDS]
//
// The boards of RACK, their pictures, parts and plan are repeated in a temporary folder until there
// are BOARDS (50) of them.
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <map>

#include "app/sheets/gui_session.h"
#include "app/sheets/pack.h"
#include "core/storage/rack_folder.h"
#include "tests/core/support/temporary_folder.h"

namespace {

using namespace rackside;
namespace fs = std::filesystem;

// Adds one more set of everything, ids told apart by `suffix`, until there are `boards`.
void repeat(const Rack& from, const fs::path& fromFolder, const std::string& suffix, size_t boards,
            Rack& to, const fs::path& toFolder) {
  const auto renamed = [&](auto& id) { id.text += suffix; };
  std::map<BoardId, bool> taken;
  for (Board board : from.boards) {
    if (to.boards.size() >= boards) break;
    taken[board.id] = true;
    const BoardId old = board.id;
    renamed(board.id);
    board.name += suffix;
    const fs::path folder = boardFolder(toFolder, board.id);
    fs::create_directories(folder);
    for (const Picture& picture : board.pictures)
      fs::copy_file(boardFolder(fromFolder, old) / picture.file, folder / picture.file);
    to.boards.push_back(std::move(board));
  }
  if (!from.plan) return;
  for (Blank blank : from.plan->blanks) {
    if (!taken.contains(blank.board)) continue;
    renamed(blank.id), renamed(blank.board), renamed(blank.lastCut);
    to.plan->blanks.push_back(std::move(blank));
  }
  for (Piece piece : from.plan->pieces) {
    if (!taken.contains(piece.board)) continue;
    renamed(piece.id), renamed(piece.board), renamed(piece.blank), renamed(piece.part);
    to.plan->pieces.push_back(std::move(piece));
  }
  for (Cut cut : from.plan->cuts) {
    if (!taken.contains(cut.board)) continue;
    renamed(cut.id), renamed(cut.board);
    if (cut.parent) renamed(*cut.parent);
    to.plan->cuts.push_back(std::move(cut));
  }
  for (Part part : from.parts) {
    renamed(part.id);
    part.name += suffix;
    to.parts.push_back(std::move(part));
  }
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::puts("pack_benchmark RACK [BOARDS]");
    return 2;
  }
  const auto small = loadRack(argv[1]);
  if (!small || small->boards.empty()) {
    std::puts("This folder holds no rack with boards.");
    return 1;
  }
  const size_t boards = argc > 2 ? std::stoul(argv[2]) : 50;
  const tests::TemporaryFolder folder;
  Rack rack = *small;
  rack.boards.clear(), rack.parts.clear();
  if (rack.plan) rack.plan->blanks.clear(), rack.plan->pieces.clear(), rack.plan->cuts.clear();
  for (int n = 1; rack.boards.size() < boards; ++n)
    repeat(*small, argv[1], "-" + std::to_string(n), boards, rack, folder.path());

  const sheets::GuiSession gui;
  const auto start = std::chrono::steady_clock::now();
  const auto pack = sheets::packPdf(rack, folder.path(), {});
  const double seconds =
      std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  if (!pack) {
    std::puts(pack.error().message.c_str());
    return 1;
  }
  std::printf("%zu boards, %zu pieces: %d pages, %.1f MB, %.2f s\n", rack.boards.size(),
              rack.plan ? rack.plan->pieces.size() : 0, pack->pages,
              double(pack->bytes.size()) / 1e6, seconds);
}
