#include "checker.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

using namespace leafwright::cut;

// Who asks only how many sheets it takes: as many as a plan that is cut by, for less work.

namespace {

// Some proven by area at once, some by relaxation, some not within the effort.
Job some_job(int number) {
  Job job;
  job.sheets.push_back({"letter", 136, 176, 1, {}, true});
  if (number % 3 == 2) job.sheets.push_back({"half", 136, 88, 1, 5, true});
  if (number % 5 == 4) job.sheets.push_back({"offcut", 60, 70, 0, 2, true});
  if (number % 4 == 3) job.rules.smallest_strip = 4;
  for (int k = 0; k < 1 + number % 8; ++k) {
    const int turn = number * 17 + k * 29;
    job.pieces.push_back({fmt::format("p{}", k), 15 + turn * 7 % 60, 20 + turn * 11 % 80,
                          1 + turn * number % 19, (turn & 1) == 0});
  }
  return job;
}

} // namespace

TEST_CASE("sheets counted are the sheets of a plan that is cut by, for less work") {
  Effort effort;
  effort.work = 2'000'000;
  std::int64_t planning = 0, counting = 0;
  for (int number = 0; number < 10; ++number) {
    CAPTURE(number);
    Job job = some_job(number);
    const Plan cut_by = plan(job, effort);
    job.objective = Objective::SheetCount;
    const Plan counted = plan(job, effort);
    // Whatever the checker says of one it says of the other: some jobs have no plan.
    CHECK(check::faults(job, counted) == check::faults(job, cut_by));
    if (counted.findings.empty() && !counted.patterns.empty())
      CHECK(check::faults(job, counted).empty());
    CHECK(counted.cost == cut_by.cost);
    CHECK(counted.bound_cost == cut_by.bound_cost);
    CHECK(counted.proven == cut_by.proven);
    CHECK(counted.findings.size() == cut_by.findings.size());
    CHECK(counted.statistics.work <= cut_by.statistics.work);
    if (!cut_by.proven) continue;
    planning += cut_by.statistics.work;
    counting += counted.statistics.work;
  }
  CHECK(counting * 2 < planning);
}

TEST_CASE("a count that the area proves asks no relaxation and repacks nothing") {
  Job job;
  job.objective = Objective::SheetCount;
  job.sheets.push_back({"letter", 136, 176, 1, {}, true});
  job.pieces.push_back({"base", 136, 88, 4, true});
  const Plan counted = plan(job);
  CHECK(counted.sheets == 2);
  CHECK(counted.proven);
  CHECK(counted.statistics.pricings == 0);
  CHECK(counted.statistics.dives == 0);
  CHECK(counted.statistics.moves == 0);
}
