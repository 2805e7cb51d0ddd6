#include "checker.h"

#include <doctest/doctest.h>

#include <random>
#include <set>
#include <utility>

using namespace leafwright::cut;

namespace {

Job handled_job() {
  Job job;
  job.objective = Objective::LeastHandling;
  return job;
}

int settings_of(const Plan& plan) {
  int settings = 0;
  for (const Pattern& pattern : plan.patterns) settings += work_settings(pattern);
  return settings;
}

int cuts_of(const Plan& plan) {
  int cuts = 0;
  for (const Pattern& pattern : plan.patterns)
    for (const Part& part : pattern.parts) cuts += part.kind == PartKind::Cut ? 1 : 0;
  return cuts;
}

// How many different (direction, position) pairs the fence is set to.
int fence_settings(const Pattern& pattern) {
  std::set<std::pair<Direction, Length>> settings;
  for (const Part& part : pattern.parts)
    if (part.kind == PartKind::Cut) settings.emplace(part.direction, part.position);
  return static_cast<int>(settings.size());
}

} // namespace

TEST_CASE("a kit is cut from the fewest sheets with few fence settings") {
  // Four top-fold cards from letter sheets: bases 8 1/2 x 5 1/2, mats 4 x 5 1/4; unit 1/16 in.
  Job job = handled_job();
  job.sheets.push_back({"letter", 136, 176, 1, {}, true});
  job.pieces.push_back({"base", 136, 88, 4, true});
  const Plan bases = plan(job);
  CHECK(check::faults(job, bases).empty());
  CHECK(bases.sheets == 2);
  CHECK(fence_settings(bases.patterns[0]) == 1);

  job.pieces = {{"mat", 64, 84, 4, true}};
  const Plan mats = plan(job);
  CHECK(check::faults(job, mats).empty());
  CHECK(mats.sheets == 1);
  CHECK(mats.proven);
  CHECK(fence_settings(mats.patterns[0]) <= 2);
}

TEST_CASE("a kit's largest offcut stays in one piece") {
  Job job = handled_job();
  job.sheets.push_back({"square", 192, 192, 1, {}, true});
  job.pieces.push_back({"mat", 64, 84, 4, true});
  job.pieces.push_back({"label", 32, 16, 4, true});
  const Plan result = plan(job);
  CHECK(check::faults(job, result).empty());
  CHECK(result.sheets == 1);
  // Three mats beside one another are as wide as the sheet, 84 high; the fourth turned is 64 high.
  CHECK(largest_offcut(result) >= 192 * (192 - 84 - 64));
  const Plan again = plan(job);
  CHECK(again.patterns[0].parts.size() == result.patterns[0].parts.size());
}

TEST_CASE("equal pieces in a grid are set with two fence settings") {
  Job job = handled_job();
  job.sheets.push_back({"square", 192, 192, 1, {}, true});
  job.pieces.push_back({"tag", 48, 64, 12, false});
  const Plan result = plan(job);
  CHECK(result.sheets == 1);
  CHECK(fence_settings(result.patterns[0]) == 2);
}

TEST_CASE("the other sheets of an opened pack are used only where they save work, and some do") {
  std::mt19937 random(7);
  const auto below = [&random](unsigned range) { return static_cast<int>(random() % range); };
  int used = 0;
  for (int round = 0; round < 12; ++round) {
    CAPTURE(round);
    Job job = handled_job();
    job.sheets.push_back({"square", 192, 192, 1, {}, true});
    for (int i = 0; i < 6; ++i)
      job.pieces.push_back({"p", 16 + below(70), 16 + below(70), 1 + below(4), true});
    const Plan single = plan(job);
    job.sheets.front().pack = single.sheets; // nothing is left of it
    CHECK(plan(job).sheets == single.sheets);
    job.sheets.front().pack = 24;
    const Plan from_pack = plan(job);
    CHECK(check::faults(job, from_pack).empty());
    CHECK(from_pack.sheets <= 24);
    const auto more = static_cast<int>(from_pack.sheets - single.sheets);
    if (more <= 0) continue;
    ++used;
    // A sheet is as dear as a setting; where that comes out even, it must save cuts.
    const int its = settings_of(from_pack) + more;
    const bool fewer_cuts = cuts_of(from_pack) < cuts_of(single);
    CHECK((its < settings_of(single) || (its == settings_of(single) && fewer_cuts)));
  }
  CHECK(used > 0);
}

TEST_CASE("a stock in two sizes of which one is used is cut with as few settings as alone") {
  Job job = handled_job();
  job.sheets.push_back({"A4", 2100, 2970, 62, {}, false, 10});
  job.pieces = {{"panel", 970, 1400, 2, false},
                {"flap", 445, 1400, 2, false},
                {"cover", 600, 1380, 2, false},
                {"mat", 890, 1320, 2, false},
                {"patch", 480, 720, 2, false}};
  const int alone = settings_of(plan(job));
  job.sheets.push_back({"12x12", 3048, 3048, 125, {}, false, 6});
  const Plan both = plan(job);
  CHECK(check::faults(job, both).empty());
  CHECK(settings_of(both) <= alone);
}
