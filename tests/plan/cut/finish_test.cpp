#include "checker.h"
#include "plan/cut/internal/finish.h"

#include <doctest/doctest.h>

using namespace leafwright::cut;

TEST_CASE("strips alike stand side by side, lower ones last") {
  Slice slice;
  const int a = slice.leaf({10, 20, 0, false});
  const int b = slice.leaf({10, 30, 1, false});
  const int ab = slice.join(Join::Beside, a, b);
  const int c = slice.leaf({10, 20, 0, false});
  slice.join(Join::Beside, ab, c);
  const Slice ordered = in_order(slice);
  CHECK(ordered.nodes.back().width == 30);
  CHECK(ordered.nodes.back().height == 30);
  CHECK(counts_of(ordered) == counts_of(slice));
  const SliceNode& root = ordered.nodes.back();
  CHECK(ordered.nodes[static_cast<std::size_t>(root.a)].height == 30);
  CHECK(ordered.nodes[static_cast<std::size_t>(root.b)].height == 20);
}

TEST_CASE("surplus is taken from whole batches, so few patterns are left") {
  Job job;
  job.sheets.push_back({"s", 100, 100, 1, {}, true});
  job.pieces.push_back({"p", 50, 50, 37, false});
  const Plan result = plan(job);
  CHECK(result.sheets == 10);
  CHECK(result.patterns.size() == 2);
  CHECK(check::faults(job, result).empty());
}

TEST_CASE("what is left over is left in one piece") {
  // Three sheets hold everything; the last can be half empty.
  Job job;
  job.sheets.push_back({"s", 100, 100, 1, {}, true});
  job.pieces.push_back({"a", 50, 50, 6, false});
  job.pieces.push_back({"b", 100, 50, 2, false});
  const Plan result = plan(job);
  CHECK(result.sheets == 3);
  CHECK(largest_offcut(result) == 100 * 50);
  CHECK(check::faults(job, result).empty());
}
