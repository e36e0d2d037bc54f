// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <opencv2/imgproc.hpp>
#include <set>

#include "vision/scan/batch.h"

namespace rackside {
namespace {

constexpr double kSameSeriesSeconds = 180;  // a walk along one board takes less

struct Seen {  // what one photograph shows; the picture itself is not kept
  std::filesystem::path file;
  std::set<int> tags, cards;
  std::optional<double> seconds;  // when it was taken
  int group = -1;
};

bool isPicture(const std::filesystem::path& file) {
  std::string e = file.extension().string();
  std::transform(e.begin(), e.end(), e.begin(),
                 [](unsigned char c) { return char(std::tolower(c)); });
  static const std::set<std::string> known{".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif"};
  return known.contains(e);
}

std::optional<double> secondsOf(const std::string& iso8601) {
  std::tm t{};
  if (std::sscanf(iso8601.c_str(), "%d-%d-%dT%d:%d:%d", &t.tm_year, &t.tm_mon, &t.tm_mday,
                  &t.tm_hour, &t.tm_min, &t.tm_sec) != 6)
    return std::nullopt;
  t.tm_year -= 1900;
  t.tm_mon -= 1;
  return double(timegm(&t));
}

Result<Seen> look(const std::filesystem::path& file) {
  auto photo = readPhoto(file);
  if (!photo) return photo.error();
  Seen seen;
  seen.file = file;
  seen.seconds = secondsOf(photo->exif.takenAt);
  cv::Mat grey;
  cv::cvtColor(photo->bgr, grey, cv::COLOR_BGR2GRAY);
  const FoundMarkers markers = findMarkers(grey);
  for (const FoundTag& t : markers.tags) seen.tags.insert(t.number);
  for (const FoundCard& c : markers.cards) seen.cards.insert(c.number);
  return seen;
}

bool shareCard(const Seen& a, const Seen& b) {
  return std::any_of(a.cards.begin(), a.cards.end(), [&](int n) { return b.cards.contains(n); });
}

// One series: taken shortly after each other where both say when, and a card in common.
bool together(const Seen& a, const Seen& b) {
  if (!shareCard(a, b)) return false;
  return !a.seconds || !b.seconds || std::abs(*a.seconds - *b.seconds) <= kSameSeriesSeconds;
}

PhotoGroup& groupOf(std::vector<PhotoGroup>& groups, Seen& seen, std::optional<int> tag) {
  for (size_t i = 0; tag && i < groups.size(); ++i)
    if (groups[i].tag == tag) {
      seen.group = int(i);
      return groups[i];
    }
  PhotoGroup g;
  g.tag = tag;
  g.name = tag ? "tag " + std::to_string(*tag) : seen.file.stem().string();
  groups.push_back(g);
  seen.group = int(groups.size()) - 1;
  return groups.back();
}

// A photograph without a tag goes with the nearest one, by order of name, that it belongs with.
int neighbourOf(const std::vector<Seen>& all, size_t i) {
  for (size_t d = 1; d < all.size(); ++d)
    for (const int sign : {-1, 1}) {
      const auto j = std::ptrdiff_t(i) + sign * std::ptrdiff_t(d);
      if (j < 0 || j >= std::ptrdiff_t(all.size())) continue;
      const Seen& other = all[size_t(j)];
      if (other.group >= 0 && together(all[i], other)) return other.group;
    }
  return -1;
}

}  // namespace

Result<std::vector<PhotoGroup>> groupPhotos(const std::filesystem::path& folder,
                                            std::vector<BatchLine>& unreadable) {
  std::error_code failure;
  std::vector<std::filesystem::path> files;
  for (const auto& e : std::filesystem::directory_iterator(folder, failure))
    if (std::error_code loop; isPicture(e.path()) && e.is_regular_file(loop))
      files.push_back(e.path());
  if (failure)
    return Error{"The folder " + folder.string() + " cannot be read: " + failure.message() + "."};
  if (files.empty())
    return Error{"There is no photograph (JPEG, PNG, WebP or HEIC) in " + folder.string() + "."};
  std::sort(files.begin(), files.end());
  std::vector<std::optional<Result<Seen>>> looked(files.size());
  cv::parallel_for_({0, int(files.size())}, [&](const cv::Range& range) {
    for (int i = range.start; i < range.end; ++i) looked[size_t(i)] = look(files[size_t(i)]);
  });
  std::vector<Seen> all;
  for (size_t i = 0; i < files.size(); ++i) {
    if (*looked[i]) {
      all.push_back(**looked[i]);
      continue;
    }
    PhotoGroup g;
    g.name = files[i].filename().string();
    g.files = {files[i]};
    unreadable.push_back(
        {g, false, g.name + ": retake: " + looked[i]->error().message, std::nullopt});
  }
  std::vector<PhotoGroup> groups;
  for (Seen& s : all)
    if (s.tags.size() == 1) groupOf(groups, s, *s.tags.begin());
  for (size_t i = 0; i < all.size(); ++i) {
    Seen& s = all[i];
    if (s.group >= 0) continue;
    s.group = neighbourOf(all, i);
    const std::string file = s.file.filename().string();
    if (s.group < 0)
      groupOf(groups, s, std::nullopt).remarks.push_back(file + " shows no tag");
    else
      groups[size_t(s.group)].remarks.push_back(
          file + " shows no tag; taken with this board for its cards and its time");
  }
  for (const Seen& s : all) groups[size_t(s.group)].files.push_back(s.file);
  std::stable_sort(groups.begin(), groups.end(), [](const PhotoGroup& a, const PhotoGroup& b) {
    return a.files.front() < b.files.front();
  });
  return groups;
}

}  // namespace rackside
