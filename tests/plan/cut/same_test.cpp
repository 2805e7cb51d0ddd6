#include "checker.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <atomic>
#include <thread>

using namespace leafwright::cut;

namespace {

// Hard enough that rounding alone does not settle it, and that integer programmes are solved.
Job hard_job(int number) {
  Job job;
  job.sheets.push_back({"letter", 136, 176, 1, {}, true});
  if (number % 3 == 2) job.sheets.push_back({"half", 136, 88, 1, 5, true});
  if (number % 4 == 3) job.rules.smallest_strip = 4;
  for (int k = 0; k < 9; ++k) {
    const int turn = number * 17 + k * 29;
    job.pieces.push_back({fmt::format("p{}", k), 15 + turn * 7 % 60, 20 + turn * 11 % 80,
                          7 + turn % 23, (turn & 1) == 0});
  }
  return job;
}

std::string told(const Plan& plan) {
  std::string text = fmt::format("{} {} {}\n", plan.sheets, plan.bound_cost, plan.statistics.work);
  for (const Pattern& pattern : plan.patterns) {
    text += fmt::format("{} of {}:", pattern.count, pattern.sheet);
    for (const Part& part : pattern.parts) {
      text += fmt::format(" {} {} {} {} {}", part.x, part.y, part.width, part.height, part.piece);
    }
    text += '\n';
  }
  return text;
}

Effort by_work() {
  Effort effort;
  effort.work = 150'000'000;
  return effort;
}

} // namespace

TEST_CASE("a plan is the same however slowly the clock or the machine goes") {
  for (int number = 0; number < 6; ++number) {
    CAPTURE(number);
    const Job job = hard_job(number);
    Effort still = by_work();
    still.clock = [] { return 0.0; };
    const Plan first = plan(job, still);
    CHECK(check::faults(job, first) == std::vector<std::string>{});
    CHECK(first.stopped != StoppedBy::Time);

    // Every look at the clock takes a hundredth of a second, up to just below the brake.
    double seconds = 0;
    Effort slow = by_work();
    slow.clock = [&] { return seconds = std::min(seconds + 0.01, slow.seconds - 20); };
    CHECK(told(plan(job, slow)) == told(first));

    std::atomic<bool> busy = true;
    std::vector<std::thread> load;
    for (int k = 0; k < 3; ++k) {
      load.emplace_back([&] {
        while (busy) {
        }
      });
    }
    CHECK(told(plan(job, by_work())) == told(first));
    busy = false;
    for (std::thread& thread : load) thread.join();
  }
}

TEST_CASE("a plan that the clock ended says so") {
  double seconds = 0;
  Effort effort;
  effort.seconds = 1;
  effort.clock = [&] { return seconds += 0.3; };
  const Job job = hard_job(1);
  const Plan result = plan(job, effort);
  CHECK(check::faults(job, result) == std::vector<std::string>{});
  CHECK(result.stopped == StoppedBy::Time);
  CHECK(result.bound_sheets > 0);
}
