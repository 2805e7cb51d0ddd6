#include "checker.h"

#include <doctest/doctest.h>

using namespace leafwright::cut;

TEST_CASE("a piece that fits no sheet is named with the smallest sheet that would do") {
  Job job;
  job.sheets.push_back({"letter", 136, 176, 1, {}, true});
  job.pieces.push_back({"panorama", 20, 180, 1, true});
  job.pieces.push_back({"fine", 20, 100, 1, true});
  job.pieces.push_back({"poster", 140, 140, 1, false});
  job.rules.trim.left = 2;
  const Plan result = plan(job);
  CHECK(result.patterns.empty());
  CHECK_FALSE(result.proven);
  REQUIRE(result.findings.size() == 2);
  CHECK(result.findings[0].kind == FindingKind::PieceFitsNoSheet);
  CHECK(result.findings[0].piece == 0);
  CHECK(result.findings[0].needs_width == 22);
  CHECK(result.findings[0].needs_height == 180);
  CHECK(result.findings[1].piece == 2);
}

TEST_CASE("too few sheets are said with the number that would be enough") {
  Job job;
  job.sheets.push_back({"sheet", 100, 100, 1, 3, true});
  job.pieces.push_back({"p", 100, 50, 11, true});
  const Plan result = plan(job);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].kind == FindingKind::TooFewSheets);
  CHECK(result.findings[0].missing == 3);
}

TEST_CASE("a piece that the rules forbid is named") {
  Job job;
  job.sheets.push_back({"sheet", 100, 100, 1, {}, true});
  job.pieces.push_back({"p", 60, 60, 1, true});
  job.rules.stages = 1;
  const Plan result = plan(job);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].kind == FindingKind::RulesForbid);
  CHECK(result.findings[0].piece == 0);
}

TEST_CASE("numbers out of range are findings, not crashes") {
  Job job;
  job.sheets.push_back({"s", 0, 10, -1, -2, true});
  job.pieces.push_back({"p", -1, 5, -3, true});
  job.rules.blade = -1;
  const Plan result = plan(job);
  CHECK(result.findings.size() == 6);
  for (const JobFault& finding : result.findings) CHECK(finding.kind == FindingKind::BadNumber);
}

TEST_CASE("no sheet at all is a finding for every piece") {
  Job job;
  job.pieces.push_back({"p", 5, 5, 1, true});
  CHECK(plan(job).findings.size() == 1);
}
