// SPDX-License-Identifier: GPL-3.0-or-later
// The reading half of rack_folder.h.
#include <algorithm>
#include <tuple>

#include "core/storage/atomic_file.h"
#include "core/storage/json_forms.h"
#include "core/storage/json_text.h"
#include "core/storage/rack_files.h"
#include "core/storage/rack_folder.h"

namespace rackside {
namespace {

namespace fs = std::filesystem;

struct Document {
  std::string bytes;
  nlohmann::json json;
};

// Empty when there is no such file.
Result<std::optional<Document>> readDocument(const fs::path& file) {
  std::error_code error;
  if (!fs::exists(file, error)) return std::optional<Document>();
  Result<std::string> bytes = readFile(file);
  if (!bytes) return bytes.error();
  Result<nlohmann::json> json = parseJson(*bytes);
  if (!json) return Error{file.string() + ": " + json.error().message};
  return std::optional<Document>(Document{std::move(bytes).value(), std::move(json).value()});
}

// Reads `place`, hands its JSON to `take`, notes its bytes.
template <class Take>
Status load(const fs::path& folder, const std::string& place, RackSnapshot& snapshot, Take take) {
  Result<std::optional<Document>> document = readDocument(folder / place);
  if (!document) return document.error();
  if (!*document) return success();
  const Status taken = take((*document)->json);
  if (!taken) return Error{(folder / place).string() + ": " + taken.error().message};
  snapshot.bytes[place] = std::move((*std::move(document).value()).bytes);
  return success();
}

// Turns a fallible reading into a step of load().
template <class T, class Keep>
auto into(Result<T> (*read)(const nlohmann::json&), Keep keep) {
  return [read, keep](const nlohmann::json& json) -> Status {
    Result<T> value = read(json);
    if (!value) return value.error();
    keep(std::move(value).value());
    return success();
  };
}

std::vector<std::string> boardFolders(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator i(folder / "boards", error), end; !error && i != end;
       i.increment(error))
    if (fs::exists(i->path() / kBoardFile, error)) names.push_back(i->path().filename().string());
  return names;
}

Status loadBoards(const fs::path& folder, Rack& rack, RackSnapshot& snapshot) {
  for (const std::string& name : boardFolders(folder)) {
    const auto keep = [&rack](Board board) { rack.boards.push_back(std::move(board)); };
    const Status loaded =
        load(folder, boardPlace({name}), snapshot, into<Board>(boardFromJson, keep));
    if (!loaded) return loaded;
    if (rack.boards.back().id.text != name)
      return Error{(folder / "boards" / name).string() + " holds the board " +
                   rack.boards.back().id.text +
                   ". A board's folder bears its id: give the folder that name, or take the copy "
                   "out of the rack."};
  }
  const auto order = [](const Board& b) {
    return std::make_tuple(b.tag.value_or(1000000), b.name, b.id.text);
  };
  std::sort(rack.boards.begin(), rack.boards.end(),
            [order](const Board& a, const Board& b) { return order(a) < order(b); });
  return success();
}

}  // namespace

Result<Rack> loadRack(const fs::path& folder, RackSnapshot* snapshot) {
  std::error_code error;
  if (!fs::is_directory(folder, error))
    return Error{"There is no folder " + folder.string() + ". Check its name, or make it first."};
  Rack rack;
  RackSnapshot read;
  if (const Status s = loadBoards(folder, rack, read); !s) return s.error();
  const auto keepParts = [&rack](std::vector<Part> parts) { rack.parts = std::move(parts); };
  const auto takeParts = [&](const nlohmann::json& json) {
    rack.partsExtra = partsExtraFromJson(json);
    return into<std::vector<Part>>(partsFromJson, keepParts)(json);
  };
  if (const Status s = load(folder, kPartsFile, read, takeParts); !s) return s.error();
  const auto keepShop = [&rack](Shop shop) { rack.shop = std::move(shop); };
  if (const Status s = load(folder, kShopFile, read, into<Shop>(shopFromJson, keepShop)); !s)
    return s.error();
  const auto keepPlan = [&rack](Plan plan) { rack.plan = std::move(plan); };
  if (const Status s = load(folder, kPlanFile, read, into<Plan>(planFromJson, keepPlan)); !s)
    return s.error();
  if (snapshot) *snapshot = std::move(read);
  return rack;
}

}  // namespace rackside
