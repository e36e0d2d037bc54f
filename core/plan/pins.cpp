// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/pins.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/plan/rip_map.h"

namespace rackside {
namespace {

constexpr double kSameMm = 0.01;
constexpr double kSameAngleRad = 1e-6;

bool isAmong(const std::vector<PieceId>& ids, const PieceId& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

std::vector<PinnedBlank> pinnedBlanks(const PlanRequest& request) {
  std::vector<PinnedBlank> blanks;
  if (!request.current) return blanks;
  for (const Blank& blank : request.current->blanks) {
    PinnedBlank pinned;
    pinned.blank = blank;
    bool any = false;
    for (const Piece& piece : request.current->pieces) {
      if (piece.blank != blank.id) continue;
      pinned.pieces.push_back(piece);
      any = any || isAmong(request.pinned, piece.id);
    }
    if (any) blanks.push_back(std::move(pinned));
  }
  return blanks;
}

PinnedSection sectionOf(PinnedBlank pinned) {
  PinnedSection s;
  s.board = pinned.blank.board;
  s.angleRad = std::remainder(pinned.blank.boardFromBlank.angleRad, std::acos(-1.0));
  if (std::abs(s.angleRad) < kSameAngleRad) s.angleRad = 0;
  const Polygon rough = pinned.blank.roughOutline();
  const Rect box = bounds(rough);
  s.x0 = box.x0, s.x1 = box.x1;
  pinned.low = pinned.start = 1e300, pinned.high = pinned.end = -1e300;
  for (const Point q : rough) {
    const double along = q.x * std::cos(s.angleRad) + q.y * std::sin(s.angleRad);
    const double across = acrossRip(q, s.angleRad);
    pinned.low = std::min(pinned.low, across), pinned.high = std::max(pinned.high, across);
    pinned.start = std::min(pinned.start, along), pinned.end = std::max(pinned.end, along);
  }
  s.blanks.push_back(std::move(pinned));
  return s;
}

std::string nameOf(const PlanRequest& request, const PinnedSection& s) {
  const Piece& piece = s.blanks[0].pieces[0];
  for (const Part& part : request.parts)
    if (part.id == piece.part) return part.name + " " + std::to_string(piece.copy);
  return piece.part.text;
}

Error apart(const PlanRequest& request, const PinnedSection& a, const PinnedSection& b) {
  return Error{"The pinned pieces " + nameOf(request, a) + " and " + nameOf(request, b) +
               " cannot both be cut free by cuts from edge to edge: unpin or move one of them."};
}

// Everything of `b` into `a`; false when the two cannot share a section.
bool join(PinnedSection& a, const PinnedSection& b, double ripKerfMm) {
  if (std::abs(a.angleRad - b.angleRad) > kSameAngleRad) return false;
  a.blanks.insert(a.blanks.end(), b.blanks.begin(), b.blanks.end());
  std::sort(a.blanks.begin(), a.blanks.end(),
            [](const PinnedBlank& p, const PinnedBlank& q) { return p.low < q.low; });
  a.x0 = std::min(a.x0, b.x0), a.x1 = std::max(a.x1, b.x1);
  for (size_t i = 1; i < a.blanks.size(); ++i)
    if (a.blanks[i].low < a.blanks[i - 1].high + ripKerfMm - kSameMm) return false;
  return true;
}

std::string lostPart(const PlanRequest& request, const PinnedBlank& pinned) {
  for (const Piece& piece : pinned.pieces)
    if (std::none_of(request.parts.begin(), request.parts.end(),
                     [&](const Part& p) { return p.id == piece.part && piece.copy <= p.copies; }))
      return piece.part.text + " " + std::to_string(piece.copy);
  return {};
}

}  // namespace

Intervals PinnedSection::taken() const {
  Intervals all;
  for (const PinnedBlank& b : blanks) all.push_back({b.low, b.high});
  return all;
}

Result<std::vector<PinnedSection>> pinnedSections(const PlanRequest& request) {
  std::vector<PinnedSection> apartOnes;
  for (PinnedBlank& pinned : pinnedBlanks(request)) {
    if (const std::string lost = lostPart(request, pinned); !lost.empty())
      return Error{"The pinned piece " + lost + " is no longer on the parts list: unpin it."};
    apartOnes.push_back(sectionOf(std::move(pinned)));
  }
  std::sort(apartOnes.begin(), apartOnes.end(), [](const PinnedSection& a, const PinnedSection& b) {
    return a.board != b.board ? a.board < b.board : a.x0 < b.x0;
  });
  std::vector<PinnedSection> sections;
  for (const PinnedSection& s : apartOnes) {
    const bool meets = !sections.empty() && sections.back().board == s.board &&
                       s.x0 < sections.back().x1 + request.shop.crosscutKerfMm - kSameMm;
    if (!meets)
      sections.push_back(s);
    else if (PinnedSection before = sections.back();
             !join(sections.back(), s, request.shop.ripKerfMm))
      return apart(request, before, s);
  }
  return sections;
}

std::vector<int> pinnedCopies(const PlanRequest& request,
                              const std::vector<PinnedSection>& sections) {
  std::vector<int> copies(request.parts.size(), 0);
  for (const PinnedSection& s : sections)
    for (const PinnedBlank& b : s.blanks)
      for (const Piece& piece : b.pieces)
        for (size_t p = 0; p < request.parts.size(); ++p)
          if (request.parts[p].id == piece.part) ++copies[p];
  return copies;
}

}  // namespace rackside
