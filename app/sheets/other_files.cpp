// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/sheets/other_files.h"

#include <cctype>

#include "app/sheets/face_file.h"
#include "app/sheets/tables_csv.h"
#include "app/sheets/vector_files.h"
#include "core/storage/atomic_file.h"
#include "core/storage/durable_file.h"

namespace rackside::sheets {
namespace {

// Names of boards are people's: what a file system may mistake is replaced.
std::string fileStem(const Board& board) {
  std::string stem = "board-" + board.name;
  for (char& c : stem)
    if (!std::isalnum(static_cast<unsigned char>(c)) && c != '-' && c != '_') c = '_';
  return stem;
}

}  // namespace

Files drawingFiles(const Rack& rack, DrawingFormat format, const std::filesystem::path& folder) {
  Files files;
  for (const Board& board : rack.boards) {
    const auto layers = boardLayers(rack, board);
    if (format == DrawingFormat::svg)
      files[folder / (fileStem(board) + ".svg")] = svgText(layers, "Board " + board.name);
    else
      files[folder / (fileStem(board) + ".dxf")] = dxfText(layers);
  }
  return files;
}

Files tableFiles(const Rack& rack, const std::filesystem::path& folder) {
  Files files;
  for (auto& [name, text] : csvTables(rack)) files[folder / name] = text;
  return files;
}

Status writeFiles(const Files& files) {
  for (const auto& [file, bytes] : files) {
    if (const Status s = makeFolders(file.parent_path()); !s) return s;
    if (const Status s = writeFileAtomically(file, bytes); !s) return s;
  }
  return success();
}

Result<std::vector<std::filesystem::path>> writeFaceFiles(const Rack& rack,
                                                          const std::filesystem::path& rackFolder,
                                                          const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> written;
  for (const Board& board : rack.boards)
    for (const Face face : {Face::A, Face::B}) {
      if (!board.seen(face)) continue;
      auto made = faceFile(board, face, rackFolder);
      if (!made) return made.error();
      const auto stem = (folder / (fileStem(board) + "-" + std::string(name(face)))).string();
      FaceFile shown = std::move(made).value();
      Files pair;
      pair[stem + ".png"] = std::move(shown.png);
      pair[stem + ".pgw"] = std::move(shown.world);
      if (const Status s = writeFiles(pair); !s) return s.error();
      for (const auto& [file, bytes] : pair) written.push_back(file);
    }
  return written;
}

}  // namespace rackside::sheets
