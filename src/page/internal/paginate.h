#pragma once

#include "page/flow.h"

#include <cstddef>
#include <functional>
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

// The same in columns, where the first `count` slices are only `first` tall: those below a heading
// that spans them. A column costs its part of a page, so that pages are saved and not columns.
struct Heights {
  Length height, first;
  std::size_t count = 0;
  std::size_t columns = 1;

  Length of(std::size_t slice) const { return slice < count ? first : height; }
  // Share of a page that its last column leaves at its right.
  double columns_left(std::size_t slice) const {
    return static_cast<double>(columns - 1 - slice % columns) / static_cast<double>(columns);
  }
  bool ends_page(std::size_t slice) const { return (slice + 1) % columns == 0; }
};
Pagination paginate(const Flow& flow, Heights heights);

// Parts `count` things, in order, into runs so that the sum of the runs' prices is least: shortest
// path over all places where a run may begin, after Plass, "Optimal pagination techniques for
// automatic typesetting systems" (1981). `price(first, end)` is what the run [first, end) costs; an
// infinite one says that it, and every longer one from there, is none. Ends of the runs, ascending.
struct Runs {
  std::vector<std::size_t> ends;
  double price = 0.0;
};
Runs cheapest_runs(std::size_t count,
                   const std::function<double(std::size_t first, std::size_t end)>& price);

// The cost of one page; `last` pages may be short, but not nearly empty.
double page_cost(Length used, Length height, bool last);

} // namespace leafwright::page
