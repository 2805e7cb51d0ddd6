#include "plan/orders/label_sheet.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::orders;

namespace {

// 2 x 5 labels of 4 x 2 in on letter, as a maker would measure them.
LabelSheet two_by_five() {
  LabelSheet sheet;
  sheet.paper = {inches(8, 1, 2), inches(11)};
  sheet.label = {inches(4), inches(2)};
  sheet.columns = 2;
  sheet.rows = 5;
  sheet.left = inches(0, 5, 32);
  sheet.top = inches(0, 1, 2);
  sheet.gap_across = inches(0, 3, 16);
  return sheet;
}

} // namespace

TEST_CASE("labels stand in rows at exact places") {
  const LabelSheet sheet = two_by_five();
  CHECK(label_box(sheet, 0).origin == Point{inches(0, 5, 32), inches(0, 1, 2)});
  CHECK(label_box(sheet, 1).origin.x == inches(4, 11, 32)); // 5/32 + 4 + 3/16
  CHECK(label_box(sheet, 9).origin == Point{inches(4, 11, 32), inches(8, 1, 2)});
}

TEST_CASE("the common sheets fill their paper") {
  for (const char* paper : {"letter", "a4"}) {
    CAPTURE(paper);
    Project project;
    project.paper = paper;
    const LabelSheet sheet = label_sheet_of(project);
    const Rect last = label_box(sheet, sheet.columns * sheet.rows - 1);
    // What is left at the right and below is as much as at the left and above.
    CHECK(sheet.paper.width - last.origin.x - last.size.width == sheet.left);
    CHECK(sheet.paper.height - last.origin.y - last.size.height == sheet.top);
    CHECK(check_label_sheet(project, sheet).empty());
  }
}

TEST_CASE("labels that run off the paper are an error with both measures") {
  LabelSheet sheet = two_by_five();
  sheet.rows = 6;
  const Findings findings = check_label_sheet(Project{}, sheet);
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].code == "label-off-sheet");
  CHECK(findings[0].severity == Severity::Error);
}
