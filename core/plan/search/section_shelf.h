// SPDX-License-Identifier: GPL-3.0-or-later
// The filled sections that were found on one board, and layouts put together from them: in a
// thousandth of the time that it takes to look for new ones.
#pragma once

#include <map>
#include <vector>

#include "core/plan/layout.h"
#include "core/plan/search/prices.h"

namespace rackside {

class SectionShelf {
 public:
  explicit SectionShelf(const Job& job) : job_(&job) {}

  void add(const SectionLayout& section);
  // Sections one after the other that pay most, from the last to the first within `left`, of each
  // the strips that pay and are still wanted. `stopPay`: of ending the cutting at each column.
  BoardLayout best(const Prices& prices, const std::vector<int>& left,
                   const std::vector<float>& stopPay) const;

 private:
  struct Ascending {
    bool operator()(const SectionLayout& a, const SectionLayout& b) const;
  };
  // A layout that begins with a section, some of its strips, and goes on with another.
  struct Start {
    double pay = 0;
    const SectionLayout* section = nullptr;
    unsigned long long strips = 0;  // a bit a strip
    int next = -1;
  };
  void count(const std::vector<Start>& starts, int at, int sign, std::vector<int>& used) const;

  const Job* job_;
  std::map<SectionLayout, double, Ascending> sections_;  // last start first; with what all is worth
};

}  // namespace rackside
