// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/wood/figure_cache.h"

#include <cstdlib>
#include <cstring>
#include <sstream>
#include <type_traits>

#include "core/storage/atomic_file.h"
#include "core/storage/rack_folder.h"
#include "vision/photo/sha256.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

// Raised whenever the maps mean something else; older files are then read anew.
constexpr const char* kReading = "rackside figure 7";

class Writer {
 public:
  template <class T>
  void put(const T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  template <class T>
  void putAll(const std::vector<T>& values) {
    put(uint64_t(values.size()));
    bytes_.append(reinterpret_cast<const char*>(values.data()), values.size() * sizeof(T));
  }
  std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_;
};

class Reader {
 public:
  explicit Reader(const std::string& bytes) : bytes_(bytes) {}
  template <class T>
  void take(T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    if (!have(sizeof value)) return;
    std::memcpy(&value, bytes_.data() + at_, sizeof value);
    at_ += sizeof value;
  }
  template <class T>
  void takeAll(std::vector<T>& values) {
    uint64_t count = 0;
    take(count);
    if (whole_ && count > (bytes_.size() - at_) / sizeof(T)) whole_ = false;
    values.clear();
    if (!whole_ || count == 0) return;  // no copy to or from nowhere
    values.resize(count);
    std::memcpy(values.data(), bytes_.data() + at_, count * sizeof(T));
    at_ += count * sizeof(T);
  }
  bool atEnd() const { return whole_ && at_ == bytes_.size(); }

 private:
  bool have(size_t count) {
    whole_ = whole_ && bytes_.size() - at_ >= count;
    return whole_;
  }
  const std::string& bytes_;
  size_t at_ = 0;
  bool whole_ = true;
};

// Calls visit on each fixed field, in the order of the file.
template <class Maps, class Visit>
void eachField(Maps& m, Visit visit) {
  visit(m.area);
  visit(m.cellMm);
  visit(m.columns);
  visit(m.rows);
  visit(m.saw);
  visit(m.light);
  visit(m.colour);
}

fs::path fileOf(const fs::path& cacheFolder, const Picture& picture) {
  return cacheFolder / "figure" / (picture.id.text + ".figure");
}

}  // namespace

fs::path defaultCacheFolder() {
  if (const char* own = std::getenv("RACKSIDE_CACHE"); own && *own) return own;
  if (const char* xdg = std::getenv("XDG_CACHE_HOME"); xdg && *xdg)
    return fs::path(xdg) / "rackside";
  const char* home = std::getenv("HOME");
  return fs::path(home && *home ? home : "/tmp") / ".cache" / "rackside";
}

std::string figureKey(const Board& board, const Picture& picture, const fs::path& pictureFile) {
  std::ostringstream text;
  text.precision(12);
  text << kReading << '\n' << board.species << '\n' << name(picture.stage) << '\n';
  for (const std::string& hash : picture.sourceHashes) text << hash << '\n';
  for (const double m : picture.boardFromPicture) text << m << ' ';
  for (const OutlineVertex& v : board.outline.vertices) text << v.at.x << ' ' << v.at.y << '\n';
  std::error_code ec;
  text << fs::file_size(pictureFile, ec) << ' '
       << fs::last_write_time(pictureFile, ec).time_since_epoch().count();
  const std::string s = text.str();
  return sha256Hex({s.begin(), s.end()});
}

std::optional<FigureMaps> readFigure(const fs::path& cacheFolder, const Picture& picture,
                                     const std::string& key) {
  const auto bytes = readFile(fileOf(cacheFolder, picture));
  if (!bytes || bytes->compare(0, key.size(), key) != 0) return std::nullopt;
  const std::string body = bytes->substr(key.size());
  Reader reader(body);
  FigureMaps maps;
  eachField(maps, [&](auto& field) { reader.take(field); });
  reader.takeAll(maps.arches);
  uint32_t edges = 0;
  reader.take(edges);
  for (; edges > 0 && edges <= 2; --edges) {
    SapwoodEdge& edge = maps.sapwood.emplace_back();
    reader.take(edge.lowSide);
    reader.take(edge.sure);
    reader.takeAll(edge.line);
  }
  for (auto& layer : maps.layers) reader.takeAll(layer);
  const size_t cells = size_t(std::max(0, maps.columns)) * std::max(0, maps.rows);
  for (const auto& layer : maps.layers)
    if (layer.size() != cells) return std::nullopt;
  if (!reader.atEnd() || cells == 0) return std::nullopt;
  return maps;
}

Status writeFigure(const FigureMaps& maps, const fs::path& cacheFolder, const Picture& picture,
                   const std::string& key) {
  const fs::path file = fileOf(cacheFolder, picture);
  std::error_code ec;
  fs::create_directories(file.parent_path(), ec);
  if (ec)
    return Error{"The cache folder " + file.parent_path().string() + " cannot be made (" +
                 ec.message() + ")."};
  Writer writer;
  eachField(maps, [&](const auto& field) { writer.put(field); });
  writer.putAll(maps.arches);
  writer.put(uint32_t(maps.sapwood.size()));
  for (const SapwoodEdge& edge : maps.sapwood) {
    writer.put(edge.lowSide);
    writer.put(edge.sure);
    writer.putAll(edge.line);
  }
  for (const auto& layer : maps.layers) writer.putAll(layer);
  return writeFileAtomically(file, key + writer.take());
}

Result<FigureMaps> figureOf(const Board& board, Face face, const fs::path& rackFolder,
                            const fs::path& cacheFolder, RunControl& control) {
  const Picture* picture = board.newestPicture(face);
  const std::string key = picture
                              ? figureKey(board, *picture, pictureFile(rackFolder, board, *picture))
                              : std::string();
  if (picture)
    if (auto kept = readFigure(cacheFolder, *picture, key)) return *std::move(kept);
  auto raster = readFaceRaster(board, face, rackFolder, kFigureMmPerPx);
  if (!raster) return raster.error();
  FigureOptions options;
  options.species = board.species;
  options.sawn = picture->stage != FaceStage::planed;
  FigureMaps maps = figureMaps(*raster, options, control);
  // Without a cache the next reading only takes longer.
  (void)writeFigure(maps, cacheFolder, *picture, key);
  return maps;
}

}  // namespace rackside
