#include "sample.h"

#include "page/internal/paginate.h"

#include <doctest/doctest.h>
#include <map>
#include <random>
#include <utility>

#include <limits>

using namespace leafwright;
using namespace leafwright::page;

namespace {

FlowItem item_of(Length tall) {
  auto frame = std::make_shared<Frame>();
  frame->size = {points(100), tall};
  FlowItem item;
  item.frame = std::move(frame);
  return item;
}

Flow random_flow(sample::Dice& dice, int count) {
  Flow flow;
  for (int i = 0; i < count; ++i) {
    FlowItem item = item_of(points(dice.between(10, 60)));
    item.space_before = points(dice.below(20));
    item.keep_with_next = dice.below(4) == 0;
    item.break_cost = dice.below(3) * 10.0;
    flow.push_back(item);
  }
  return flow;
}

Length used_by(const Flow& flow, std::size_t first, std::size_t end) {
  Length used{};
  for (std::size_t i = first; i < end; ++i)
    used += flow[i].frame->size.height + (i > first ? flow[i].space_before : Length{});
  return used;
}

double cheapest(const Flow& flow, Heights heights, std::size_t first, std::size_t slice = 0) {
  if (first == flow.size()) return 0.0;
  double best = std::numeric_limits<double>::infinity();
  const Length height = slice < heights.count ? heights.first : heights.height;
  const bool ends_page = slice % heights.columns == heights.columns - 1;
  for (std::size_t end = first + 1; end <= flow.size(); ++end) {
    const Length used = used_by(flow, first, end);
    if (used > height) break;
    if (end < flow.size() && flow[end - 1].keep_with_next) continue;
    double cost =
        page_cost(used, height, end == flow.size()) / static_cast<double>(heights.columns);
    if (end < flow.size())
      cost += flow[end - 1].break_cost + (ends_page ? flow[end - 1].page_break_cost : 0.0);
    best = std::min(best, cost + cheapest(flow, heights, end, slice + 1));
  }
  return best;
}

} // namespace

TEST_CASE("no way to part a flow into pages is cheaper than the one chosen") {
  sample::Dice dice(3);
  for (int round = 0; round < 200; ++round) {
    CAPTURE(round);
    const Flow flow = random_flow(dice, dice.between(1, 14));
    const Length height = points(150);
    const double best = cheapest(flow, {height, height}, 0);
    if (best == std::numeric_limits<double>::infinity()) continue; // a keep longer than a page
    CHECK(paginate(flow, height).cost == doctest::Approx(best));
  }
}

TEST_CASE("pages hold every item once, none too tall, and keep what belongs together") {
  sample::Dice dice(4);
  for (int round = 0; round < 100; ++round) {
    const Flow flow = random_flow(dice, 80);
    const Length height = points(400);
    std::size_t next = 0;
    for (const PageSlice& slice : paginate(flow, height).slices) {
      CHECK(slice.first == next);
      CHECK(slice.used <= height);
      CHECK(slice.used == used_by(flow, slice.first, slice.end));
      if (slice.end < flow.size()) CHECK_FALSE(flow[slice.end - 1].keep_with_next);
      next = slice.end;
    }
    CHECK(next == flow.size());
  }
}

TEST_CASE("what is taller than a page stands alone and is called overfull") {
  const Flow flow = {item_of(points(50)), item_of(points(500)), item_of(points(50))};
  const Pagination pages = paginate(flow, points(200));
  REQUIRE(pages.slices.size() == 3);
  CHECK_FALSE(pages.slices[0].overfull);
  CHECK(pages.slices[1].overfull);
}

TEST_CASE("a chain of keeps that is taller than a page is parted, not run off the paper") {
  Flow flow;
  for (int i = 0; i < 20; ++i) {
    flow.push_back(item_of(points(50)));
    flow.back().keep_with_next = true;
  }
  for (const PageSlice& slice : paginate(flow, points(200)).slices)
    CHECK(slice.used <= points(200));
}

TEST_CASE("a repeated head takes its room on the next page") {
  Flow flow;
  for (int i = 0; i < 9; ++i) {
    flow.push_back(item_of(points(50)));
    flow.back().head_space = points(30);
    flow.back().repeat_head = flow.back().frame;
  }
  for (const PageSlice& slice : paginate(flow, points(200)).slices)
    CHECK(slice.end - slice.first <= 3);
}

TEST_CASE("no way to part things into runs is cheaper than the one chosen") {
  // Prices without any rule; some runs are none at all.
  std::mt19937 random(11);
  constexpr double none = std::numeric_limits<double>::infinity();
  for (int round = 0; round < 200; ++round) {
    const std::size_t count = 1 + random() % 10;
    std::map<std::pair<std::size_t, std::size_t>, double> prices;
    for (std::size_t first = 0; first < count; ++first) {
      const std::size_t longest = 1 + random() % 6;
      for (std::size_t end = first + 1; end <= count; ++end)
        prices[{first, end}] = end - first > longest ? none : static_cast<double>(random() % 100);
    }
    double least = none;
    for (std::size_t cuts = 0; cuts < std::size_t{1} << (count - 1); ++cuts) {
      double sum = 0.0;
      std::size_t first = 0;
      for (std::size_t end = 1; end <= count; ++end)
        if (end == count || (cuts >> (end - 1) & 1U) != 0) {
          sum += prices[{first, end}];
          first = end;
        }
      least = std::min(least, sum);
    }
    const Runs runs = cheapest_runs(count, [&](std::size_t first, std::size_t end) {
      return prices[{first, end}];
    });
    CHECK(runs.price == least);
    REQUIRE_FALSE(runs.ends.empty());
    CHECK(runs.ends.back() == count);
  }
}

TEST_CASE("no way to part a flow into columns is cheaper, below an opening or not") {
  sample::Dice dice(5);
  for (int round = 0; round < 200; ++round) {
    CAPTURE(round);
    Flow flow = random_flow(dice, dice.between(1, 14));
    for (FlowItem& item : flow) item.page_break_cost = dice.below(3) * 15.0;
    const std::size_t columns = dice.below(2) == 0 ? 2 : 3;
    const bool opening = dice.below(2) == 0;
    const Heights heights{points(150), points(opening ? 110 : 150), opening ? columns : 0, columns};
    const double best = cheapest(flow, heights, 0);
    if (best == std::numeric_limits<double>::infinity()) continue; // a keep longer than a column
    CHECK(paginate(flow, heights).cost == doctest::Approx(best));
  }
}

TEST_CASE("a list runs on in the next column rather than on the next page") {
  // Two columns a page: the third column would begin the second one.
  Flow flow = {item_of(points(90)), item_of(points(60)), item_of(points(60)), item_of(points(60))};
  flow[2].page_break_cost = 400.0;
  const Pagination pages = paginate(flow, {points(150), points(150), 0, 2});
  for (std::size_t s = 0; s < pages.slices.size(); ++s)
    if (pages.slices[s].end == 3) CHECK(s % 2 == 0);
  REQUIRE(pages.slices.size() >= 2);
}

TEST_CASE("a wished page break is made") {
  Flow flow = {item_of(points(20)), item_of(points(20))};
  flow[0].break_after = true;
  CHECK(paginate(flow, points(200)).slices.size() == 2);
}
