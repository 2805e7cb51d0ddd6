#include "plan/supply/internal/buying_packs.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>
#include <optional>
#include <random>

using namespace leafwright::supply;

namespace {

PackOffer single(std::int64_t price, int need, std::int64_t units) {
  return {price, {{need, units}}};
}

std::int64_t cost_of(const std::vector<PackOffer>& offers, const std::vector<std::int64_t>& packs) {
  std::int64_t cost = 0;
  for (std::size_t i = 0; i < offers.size(); ++i) cost += offers[i].price * packs[i];
  return cost;
}

bool met(const std::vector<std::int64_t>& needs, const std::vector<PackOffer>& offers,
         const std::vector<std::int64_t>& packs) {
  std::vector<std::int64_t> open = needs;
  for (std::size_t i = 0; i < offers.size(); ++i)
    for (const auto& [need, units] : offers[i].holds)
      open[static_cast<std::size_t>(need)] -= units * packs[i];
  return std::all_of(open.begin(), open.end(), [](auto n) { return n <= 0; });
}

// Every number of every pack.
std::int64_t by_force(const std::vector<std::int64_t>& needs,
                      const std::vector<PackOffer>& offers) {
  const std::int64_t most = *std::max_element(needs.begin(), needs.end());
  std::vector<std::int64_t> packs(offers.size(), 0);
  std::optional<std::int64_t> best;
  const std::function<void(std::size_t)> choose = [&](std::size_t i) {
    if (i == offers.size()) {
      if (!met(needs, offers, packs)) return;
      const std::int64_t cost = cost_of(offers, packs);
      if (!best || cost < *best) best = cost;
      return;
    }
    for (packs[i] = 0; packs[i] <= most; ++packs[i]) choose(i + 1);
    packs[i] = 0;
  };
  choose(0);
  return best.value_or(-1);
}

} // namespace

TEST_CASE("a large pack and a small one can cost less than two large ones") {
  // By hand: 30 sheets from packs of 25 (8.50) and 5 (2.50): 25 + 5 = 11.00; two of 25 = 17.00.
  const std::vector<PackOffer> offers{single(850, 0, 25), single(250, 0, 5)};
  const PackChoice choice = choose_packs({30}, offers);
  CHECK(choice.packs == std::vector<std::int64_t>{1, 1});
  CHECK(choice.exact);
}

TEST_CASE("a larger pack is taken when it costs less than the small ones that would do") {
  // By hand: 20 sheets: four of 5 cost 10.00, one of 25 costs 8.50.
  const std::vector<PackOffer> offers{single(850, 0, 25), single(250, 0, 5)};
  CHECK(choose_packs({20}, offers).packs == std::vector<std::int64_t>{1, 0});
}

TEST_CASE("of choices that cost the same the one with fewer packs is taken") {
  const std::vector<PackOffer> offers{single(100, 0, 5), single(200, 0, 10)};
  CHECK(choose_packs({20}, offers).packs == std::vector<std::int64_t>{0, 2});
}

TEST_CASE("packs of two patterns are filled up with single sheets where that is cheaper") {
  // By hand: 4 of one and 9 of the other; a pack (5.50) has two of each, a sheet of the second
  // is 1.20. Two packs leave 5 sheets = 6.00, in all 17.00; three leave 3 = 3.60, in all 20.10;
  // five = 27.50.
  const std::vector<PackOffer> offers{{550, {{0, 2}, {1, 2}}}, single(120, 1, 1)};
  const PackChoice choice = choose_packs({4, 9}, offers);
  CHECK(choice.packs == std::vector<std::int64_t>{2, 5});
}

TEST_CASE("nothing is bought for nothing") {
  CHECK(choose_packs({0, -3}, {single(100, 0, 5), single(100, 1, 5)}).packs ==
        std::vector<std::int64_t>{0, 0});
}

TEST_CASE("a very large need is met without a table as long as it") {
  // 50 003 x 100 + 1 units: the cheap hundred in bulk, one small pack for the rest.
  const std::vector<PackOffer> offers{single(1000, 0, 100), single(30, 0, 2)};
  const PackChoice choice = choose_packs({5'000'301}, offers);
  CHECK(choice.packs == std::vector<std::int64_t>{50'003, 1});
}

TEST_CASE("as cheap as trying every number of every pack") {
  std::mt19937 random(11);
  const auto upto = [&random](unsigned n) { return static_cast<std::int64_t>(random() % n); };
  for (int round = 0; round < 150; ++round) {
    const std::vector<std::int64_t> needs{upto(9), 1 + upto(8)};
    std::vector<PackOffer> offers{single(50 + upto(300), 0, 1 + upto(4)),
                                  single(50 + upto(300), 1, 1 + upto(4)),
                                  single(50 + upto(900), static_cast<int>(upto(2)), 3 + upto(6))};
    if (upto(2) == 0) offers.push_back({100 + upto(500), {{0, 1 + upto(3)}, {1, 1 + upto(3)}}});
    const PackChoice choice = choose_packs(needs, offers);
    CHECK(choice.exact);
    CHECK(met(needs, offers, choice.packs));
    CHECK(cost_of(offers, choice.packs) == by_force(needs, offers));
  }
}
