#include "checker.h"

#include <doctest/doctest.h>

using namespace leafwright::cut;
using check::Rectangle;

TEST_CASE("the checker knows the windmill that no straight cut can part") {
  const std::vector<Rectangle> windmill = {
      {0, 0, 2, 1, 0}, {2, 0, 1, 2, 0}, {1, 2, 2, 1, 0}, {0, 1, 1, 2, 0}, {1, 1, 1, 1, 0}};
  CHECK_FALSE(check::separable(windmill, 0));
  CHECK(check::separable({{0, 0, 2, 1, 0}, {2, 0, 1, 2, 0}, {0, 1, 2, 1, 0}}, 0));
}

TEST_CASE("the checker wants room for the blade") {
  const std::vector<Rectangle> touching = {{0, 0, 2, 2, 0}, {2, 0, 2, 2, 0}};
  CHECK(check::separable(touching, 0));
  CHECK_FALSE(check::separable(touching, 1));
  CHECK(check::separable({{0, 0, 2, 2, 0}, {3, 0, 2, 2, 0}}, 1));
}

TEST_CASE("the checker counts, measures and looks at directions") {
  Job job;
  job.pieces.push_back({"a", 4, 2, 2, false});
  job.sheets.push_back({"s", 8, 2, 1, {}, true});
  Plan good = plan(job);
  REQUIRE(check::faults(job, good).empty());
  Plan bad = good;
  bad.patterns[0].count = 2;
  CHECK_FALSE(check::faults(job, bad).empty());
  bad = good;
  for (Part& part : bad.patterns[0].parts) part.turned = part.kind == PartKind::Piece;
  CHECK_FALSE(check::faults(job, bad).empty());
  bad = good;
  bad.bound_cost = 5;
  CHECK_FALSE(check::faults(job, bad).empty());
  bad = good;
  for (Part& part : bad.patterns[0].parts) part.x = 0;
  CHECK_FALSE(check::faults(job, bad).empty());
}
