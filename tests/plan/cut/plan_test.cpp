#include "checker.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <thread>

using namespace leafwright::cut;

namespace {

Job one_sheet_job(Length width, Length height) {
  Job job;
  job.sheets.push_back({"sheet", width, height, 1, {}, true});
  return job;
}

Plan sound_plan(const Job& job, const Effort& effort = {}) {
  Plan result = plan(job, effort);
  CHECK(check::faults(job, result) == std::vector<std::string>{});
  return result;
}

} // namespace

TEST_CASE("two A2 bases come from one letter sheet") {
  // Common practice: letter paper halved gives 5 1/2 x 8 1/2, folded to 4 1/4 x 5 1/2. Unit 1/16
  // in.
  Job job = one_sheet_job(136, 176);
  job.pieces.push_back({"base", 88, 136, 16, true});
  const Plan result = sound_plan(job);
  CHECK(result.sheets == 8);
  CHECK(result.proven);
}

TEST_CASE("a piece as large as the sheet needs no cut") {
  Job job = one_sheet_job(100, 80);
  job.pieces.push_back({"all", 100, 80, 3, false});
  const Plan result = sound_plan(job);
  CHECK(result.sheets == 3);
  CHECK(result.proven);
  REQUIRE(result.patterns.size() == 1);
  CHECK(result.patterns[0].parts.size() == 1);
}

TEST_CASE("ten thousand of one size are planned in one pattern and a rest") {
  Job job = one_sheet_job(192, 192);
  job.pieces.push_back({"square", 60, 60, 10'000, true});
  const Plan result = sound_plan(job);
  CHECK(result.sheets == 1112);
  CHECK(result.proven);
  CHECK(result.patterns.size() == 2);
}

TEST_CASE("one strip as long as the sheet") {
  Job job = one_sheet_job(1000, 30);
  job.pieces.push_back({"strip", 1000, 10, 3, false});
  CHECK(sound_plan(job).sheets == 1);
}

TEST_CASE("nothing wanted is a plan without sheets") {
  Job job = one_sheet_job(10, 10);
  CHECK(plan(job).proven);
  job.pieces.push_back({"none", 5, 5, 0, true});
  const Plan result = plan(job);
  CHECK(result.findings.empty());
  CHECK(result.sheets == 0);
  CHECK(result.proven);
}

TEST_CASE("equal pieces of different names keep their names and counts") {
  Job job = one_sheet_job(100, 100);
  job.pieces.push_back({"red", 50, 20, 7, true});
  job.pieces.push_back({"blue", 20, 50, 9, true});
  job.pieces.push_back({"green", 50, 20, 5, true});
  CHECK(sound_plan(job).sheets == 3);
}

TEST_CASE("lengths may be given in nanometres") {
  // 1/16 in = 1 587 500 nm.
  const Length unit = 1'587'500;
  Job job = one_sheet_job(136 * unit, 176 * unit);
  job.pieces.push_back({"base", 88 * unit, 136 * unit, 4, true});
  job.pieces.push_back({"mat", 64 * unit, 84 * unit, 8, true});
  const Plan result = sound_plan(job);
  CHECK(result.sheets == 4);
  CHECK(result.proven);
}

TEST_CASE("sizes without a common step are still planned, the bound then stands on area") {
  Job job = one_sheet_job(279'400'001, 215'900'003);
  job.pieces.push_back({"a", 139'700'001, 107'950'001, 6, true});
  job.pieces.push_back({"whole", 279'400'001, 215'900'003, 1, false});
  Effort effort;
  effort.seconds = 2;
  const Plan result = sound_plan(job, effort);
  CHECK(result.sheets >= 3);
  CHECK(result.bound_sheets >= 2);
}

TEST_CASE("a plan is stopped at once by its caller and still is a plan") {
  Job job = one_sheet_job(2550, 2100);
  for (int k = 0; k < 30; ++k) {
    job.pieces.push_back({fmt::format("p{}", k), 145 + 37 * k, 80 + 29 * k % 700, 9, true});
  }
  std::stop_source source;
  source.request_stop();
  Effort effort;
  effort.stop = source.get_token();
  const Plan result = sound_plan(job, effort);
  CHECK(result.sheets > 0);
  CHECK(result.bound_sheets > 0);
  CHECK((result.proven || result.stopped == StoppedBy::Caller));
}

TEST_CASE("progress is told while a plan gets better") {
  Job job = one_sheet_job(136, 176);
  for (int k = 0; k < 12; ++k) {
    job.pieces.push_back({fmt::format("p{}", k), 20 + 7 * k, 33 + 5 * k, 5 + k, true});
  }
  int told = 0;
  std::int64_t last_bound = 0;
  Effort effort;
  effort.progress = [&](const Progress& progress) {
    ++told;
    CHECK(progress.bound_cost >= last_bound);
    last_bound = progress.bound_cost;
  };
  sound_plan(job, effort);
  CHECK(told > 0);
}

TEST_CASE("the dearer sheet is bought where it saves") {
  Job job;
  job.sheets.push_back({"small", 100, 100, 10, {}, true});
  job.sheets.push_back({"large", 200, 100, 15, {}, true});
  job.pieces.push_back({"p", 100, 100, 4, false});
  const Plan result = sound_plan(job);
  CHECK(result.cost == 30);
  CHECK(result.sheets == 2);
  CHECK(result.proven);
}

TEST_CASE("offcuts in hand are used before anything is bought") {
  Job job;
  job.sheets.push_back({"sheet", 100, 100, 10, {}, true});
  job.sheets.push_back({"offcut", 50, 100, 0, 3, true});
  job.pieces.push_back({"p", 50, 100, 6, false});
  const Plan result = sound_plan(job);
  CHECK(result.cost == 20);
  CHECK(result.proven);
}

TEST_CASE("directed stock turns no piece, plain stock does") {
  Job job = one_sheet_job(60, 100);
  job.pieces.push_back({"p", 100, 30, 2, true});
  CHECK(sound_plan(job).sheets == 1);
  job.sheets[0].pieces_may_turn = false;
  job.sheets.push_back({"wide", 100, 30, 1, {}, false});
  CHECK(sound_plan(job).sheets == 2);
}
