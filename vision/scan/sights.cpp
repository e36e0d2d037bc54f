// SPDX-License-Identifier: GPL-3.0-or-later
#include "vision/scan/sights.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>
#include <set>

#include "vision/lens/lens_shelf.h"

namespace rackside {
namespace {

constexpr size_t kFewestSaddles = 8;  // of a card, below which it pins nothing down

std::string fileOf(const Photo& photo) {
  return photo.file.filename().string();
}

std::vector<FoundMarkers> searchAll(const std::vector<Photo>& photos) {
  std::vector<FoundMarkers> found(photos.size());
  cv::parallel_for_({0, int(photos.size())}, [&](const cv::Range& range) {
    for (int i = range.start; i < range.end; ++i) {
      cv::Mat grey;
      cv::cvtColor(photos[size_t(i)].bgr, grey, cv::COLOR_BGR2GRAY);
      found[size_t(i)] = findMarkers(grey);
    }
  });
  return found;
}

bool cutOff(const FoundCard& card, cv::Size size) {
  return std::any_of(card.borderPx.begin(), card.borderPx.end(), [&](cv::Point2d p) {
    return p.x < 0 || p.y < 0 || p.x > size.width - 1 || p.y > size.height - 1;
  });
}

Result<Lens> priorFor(const Photo& photo, const ScanOptions& options) {
  if (!options.lens) return lensFor(photo.exif, photo.bgr.size(), lensShelf());
  if (const auto lens = lensForSize(*options.lens, photo.bgr.size())) return *lens;
  return Error{"The lens file belongs to pictures of another shape than " + fileOf(photo) +
               ". Take both with the same camera setting, or scan without the lens file."};
}

// Photographs of one camera at one focal length and size share a lens.
int groupOf(const Photo& photo, std::vector<std::string>& groups) {
  const Exif& e = photo.exif;
  const std::string key = e.make + "|" + e.model + "|" + std::to_string(e.focalMm.value_or(0)) +
                          "|" + std::to_string(e.focal35Mm.value_or(0)) + "|" +
                          std::to_string(photo.bgr.cols) + "x" + std::to_string(photo.bgr.rows);
  auto at = std::find(groups.begin(), groups.end(), key);
  if (at == groups.end()) at = groups.insert(groups.end(), key);
  return int(at - groups.begin());
}

// Corners that a person points at are off by a finger's width on a small picture of the photograph.
constexpr double kReachShare = 0.008;  // of the picture's longer side

Result<SeenTarget> referenceIn(const Photo& photo, size_t index, const ScanOptions& options,
                               const Lens& prior) {
  cv::Mat grey;
  cv::cvtColor(photo.bgr, grey, cv::COLOR_BGR2GRAY);
  for (const ReferenceCorners& corners : options.referenceCorners)
    if (corners.photo == index)
      return plainReferenceAt(grey, *options.reference, prior, corners.px,
                              kReachShare * std::max(grey.cols, grey.rows));
  return findPlainReference(grey, *options.reference, prior);
}

std::vector<int> numbersTwice(const std::vector<FoundCard>& cards) {  // they come by number
  std::vector<int> twice;
  for (size_t i = 1; i < cards.size(); ++i)
    if (cards[i].number == cards[i - 1].number &&
        (twice.empty() || twice.back() != cards[i].number))
      twice.push_back(cards[i].number);
  return twice;
}

Error noCard(const std::vector<Photo>& photos) {
  const std::string where = photos.size() == 1 ? fileOf(photos.front()) : "any of the photographs";
  return Error{"No reference card was found in " + where +
               ". Lay at least one printed card flat and wholly in the picture, in even light, and "
               "photograph again; a code square should be at least 20 pixels wide."};
}

// The tag of the board: the one seen in most photographs.
Result<std::optional<int>> tagOf(const std::vector<FoundMarkers>& markers) {
  std::set<int> seen;
  for (const FoundMarkers& m : markers)
    for (const FoundTag& t : m.tags) seen.insert(t.number);
  if (seen.empty()) return std::optional<int>{};
  if (seen.size() == 1) return std::optional<int>{*seen.begin()};
  std::string list;
  for (int n : seen) list += (list.empty() ? "" : ", ") + std::to_string(n);
  return Error{"Tags " + list + " are in view, so it is not clear which board is meant. Cover or " +
               "move the tags of the other boards and photograph again."};
}

// One photograph given twice would count for two and make the ± smaller than it is.
const Photo* sameFileBefore(const std::vector<Photo>& photos, size_t i) {
  for (size_t k = 0; k < i; ++k)
    if (!photos[k].sha256.empty() && photos[k].sha256 == photos[i].sha256) return &photos[k];
  return nullptr;
}

}  // namespace

std::optional<Lens> lensForSize(const Lens& lens, cv::Size size) {
  if (lens.size == size) return lens;
  const double sx = double(size.width) / lens.size.width;
  const double sy = double(size.height) / lens.size.height;
  if (std::abs(sx / sy - 1) > 0.005) return std::nullopt;
  Lens out = lens;
  out.size = size;
  out.focalPx *= sx;
  out.cx = (lens.cx + 0.5) * sx - 0.5;
  out.cy = (lens.cy + 0.5) * sy - 0.5;
  for (int i = 0; i < 5; ++i)
    for (int j = 0; j < 5; ++j) {
      const double a = i < 3 ? sx : 1, b = j < 3 ? sx : 1;
      out.covariance[5 * size_t(i) + size_t(j)] *= a * b;
    }
  return out;
}

Result<Sights> findSights(const std::vector<Photo>& photos, const ScanOptions& options) {
  Sights out;
  const std::vector<FoundMarkers> found = searchAll(photos);
  std::vector<std::string> groups;
  size_t cards = 0, cut = 0, references = 0;
  for (size_t i = 0; i < photos.size(); ++i) {
    if (const Photo* first = sameFileBefore(photos, i)) {
      out.warnings.push_back(fileOf(photos[i]) + " is the same photograph as " + fileOf(*first) +
                             "; it counts once.");
      continue;
    }
    Sight sight;
    sight.size = photos[i].bgr.size();
    for (const FoundCard& card : found[i].cards) {
      const bool isCut = cutOff(card, sight.size);
      cut += isCut;
      if (isCut)
        out.warnings.push_back("Card " + std::to_string(card.number) +
                               " is cut off by the border of " + fileOf(photos[i]) +
                               "; only what is in the picture counts.");
      if (card.saddles.size() >= kFewestSaddles) sight.cards.push_back(card);
    }
    cards += found[i].cards.size();
    for (const int number : numbersTwice(found[i].cards))
      out.warnings.push_back("Two cards numbered " + std::to_string(number) + " are in view in " +
                             fileOf(photos[i]) +
                             "; of a number only one can be counted: lay cards of different "
                             "numbers.");
    auto prior = priorFor(photos[i], options);
    if (!prior) return prior.error();
    if (options.reference) {
      auto reference = referenceIn(photos[i], i, options, *prior);
      if (reference) {
        sight.others.push_back(std::move(reference.value()));
        ++references;
      } else {
        out.warnings.push_back(fileOf(photos[i]) + ": " + reference.error().message);
      }
    }
    if (sight.cards.empty() && sight.others.empty()) {
      out.warnings.push_back("No usable card in " + fileOf(photos[i]) + "; it was left out.");
      continue;
    }
    sight.prior = *prior;
    sight.lensGroup = groupOf(photos[i], groups);
    out.used.push_back(i);
    out.sights.push_back(std::move(sight));
    out.markers.push_back(found[i]);
  }
  if (references == 0 && options.reference && out.used.empty())
    return Error{out.warnings.empty() ? "The reference was not found." : out.warnings.front()};
  if (cards + references == 0) return noCard(photos);
  if (out.used.empty() || (references == 0 && cut == cards))
    return Error{
        "Every card is cut off by the border of the picture or half hidden. Lay the cards "
        "wholly inside the picture and photograph again."};
  auto tag = tagOf(found);
  if (!tag) return tag.error();
  out.tag = *tag;
  return out;
}

}  // namespace rackside
