#include "output/impose/order.h"

#include "measure/index.h"

#include <algorithm>
#include <cstddef>

namespace leafwright::impose {
namespace {

constexpr int pages_a_sheet = 4;

int whole_sheets(int pages) { return (pages + pages_a_sheet - 1) / pages_a_sheet * pages_a_sheet; }

} // namespace

std::vector<int> filled_up(int page_count, const Binding& binding) {
  std::vector<int> pages;
  for (int page = 0; page < page_count; ++page) pages.push_back(page);
  const int signature = whole_sheets(std::max(binding.signature, 0));
  const int unit = binding.full_signatures && signature > 0 ? signature : pages_a_sheet;
  int missing = (unit - page_count % unit) % unit;
  // Inside the front cover: with one blank there, what follows moves to the other side.
  const bool in_front = missing > (binding.back_cover ? 1 : 2) && !binding.sided && page_count > 1;
  if (in_front) {
    pages.insert(pages.begin() + 1, blank);
    --missing;
  }
  const auto end = binding.back_cover && page_count > 1 ? pages.end() - 1 : pages.end();
  pages.insert(end, as_index(missing), blank);
  return pages;
}

std::vector<Side> sides(const std::vector<int>& pages, const Binding& binding) {
  const int count = static_cast<int>(pages.size());
  const int signature = binding.signature > 0 ? whole_sheets(binding.signature) : count;
  std::vector<Side> all;
  for (int begin = 0, number = 0; begin < count; begin += signature, ++number) {
    const int end = std::min(count, begin + signature);
    const auto page = [&pages, begin](int i) { return pages[as_index(begin + i)]; };
    const int in_it = end - begin;
    const int sheets = in_it / pages_a_sheet;
    // The pages of a pair sum to one more than all pages, counted from 1.
    for (int sheet = 0; sheet < sheets; ++sheet) {
      const int low = 2 * sheet;
      all.push_back({page(in_it - 1 - low), page(low), number, sheet, sheets, false});
      all.push_back({page(low + 1), page(in_it - 2 - low), number, sheet, sheets, true});
    }
  }
  return all;
}

} // namespace leafwright::impose
