#pragma once

#include "page/frame.h"

#include <cstddef>
#include <vector>

namespace leafwright::page {

// Items [first, end) stand on one page (or in one column of it).
struct PageSlice {
  std::size_t first = 0, end = 0;
  Length used; // height, with a repeated table head
  bool overfull = false;
};

struct Pagination {
  std::vector<PageSlice> slices;
  double cost = 0.0; // for comparing layouts of the same content
};

// Splits a flow into pages of `height` so that the whole is filled as evenly as may be, no keep
// rule is broken, and no page begins with an empty space. Exact: dynamic programming over all
// places where a page may end. An item taller than a page gets one of its own and is overfull.
Pagination paginate(const Flow& flow, Length height);

// The same where the first `count` slices are only `first` tall: the columns below a heading that
// spans them.
struct Heights {
  Length height, first;
  std::size_t count = 0;
};
Pagination paginate(const Flow& flow, Heights heights);

// The cost of one page; `last` pages may be short, but not nearly empty.
double page_cost(Length used, Length height, bool last);

} // namespace leafwright::page
