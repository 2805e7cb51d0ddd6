#include "plan/cut/internal/search.h"

#include <doctest/doctest.h>

using namespace leafwright::cut;

namespace {

StockSize stock(int width, int height, std::int64_t price, std::int64_t limit = -1) {
  StockSize s;
  s.width = width;
  s.height = height;
  s.price = price;
  s.limit = limit;
  return s;
}

} // namespace

TEST_CASE("values bound the sheets, rounded up in whole numbers") {
  // 7 pieces worth 5 each, at most 10 in one pattern: 3.5 sheets.
  CHECK(value_bound(std::vector{stock(1, 1, 1)}, std::vector<std::int64_t>{7},
                    std::vector<std::int64_t>{5}, std::vector<std::int64_t>{10}) == 4);
  // Exactly 4 stays 4, however large the values.
  const std::int64_t big = std::int64_t{1} << 40;
  CHECK(value_bound(std::vector{stock(1, 1, 1)}, std::vector<std::int64_t>{8},
                    std::vector<std::int64_t>{big / 2}, std::vector<std::int64_t>{big}) == 4);
  CHECK(value_bound(std::vector{stock(1, 1, 1)}, std::vector<std::int64_t>{8},
                    std::vector<std::int64_t>{big / 2 + 1}, std::vector<std::int64_t>{big}) == 5);
}

TEST_CASE("a bound on cost is a multiple of the prices' common step") {
  CHECK(value_bound(std::vector{stock(1, 1, 30), stock(1, 1, 20)}, std::vector<std::int64_t>{3},
                    std::vector<std::int64_t>{10}, std::vector<std::int64_t>{15, 10}) == 60);
}

TEST_CASE("sheets in hand at no price lower the bound by what they can hold and no more") {
  const std::vector<StockSize> stocks = {stock(1, 1, 1), stock(1, 1, 0, 2)};
  CHECK(value_bound(stocks, std::vector<std::int64_t>{10}, std::vector<std::int64_t>{1},
                    std::vector<std::int64_t>{2, 2}) == 3);
}

TEST_CASE("the area bound counts the blade") {
  Job job;
  job.pieces.push_back({"a", 9, 9, 4, true});
  job.sheets.push_back({"s", 19, 19, 1, {}, true});
  CHECK(area_bound(job, normalise(job)) == 1);
  job.rules.blade = 1;
  CHECK(area_bound(job, normalise(job)) == 1);
  job.pieces[0].copies = 5;
  CHECK(area_bound(job, normalise(job)) == 2);
}
