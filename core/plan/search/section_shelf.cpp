// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/search/section_shelf.h"

#include <algorithm>
#include <tuple>

namespace rackside {
namespace {

constexpr size_t kMostStrips = 64;  // of a section: a bit each

double worthOf(const SectionLayout& section) {
  double all = 0;
  for (const StripLayout& strip : section.strips) all += strip.worth;
  return all;
}

}  // namespace

// Sections with the same kinds in the same order are the same, wherever the strips lie.
bool SectionShelf::Ascending::operator()(const SectionLayout& a, const SectionLayout& b) const {
  const auto place = [](const SectionLayout& s) { return std::tuple(-s.from, s.to, s.direction); };
  if (place(a) != place(b)) return place(a) < place(b);
  return std::lexicographical_compare(
      a.strips.begin(), a.strips.end(), b.strips.begin(), b.strips.end(),
      [](const StripLayout& s, const StripLayout& t) { return s.kind < t.kind; });
}

void SectionShelf::add(const SectionLayout& section) {
  if (section.strips.empty() || section.strips.size() > kMostStrips) return;
  const double worth = worthOf(section);
  const auto known = sections_.find(section);
  if (known != sections_.end() && known->second >= worth) return;
  if (known != sections_.end()) sections_.erase(known);
  sections_.emplace(section, worth);
}

// Adds the copies that a layout uses, or takes them off again.
void SectionShelf::count(const std::vector<Start>& starts, int at, int sign,
                         std::vector<int>& used) const {
  for (; at >= 0; at = starts[at].next)
    for (size_t i = 0; i < starts[at].section->strips.size(); ++i)
      if (starts[at].strips >> i & 1) {
        const BlankKind& kind = job_->kinds[starts[at].section->strips[i].kind];
        used[kind.part] += sign * kind.copies;
      }
}

BoardLayout SectionShelf::best(const Prices& prices, const std::vector<int>& left,
                               const std::vector<float>& stopPay) const {
  std::vector<Start> starts;
  std::vector<int> from(stopPay.size(), -1);  // the best start at a column or behind it
  std::vector<int> used(left.size(), 0);
  int filled = static_cast<int>(stopPay.size()), best = -1;
  for (const auto& [section, worth] : sections_) {
    while (filled > section.from + 1) from[--filled] = best;
    Start start{stopPay[section.to], &section, 0, from[section.to]};
    if (start.next >= 0 && starts[start.next].pay > start.pay)
      start.pay = starts[start.next].pay;
    else
      start.next = -1;
    if (best >= 0 && start.pay + worth <= starts[best].pay) continue;
    count(starts, start.next, 1, used);
    for (size_t i = 0; i < section.strips.size(); ++i) {
      const BlankKind& kind = job_->kinds[section.strips[i].kind];
      const double pay = section.strips[i].worth - kind.copies * prices.ofPart[kind.part];
      if (pay <= 0 || used[kind.part] + kind.copies > left[kind.part]) continue;
      used[kind.part] += kind.copies;
      start.strips |= 1ULL << i;
      start.pay += pay;
    }
    starts.push_back(start);
    count(starts, static_cast<int>(starts.size()) - 1, -1, used);
    if (start.strips != 0 && start.pay > (best >= 0 ? starts[best].pay : stopPay[section.from]))
      best = static_cast<int>(starts.size()) - 1;
    else
      starts.pop_back();
  }
  if (best >= 0 && starts[best].pay <= stopPay[0]) best = -1;
  BoardLayout layout;
  for (int at = best; at >= 0; at = starts[at].next) {
    SectionLayout section = *starts[at].section;
    section.strips.clear();
    for (size_t i = 0; i < starts[at].section->strips.size(); ++i)
      if (starts[at].strips >> i & 1) section.strips.push_back(starts[at].section->strips[i]);
    layout.value += worthOf(section);
    layout.sections.push_back(std::move(section));
  }
  if (!layout.sections.empty()) layout.value += stopPay[layout.sections.back().to];
  return layout;
}

}  // namespace rackside
