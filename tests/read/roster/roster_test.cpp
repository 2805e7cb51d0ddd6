#include "read/roster/roster.h"

#include "measure/print_length.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>

// Rules of the table itself: RFC 4180; reading of cells: tests/read/csv.

using namespace leafwright;

namespace {

// Two tiers and a few things; everything that a roster may name.
Project project() {
  Project project;
  project.tiers.resize(2);
  project.tiers[0].id = "full";
  project.tiers[0].name = "Full kit";
  project.tiers[1].id = "parts";
  project.tiers[1].name = "Parts kit";
  project.stamp_sets.resize(1);
  project.stamp_sets[0].id = "orchard";
  project.stamp_sets[0].name = "Orchard stamps";
  project.dies.resize(1);
  project.dies[0].id = "circle";
  project.dies[0].name = "Circle die, 2 3/4 in";
  return project;
}

std::string codes(const Roster& roster) {
  std::string all;
  for (const Finding& finding : roster.findings)
    all += finding.code + "@" + std::to_string(finding.place.line) + ":" +
           std::to_string(finding.place.column) + " ";
  return all;
}

} // namespace

TEST_CASE("columns are found by their names in any order and case") {
  const Roster roster = read_roster("Qty,TIER, Name ,Notes\n2,Parts kit,Ada,hello\n", project(), 3);
  REQUIRE(roster.orders.size() == 1);
  const Order& order = roster.orders[0];
  CHECK(order.name == "Ada");
  CHECK(order.tier == 1);
  CHECK(order.quantity == 2);
  CHECK(order.note == "hello");
  CHECK(order.place.file == 3);
  CHECK(order.place.line == 2);
  CHECK(codes(roster).empty());
}

TEST_CASE("byte order mark, semicolons, CR LF and quoted line ends are read") {
  const Roster roster = read_roster("\xEF\xBB\xBFname;tier;address\r\n"
                                    "Ada;full;\"1 Lane;\r\nFenmoor\"\r\n"
                                    "Bo;full;\r\n",
                                    project(), 0);
  REQUIRE(roster.orders.size() == 2);
  CHECK(roster.orders[0].address == "1 Lane;\nFenmoor");
  CHECK(roster.orders[1].name == "Bo");
  CHECK(codes(roster).empty());
}

TEST_CASE("a column that means nothing here is kept with the order") {
  const Roster roster = read_roster("name,tier,Heard of us\nAda,full,at the fair\n", project(), 0);
  REQUIRE(roster.orders.size() == 1);
  REQUIRE(roster.orders[0].others.size() == 1);
  CHECK(roster.orders[0].others[0].column == "Heard of us");
  CHECK(roster.orders[0].others[0].text == "at the fair");
}

TEST_CASE("a number stands for a name, and beside a name it is kept") {
  const Roster by_number = read_roster("number,tier\n17,full\n", project(), 0);
  REQUIRE(by_number.orders.size() == 1);
  CHECK(by_number.orders[0].name == "17");
  const Roster both = read_roster("number,name,tier\n17,Ada,full\n18,,full\n", project(), 0);
  REQUIRE(both.orders.size() == 2);
  CHECK(both.orders[0].name == "Ada");
  CHECK(both.orders[0].others.at(0).text == "17");
  CHECK(both.orders[1].name == "18");
}

TEST_CASE("bad rows are told by line and column, the others count, and a summary closes") {
  const Roster roster = read_roster("name,tier,quantity\n"
                                    "Ada,full,1\n"
                                    ",full,1\n"
                                    "Bo,fulll,1\n"
                                    "Cy,full,-2\n"
                                    "Di,full,0\n"
                                    "Ed,parts,3\n",
                                    project(), 0);
  CHECK(roster.orders.size() == 2);
  CHECK(roster.rows == 6);
  CHECK(roster.left_out == std::vector<int>{3, 4, 5, 6});
  CHECK(codes(roster) == "order-no-name@3:1 order-unknown-tier@4:4 order-quantity@5:9 "
                         "order-quantity@6:9 roster-left-out@0:0 ");
  CHECK(roster.findings.back().found == "4 of 6 rows NOT counted: lines 3, 4, 5, 6");
  CHECK(roster.findings[1].fix.find("full") != std::string::npos);
  for (const Finding& finding : roster.findings) CHECK(finding.severity == Severity::Warning);
}

TEST_CASE("owned things are known by id or by name, even by a name that holds a comma") {
  const Roster roster = read_roster("name,tier,owned\n"
                                    "Ada,full,\"Circle die, 2 3/4 in; orchard\"\n"
                                    "Bo,full,orchard circle\n"
                                    "Cy,full,\"ORCHARD  STAMPS, circle\"\n"
                                    "Di,full,a hammer\n",
                                    project(), 0);
  REQUIRE(roster.orders.size() == 4);
  const ItemRef stamps{ItemKind::StampSet, 0}, die{ItemKind::Die, 0};
  CHECK(roster.orders[0].owned == std::vector<ItemRef>{die, stamps});
  CHECK(roster.orders[1].owned == std::vector<ItemRef>{stamps, die});
  CHECK(roster.orders[2].owned == std::vector<ItemRef>{stamps, die});
  CHECK(roster.orders[3].owned.empty());
  CHECK(codes(roster) == "order-unknown-item@5:9 ");
}

TEST_CASE("a swap may say how much is taken") {
  const Roster roster =
      read_roster("name,tier,swaps\nAda,full,circle: 2 whole; orchard\n", project(), 0);
  REQUIRE(roster.orders.size() == 1);
  REQUIRE(roster.orders[0].swaps.size() == 2);
  CHECK(roster.orders[0].swaps[0].amount_said);
  CHECK(roster.orders[0].swaps[0].amount.count == 2);
  CHECK_FALSE(roster.orders[0].swaps[1].amount_said);
}

TEST_CASE("the reference lists every name that a column may have") {
  std::string rows;
  for (const auto& names : roster_columns()) {
    rows += "| `" + std::string(names.front()) + "` |";
    for (std::size_t i = 1; i < names.size(); ++i) rows += " `" + std::string(names[i]) + "`";
    rows += " |\n";
  }
  std::ifstream file(LEAFWRIGHT_SOURCE_DIR "/templates/grammar/REFERENCE.md", std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  CHECK(text.find("| column | also read |\n|---|---|\n" + rows) != std::string::npos);
}

TEST_CASE("a row whose status does not count is set aside with its name, whatever else it holds") {
  const Roster roster = read_roster("name,tier,quantity,Order Status\n"
                                    "Ada,full,1,Paid\n"
                                    "Bo,full,1, UNPAID \n"
                                    "Cy,nothing,none,Canceled\n"
                                    "Di,full,1,refunded\n"
                                    "Ed,full,1,test\n"
                                    "Fy,full,1,\n"
                                    "Gil,full,1,on hold\n",
                                    project(), 0);
  REQUIRE(roster.orders.size() == 3);
  CHECK(roster.orders[0].status == OrderStatus::Paid);
  CHECK(roster.orders[1].status == OrderStatus::Open);
  CHECK(roster.orders[2].status == OrderStatus::Unsaid);
  REQUIRE(roster.set_aside.size() == 3);
  CHECK(roster.set_aside[0].name == "Cy");
  CHECK(roster.set_aside[0].status == OrderStatus::Cancelled);
  CHECK(roster.set_aside[1].status == OrderStatus::Refunded);
  CHECK(roster.set_aside[2].status == OrderStatus::Test);
  CHECK(roster.left_out == std::vector<int>{8});
  CHECK(codes(roster) == "order-status@8:12 roster-left-out@0:0 ");
}

TEST_CASE("a date with a time of day behind it is that day; another is told and the row counts") {
  const Roster roster = read_roster("name,tier,timestamp\n"
                                    "Ada,full,2027-03-16T22:10:00Z\n"
                                    "Bo,full,2027-03-16 22:10\n"
                                    "Cy,full,3/16/27\n",
                                    project(), 0);
  REQUIRE(roster.orders.size() == 3);
  CHECK(iso_text(*roster.orders[0].date) == "2027-03-16");
  CHECK(iso_text(*roster.orders[1].date) == "2027-03-16");
  CHECK_FALSE(roster.orders[2].date);
  CHECK(codes(roster) == "order-date@4:9 ");
}

TEST_CASE("a row whose cells may have moved is left out rather than guessed at") {
  const Roster roster = read_roster("name,tier,note\n"
                                    "Ada,full,well, well\n"
                                    "Bo,full,\"said \"so\" twice\"\n"
                                    "Cy,full,\n"
                                    "Di,full\n"
                                    "Ed,full,,,\n",
                                    project(), 0);
  CHECK(roster.left_out == std::vector<int>{2, 3});
  REQUIRE(roster.orders.size() == 3); // missing and empty surplus cells harm nobody
  CHECK(roster.orders[0].name == "Cy");
}

TEST_CASE("letters that are not UTF-8 are told and replaced; names in any script are kept") {
  const Roster roster = read_roster("name,tier\nJos\xE9,full\nעדה,full\n", project(), 0);
  REQUIRE(roster.orders.size() == 2);
  CHECK(roster.orders[0].name == "Jos\uFFFD");
  CHECK(roster.orders[1].name == "עדה");
  CHECK(codes(roster) == "roster-encoding@2:1 ");
}

TEST_CASE("a code point that is no character is told and replaced, where it stands") {
  const Roster roster =
      read_roster("name,tier\n\uE000\uFFFF\U0010FFFF,full\nAda,full\n", project(), 0);
  REQUIRE(roster.orders.size() == 2);
  CHECK(roster.orders[0].name == "\uE000\uFFFD\uFFFD");
  CHECK(codes(roster) == "roster-encoding@2:1 ");
  CHECK(roster.findings.front().found == "U+FFFF, which is no character");
}

TEST_CASE("control characters and endless cells do no harm") {
  const std::string endless(100'000, 'x');
  const Roster roster = read_roster("name,tier\nA\x1B[2J\x07"
                                    "da,full\n" +
                                        endless + ",full\n",
                                    project(), 0);
  REQUIRE(roster.orders.size() == 2);
  CHECK(roster.orders[0].name == "A [2J da");
  CHECK(roster.orders[1].name.size() == 2000);
}

TEST_CASE("without a column of names, or with no table at all, an error says what is missing") {
  CHECK(has_errors(read_roster("tier,quantity\nfull,1\n", project(), 0).findings));
  CHECK(has_errors(read_roster("name,quantity\nAda,1\n", project(), 0).findings));
  CHECK(has_errors(read_roster("", project(), 0).findings));
  CHECK(has_errors(read_roster("\xFF\xFEn\0a\0", project(), 0).findings));
  Project one_tier = project();
  one_tier.tiers.resize(1);
  CHECK(read_roster("name\nAda\n", one_tier, 0).orders.size() == 1);
}

TEST_CASE("a hundred thousand bad rows are told in few words") {
  std::string csv = "name,tier\n";
  for (int i = 0; i < 100'000; ++i) csv += "Ada,none\n";
  const Roster roster = read_roster(csv, project(), 0);
  CHECK(roster.orders.empty());
  CHECK(roster.left_out.size() == 100'000);
  CHECK(roster.findings.size() <= 302);
}

TEST_CASE("orders in the project itself are read with the same rules") {
  const std::string text = R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P">
<supplies><stock id="kraft" sheet="letter"/><stamps id="orchard"><image id="tree" size="1 x 1"/></stamps></supplies>
<card id="c" title="C" form="top-fold" size="A2"><base stock="kraft"/></card>
<tier id="full" name="Full kit"/><tier id="parts"/>
<run><order name="Ada" tier="Full kit" quantity="2" owned="orchard" address="1 Lane|Fenmoor" date="2027-03-01"/>
<order name="Bo" tier="none"/><order name="Cy" tier="Full kit" status="refunded"/></run></project>)";
  const Reading reading = read_project(text, "here/p.xml");
  REQUIRE(reading.project.run.orders.size() == 1);
  CHECK(reading.project.run.orders[0].quantity == 2);
  CHECK(reading.project.run.orders[0].address == "1 Lane\nFenmoor");
  REQUIRE(reading.project.run.set_aside.size() == 1);
  CHECK(reading.project.run.set_aside[0].name == "Cy");
  REQUIRE(reading.findings.size() == 1);
  CHECK(reading.findings[0].code == "order-unknown-tier");
  CHECK(reading.findings[0].severity == Severity::Error);
}
