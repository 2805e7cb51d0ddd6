#include "plan/cut/internal/closing.h"

#include "plan/cut/internal/programme.h"
#include "plan/cut/internal/rounding.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <random>

using namespace leafwright::cut;

namespace {

// Many copies of each size: a plan at the bound is likely, and likely to be missed by rounding.
Job run_job(std::uint64_t number) {
  std::mt19937_64 random(number);
  const auto draw = [&](std::uint64_t from, std::uint64_t to) {
    return static_cast<std::int64_t>(from + random() % (to - from + 1));
  };
  Job job;
  job.sheets.push_back({"letter", 136, 176, 1, {}, true});
  for (int t = 0; t < 16; ++t) {
    job.pieces.push_back({fmt::format("p{}", t), draw(15, 90) / 2 * 2, draw(20, 110) / 2 * 2,
                          draw(60, 200), number % 2 == 0});
  }
  return job;
}

// Whether two sheets could do where each holds one of three pieces: a programme over that pattern.
ProgrammeResult two_for_three(const Effort& effort) {
  Job job;
  job.sheets.push_back({"s", 10, 10, 1, {}, true});
  job.pieces.push_back({"a", 6, 6, 3, true});
  const Normal normal = normalise(job);
  Budget budget(effort);
  Statistics statistics;
  Search search(normal, budget, statistics);
  Relaxation relaxation(search);
  const std::vector<int> columns = {0};
  return solve_programme(search, columns, search.demand, 3, 100, 1'000'000'000, Manner::Settle);
}

} // namespace

TEST_CASE("the gap closes to a plan that covers the demand at the bound") {
  int closed = 0;
  for (std::uint64_t number = 1; number <= 30; ++number) {
    CAPTURE(number);
    const Job job = run_job(number);
    const Normal normal = normalise(job);
    const Effort effort;
    Budget budget(effort);
    Statistics statistics;
    Search search(normal, budget, statistics);
    Relaxation relaxation(search);
    const std::vector<std::int64_t> none(1, 0);
    relaxation.solve(search.demand, none, Aim::Bound, 100'000);
    // A poor plan of single sizes is there; rounding is not tried.
    Sheets plain;
    for (int k = 0; k < search.pool.size(); ++k) plain.emplace_back(k, 200);
    search.offer(plain);
    if (!close_gap(search, relaxation, 1, {{40'000, 5'000, 0, 0}, 30'000, 300'000})) continue;
    ++closed;
    CHECK(search.best_cost == search.bound);
    const std::vector<std::int64_t> left = remaining(search, search.best);
    CHECK(std::all_of(left.begin(), left.end(), [](std::int64_t d) { return d <= 0; }));
  }
  CHECK(closed >= 20);
}

TEST_CASE("a programme that the clock broke off proves nothing") {
  // Time enough when the programme starts, none when it ends.
  int looks = 0;
  Effort effort;
  effort.seconds = 1;
  effort.clock = [&] { return ++looks > 3 ? 2.0 : 0.0; };
  const ProgrammeResult found = two_for_three(effort);
  CHECK(found.sheets.empty());
  CHECK_FALSE(found.complete);
}

TEST_CASE("a programme in good time proves that nothing cheaper exists over its columns") {
  const ProgrammeResult found = two_for_three({});
  CHECK(found.sheets.empty());
  CHECK(found.complete);
}
