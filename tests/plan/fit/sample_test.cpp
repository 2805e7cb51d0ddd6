#include "found.h"

#include "plan/supply/needs.h"
#include "read/read.h"

#include <string>

using namespace leafwright;
using namespace leafwright::testing;

namespace {

Project sample(const char* name) {
  Reading reading =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR "/samples/") + name + "/project.xml");
  for (const Finding& finding : reading.findings) MESSAGE(finding.found);
  REQUIRE(reading.ok());
  return std::move(reading.project);
}

const supply::Need& need(const Project& project, const supply::Needs& needs, std::string_view id) {
  for (const supply::Need& one : needs)
    if (item_id(project, one.item) == id) return one;
  FAIL("nothing is needed of " << std::string(id));
  return needs.front();
}

} // namespace

TEST_CASE("the samples can be made, closed and cut as they are written") {
  for (const char* name : {"orchard-gate", "kelp-lantern", "five-minute"}) {
    CAPTURE(name);
    const Project project = sample(name);
    const supply::CuttingPlan sheets = supply::sheets_for(project);
    for (const Finding& finding : fit::check(project, &sheets)) {
      CAPTURE(finding.code);
      CAPTURE(finding.found);
      CHECK(finding.severity == Severity::Note);
    }
  }
}

// Worked by hand from the project file: one kit is three of each of the three cards.
TEST_CASE("a kit of Orchard Gate takes what the cards take, three times") {
  const Project project = sample("orchard-gate");
  REQUIRE(project.run.of_each == 3);
  const supply::Needs needs = supply::needs_of_kit(project);

  // Trees: base 4 1/4 x 11.
  CHECK(need(project, needs, "kraft").count == 3);
  CHECK(need(project, needs, "dots").area == area({inches(4), inches(5, 1, 4)}) * 3);
  CHECK(need(project, needs, "sky-card").area == area({inches(8, 1, 2), inches(5, 1, 2)}) * 3);
  // Round the front of an A2 card and one inch over, three times.
  CHECK(need(project, needs, "rust-grosgrain").length == inches(28, 1, 2));
  // Three on the tree panel and three in the window, three times.
  CHECK(need(project, needs, "dome").count == 18);
  CHECK(need(project, needs, "a2").count == 9);
  // Label 4, latch 4, frame 14 (3 3/4 x 5 in is 121 cm², one for 9 cm² begun), apple 4; three
  // times.
  CHECK(need(project, needs, "foam").count == 78);
  // Trees 3 and 1; fruit 3, 1 and 1; apples 1 and 3; palings 2; three times.
  for (const supply::Need::Part& part : need(project, needs, "orchard").parts) {
    const std::string& image =
        project.stamp_sets[0].images.at(static_cast<std::size_t>(part.image)).id;
    if (image == "tree") CHECK(part.count == 12);
    if (image == "fruit") CHECK(part.count == 15);
    if (image == "apple") CHECK(part.count == 12);
    if (image == "palings") CHECK(part.count == 6);
  }
}

// Common practice: two A2 bases from one letter sheet.
TEST_CASE("two bases of Orchard Gate share a sheet, of each colour") {
  const Project project = sample("orchard-gate");
  const supply::CuttingPlan all = supply::sheets_for(project);
  for (const supply::StockSheets& stock : all.stocks) {
    const std::string& id = project.stocks.at(static_cast<std::size_t>(stock.stock)).id;
    CAPTURE(id);
    CHECK(stock.sheets >= stock.at_least);
    if (id == "sky-card") CHECK(stock.sheets == 2); // three bases
  }
}
