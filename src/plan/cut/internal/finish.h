#pragma once

#include "plan/cut/internal/search.h"

#include <cstdint>
#include <vector>

namespace leafwright::cut {

// Sheets of one stock cut alike, in a plan that cuts exactly what is wanted.
struct Batch {
  int stock = 0;
  std::int64_t count = 0;
  Slice slice;
};

// Takes the copies nobody wants out of the plan, from whole batches where possible so that few
// patterns are left.
std::vector<Batch> without_surplus(const Search& search, const Sheets& sheets);

// Batches of the same pieces become one; empty ones go.
void merge_alike(std::vector<Batch>& batches);

// The same pieces with the joints in a row put in order: equal strips side by side, so that the
// fence stays where it is, and the lower ones last, so that what is cut off above them stays in
// one piece.
Slice in_order(const Slice& slice);

// Repacks a few of the emptiest sheets so that the largest leftover in one piece grows; the number
// of sheets stays. `steps` bounds each attempt. No effect on rigid patterns.
void enlarge_offcut(Search& search, std::vector<Batch>& batches, std::int64_t steps);

// Area, in small units, of the largest strip that the slice leaves across its stock.
std::int64_t free_strip(const StockSize& stock, const Slice& slice);

// The plan's patterns in the job's own unit, most sheets first; waste is pushed outwards so that
// it stays in large pieces.
std::vector<Pattern> lay_out(const Job& job, const Normal& normal,
                             const std::vector<Batch>& batches);

} // namespace leafwright::cut
