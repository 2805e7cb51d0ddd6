#include "checker.h"

#include <doctest/doctest.h>

using namespace leafwright::cut;

namespace {

Plan ruled_plan(const Job& job) {
  Plan result = plan(job);
  CHECK(check::faults(job, result) == std::vector<std::string>{});
  return result;
}

} // namespace

TEST_CASE("a blade takes its width between pieces but not at the edge") {
  Job job;
  job.sheets.push_back({"s", 20, 10, 1, {}, true});
  job.pieces.push_back({"p", 10, 10, 2, false});
  CHECK(ruled_plan(job).sheets == 1);
  job.rules.blade = 1;
  CHECK(ruled_plan(job).sheets == 2);
  job.sheets[0].width = 21;
  CHECK(ruled_plan(job).sheets == 1);
}

TEST_CASE("waste narrower than a trimmer can hold is not cut off") {
  // 19 leaves a sliver of 1 beside a 10 and a 8 wide piece.
  Job job;
  job.sheets.push_back({"s", 19, 10, 1, {}, true});
  job.pieces.push_back({"a", 10, 10, 1, false});
  job.pieces.push_back({"b", 8, 10, 1, false});
  CHECK(ruled_plan(job).sheets == 1);
  job.rules.smallest_strip = 2;
  const Plan held = ruled_plan(job);
  CHECK(held.sheets == 2);
  CHECK(held.proven);
}

TEST_CASE("stages count turns of the sheet") {
  // A 2 x 2 grid of equal pieces takes two; two low pieces beside a high one take three.
  Job job;
  job.sheets.push_back({"s", 20, 20, 1, {}, true});
  job.pieces.push_back({"p", 10, 10, 4, false});
  job.rules.stages = 2;
  CHECK(ruled_plan(job).sheets == 1);
  job.pieces = {{"wide", 20, 10, 1, false}, {"high", 12, 10, 1, false}, {"low", 8, 5, 2, false}};
  CHECK(ruled_plan(job).sheets == 2);
  job.rules.stages = 3;
  CHECK(ruled_plan(job).sheets == 1);
}

TEST_CASE("margins are trimmed before anything else and kept out of stages") {
  Job job;
  job.sheets.push_back({"s", 24, 23, 1, {}, true});
  job.rules.trim = {1, 3, 2, 1};
  job.rules.stages = 2;
  job.pieces.push_back({"p", 10, 10, 4, false});
  const Plan result = ruled_plan(job);
  CHECK(result.sheets == 1);
  const Part& root = result.patterns[0].parts[0];
  CHECK(root.kind == PartKind::Cut);
  CHECK(root.position == 1);
}

TEST_CASE("the last pieces share a sheet though strips must be held") {
  // Four of either size come from a sheet; 38 of each leave two and two, which go together.
  Job job;
  job.sheets.push_back({"a4", 210, 297, 1, {}, true});
  job.pieces.push_back({"panel", 138, 95, 38, true});
  job.pieces.push_back({"leaf", 93, 136, 38, true});
  job.rules.smallest_strip = 10;
  const Plan result = ruled_plan(job);
  CHECK(result.sheets == 19);
  CHECK(result.proven);
}

TEST_CASE("offcuts in hand take a part of the rest though strips must be held") {
  Job job;
  job.sheets.push_back({"a4", 210, 297, 1, {}, true});
  job.sheets.push_back({"offcut", 210, 140, 0, 1, true});
  job.pieces.push_back({"panel", 138, 95, 5, true});
  job.rules.smallest_strip = 10;
  const Plan result = ruled_plan(job);
  CHECK(result.cost == 1);
  CHECK(result.proven);
}
