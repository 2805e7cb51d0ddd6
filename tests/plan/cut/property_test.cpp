#include "checker.h"
#include "small_exact.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <random>

using namespace leafwright::cut;

namespace {

class Random {
 public:
  explicit Random(std::uint64_t number) : engine_(number) {}
  std::int64_t from(std::int64_t least, std::int64_t most) {
    return least +
           static_cast<std::int64_t>(engine_() % static_cast<std::uint64_t>(most - least + 1));
  }
  bool chance(int in) { return from(1, in) == 1; }

 private:
  std::mt19937_64 engine_;
};

struct Kind {
  bool turns = true;
  Length blade = 0;
  Length strip = 0;
  int stages = 0;
  bool trims = false;
  bool several_sheets = false;
};

Job small_job(Random& random, const Kind& kind) {
  Job job;
  job.rules.blade = kind.blade;
  job.rules.smallest_strip = kind.strip;
  job.rules.stages = kind.stages;
  if (kind.trims) job.rules.trim = {1, 0, 2, 1};
  const int sheets = kind.several_sheets ? 2 : 1;
  for (int s = 0; s < sheets; ++s) {
    SheetType sheet{fmt::format("s{}", s), random.from(7, 11), random.from(7, 11), 1, {}, true};
    if (kind.several_sheets) {
      sheet.price = random.from(0, 9);
      if (s == 0 || random.chance(2)) sheet.limit = random.from(1, 3);
      sheet.pieces_may_turn = random.chance(2);
    }
    job.sheets.push_back(sheet);
  }
  const std::int64_t types = random.from(1, 3);
  for (std::int64_t t = 0; t < types; ++t) {
    job.pieces.push_back({fmt::format("p{}", t), random.from(2, 6), random.from(2, 6),
                          random.from(1, 3), kind.turns && random.chance(2)});
  }
  return job;
}

void compare_with_brute_force(const Kind& kind, std::uint64_t first, int count) {
  int above_least = 0;
  for (int k = 0; k < count; ++k) {
    Random random(first + static_cast<std::uint64_t>(k));
    const Job job = small_job(random, kind);
    CAPTURE(first + static_cast<std::uint64_t>(k));
    const std::int64_t least = exact::least_cost(job);
    Effort effort;
    effort.work = 60'000'000;
    const Plan found = plan(job, effort);
    if (!found.findings.empty()) {
      CHECK(least == -1);
      continue;
    }
    CHECK(check::faults(job, found) == std::vector<std::string>{});
    CHECK(found.bound_cost <= least);
    CHECK(found.cost >= least);
    // Tiny jobs leave no excuse; only rules may cost a sheet, rarely.
    const bool ruled = kind.strip > 0 || kind.stages > 0;
    CHECK(found.cost <= least + (ruled ? 1 : 0));
    above_least += found.cost > least ? 1 : 0;
  }
  CHECK(above_least * 20 <= count);
}

} // namespace

TEST_CASE("plans of tiny jobs cost what brute force says, and bounds are never above it") {
  SUBCASE("pieces turn") { compare_with_brute_force({}, 1, 60); }
  SUBCASE("pieces keep their direction") { compare_with_brute_force({false}, 1000, 60); }
  SUBCASE("a blade takes its width") { compare_with_brute_force({true, 1}, 2000, 40); }
  SUBCASE("edges are trimmed") { compare_with_brute_force({true, 0, 0, 0, true}, 3000, 30); }
  SUBCASE("edges are trimmed by a blade") {
    compare_with_brute_force({true, 1, 0, 0, true}, 3500, 30);
  }
  SUBCASE("strips must be held") { compare_with_brute_force({true, 0, 2}, 4000, 30); }
  SUBCASE("strips must be held beside a blade") {
    compare_with_brute_force({true, 1, 2}, 4500, 30);
  }
  SUBCASE("two stages") { compare_with_brute_force({true, 0, 0, 2}, 5000, 30); }
  SUBCASE("three stages and a strip") { compare_with_brute_force({false, 0, 2, 3}, 6000, 30); }
  SUBCASE("several sheets with prices and limits") {
    compare_with_brute_force({true, 0, 0, 0, false, true}, 7000, 60);
  }
}

TEST_CASE("plans of larger random jobs are sound and the same every time") {
  for (std::uint64_t number = 1; number <= 12; ++number) {
    Random random(number * 31);
    Job job;
    job.rules.blade = random.from(0, 1) * 2;
    if (random.chance(2)) job.rules.trim = {3, 3, 2, 0};
    job.sheets.push_back({"sheet", 136, 176, 1, {}, true});
    if (random.chance(3)) job.sheets.push_back({"offcut", 80, 100, 0, 2, true});
    const std::int64_t types = random.from(2, 9);
    for (std::int64_t t = 0; t < types; ++t) {
      job.pieces.push_back({fmt::format("p{}", t), random.from(12, 90), random.from(12, 120),
                            random.from(1, 40), random.chance(2)});
    }
    CAPTURE(number);
    Effort effort;
    effort.work = 80'000'000;
    const Plan first = plan(job, effort);
    REQUIRE(first.findings.empty());
    CHECK(check::faults(job, first) == std::vector<std::string>{});
    const Plan second = plan(job, effort);
    CHECK(first.cost == second.cost);
    CHECK(first.patterns.size() == second.patterns.size());
    CHECK(largest_offcut(first) == largest_offcut(second));
  }
}
