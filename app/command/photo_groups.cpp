// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>
#include <opencv2/imgproc.hpp>
#include <set>

#include "app/command/scan_batch.h"
#include "vision/cards/card_finder.h"

namespace rackside::command {
namespace {

namespace fs = std::filesystem;

bool isPhoto(const fs::path& file) {
  static const std::set<std::string> endings{".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif"};
  std::string ending = file.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return char(std::tolower(c)); });
  return endings.contains(ending);
}

std::vector<fs::path> photosIn(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.is_regular_file() && isPhoto(entry.path())) files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<fs::path> subfoldersOf(const fs::path& folder) {
  std::vector<fs::path> found;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.is_directory()) found.push_back(entry.path());
  std::sort(found.begin(), found.end());
  return found;
}

Result<std::set<int>> tagsIn(const fs::path& file) {
  auto photo = readPhoto(file);
  if (!photo) return photo.error();
  cv::Mat grey;
  cv::cvtColor(photo->bgr, grey, cv::COLOR_BGR2GRAY);
  std::set<int> tags;
  for (const FoundTag& t : findMarkers(grey).tags) tags.insert(t.number);
  return tags;
}

std::string severalTags(const std::set<int>& tags) {
  std::string text = "Several tags are in view (";
  for (auto it = tags.begin(); it != tags.end(); ++it)
    text += (it == tags.begin() ? "" : ", ") + std::to_string(*it);
  return text + "): photograph one board at a time, or cover the other tags.";
}

// One board's photographs: at least one shows its tag, none another board's.
PhotoGroup groupOfSubfolder(const fs::path& folder) {
  PhotoGroup group;
  group.photos = photosIn(folder);
  std::set<int> all;
  for (const fs::path& file : group.photos) {
    auto tags = tagsIn(file);
    if (!tags) {
      group.retake = tags.error().message;
      return group;
    }
    all.insert(tags->begin(), tags->end());
  }
  if (all.size() == 1) {
    group.tag = *all.begin();
  } else if (all.empty()) {
    group.retake = "No tag was found in any photograph of " + folder.filename().string() +
                   ": retake one with the board's tag in view.";
  } else {
    group.retake = severalTags(all);
  }
  return group;
}

void groupByTag(const std::vector<fs::path>& files, std::vector<PhotoGroup>& groups) {
  std::map<int, PhotoGroup> byTag;
  for (const fs::path& file : files) {
    auto tags = tagsIn(file);
    if (tags && tags->size() == 1) {
      PhotoGroup& group = byTag[*tags->begin()];
      group.tag = *tags->begin();
      group.photos.push_back(file);
      continue;
    }
    std::string why = !tags           ? tags.error().message
                      : tags->empty() ? "No tag was found: retake it with the board's tag in view, "
                                        "or scan it by itself with --name."
                                      : severalTags(*tags);
    groups.push_back({std::nullopt, {file}, std::move(why)});
  }
  for (auto& [tag, group] : byTag) groups.push_back(std::move(group));
}

// Groups of one tag from different places are one board seen twice over: nobody can tell which
// series is meant.
void refuseDoubles(std::vector<PhotoGroup>& groups) {
  std::map<int, int> seen;
  for (const PhotoGroup& g : groups)
    if (g.tag) ++seen[*g.tag];
  for (PhotoGroup& g : groups)
    if (g.tag && seen[*g.tag] > 1 && g.retake.empty())
      g.retake = "Tag " + std::to_string(*g.tag) +
                 " is in more than one folder: put one board's photographs together.";
}

}  // namespace

Result<std::vector<PhotoGroup>> groupPhotos(const fs::path& folder) {
  std::error_code ec;
  if (!fs::is_directory(folder, ec))
    return Error{"There is no folder " + folder.string() +
                 ": give --batch the photographs' folder."};
  std::vector<PhotoGroup> groups;
  groupByTag(photosIn(folder), groups);
  for (const fs::path& sub : subfoldersOf(folder))
    if (PhotoGroup g = groupOfSubfolder(sub); !g.photos.empty()) groups.push_back(std::move(g));
  if (groups.empty())
    return Error{"No photograph (JPEG, PNG, WebP, HEIC) is in " + folder.string() + "."};
  refuseDoubles(groups);
  std::stable_sort(groups.begin(), groups.end(), [](const PhotoGroup& a, const PhotoGroup& b) {
    return a.tag.value_or(1 << 30) < b.tag.value_or(1 << 30);
  });
  return groups;
}

}  // namespace rackside::command
