#include "plan/supply/sheets.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::supply;

namespace {

cut::Job squares(std::int64_t copies) {
  cut::Job job;
  job.sheets.push_back({"sheet", 100, 100, 1, {}, true});
  job.pieces.push_back({"p", 100, 50, copies, true});
  return job;
}

} // namespace

TEST_CASE("a plan says what it proves, and a gap where one is left") {
  cut::Job job = squares(6);
  cut::Plan plan = cut::plan(job);
  CHECK(proof_in_words(plan, job) == "3 sheets; no straight-cut plan can use fewer than 3");
  plan.proven = false;
  plan.bound_sheets = 2;
  CHECK(proof_in_words(plan, job) == "3 sheets; the best possible is 2 or 3");
  plan.bound_sheets = 1;
  CHECK(proof_in_words(plan, job) == "3 sheets; the best possible is 1 to 3");
  plan.stopped = cut::StoppedBy::Time;
  CHECK(proof_in_words(plan, job).find("the clock ended the search") != std::string::npos);
  job.sheets.push_back({"dear", 200, 100, 5, {}, true});
  plan = cut::plan(job);
  CHECK(proof_in_words(plan, job) == "3 sheets, cost 3; no straight-cut plan can cost less");
  job.pieces.clear();
  CHECK(proof_in_words(cut::plan(job), job) == "nothing to cut");
}

TEST_CASE("a job that cannot be done says why") {
  const auto why = [](const cut::Job& job) {
    const cut::Plan plan = cut::plan(job);
    REQUIRE(plan.findings.size() == 1);
    return fault_in_words(plan.findings.front(), job);
  };
  cut::Job job = squares(11);
  job.sheets.front().limit = 3;
  CHECK(why(job) == "there are 3 of sheet sheet; 6 would be enough");
  job = squares(1);
  job.pieces.front().height = 180;
  CHECK(why(job) == "piece p (100 x 180) fits on no sheet, turned or not; the smallest sheet that "
                    "would do is 100 x 180");
  job = squares(1);
  job.rules.stages = 1;
  job.pieces.front().width = 60;
  CHECK(why(job) == "piece p cannot be cut by these rules");
  job = squares(-1);
  CHECK(why(job) == "piece p is wanted -1 times; 0 to 1000000000 can be planned");
}
