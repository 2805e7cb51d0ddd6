#include "../orchard.h"

#include "guide/business/business.h"

#include "guide/business/internal/swap_table.h"
#include "guide/dump.h"
#include "guide/prose.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <sstream>

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::orchard_gate;

namespace {

Document orchard_offer(Tier::Audience audience) {
  return offer(orchard_gate(), supply::needs_of_kit(orchard_gate()), audience);
}

// The sample with a tier for the team.
const Project& lantern() {
  static const Reading reading =
      read_project_file(LEAFWRIGHT_SOURCE_DIR "/samples/kelp-lantern/project.xml");
  REQUIRE(reading.ok());
  return reading.project;
}

Document lantern_offer(Tier::Audience audience) {
  return offer(lantern(), supply::needs_of_kit(lantern()), audience);
}

bool offer_holds(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

const Table& holding_table(const Document& document) {
  for (const Section& section : document.sections)
    if (section.name == "offer-holds")
      for (const Block& block : section.blocks)
        if (const auto* table = std::get_if<Table>(&block.what)) return *table;
  FAIL("no table");
  std::abort();
}

} // namespace

TEST_CASE("the public offer says nothing of the team's tiers, in any of its forms") {
  const Document open = lantern_offer(Tier::Audience::Anyone);
  CHECK(!offer_holds(dump(open), "Table set"));
  CHECK(!offer_holds(offer_letter(open, lantern()), "Table set"));
  CHECK(!offer_holds(dump(open), "your own class"));
}

TEST_CASE("the team's offer holds its own tiers alone") {
  const Document document = lantern_offer(Tier::Audience::Team);
  const Table& table = holding_table(document);
  REQUIRE(table.columns.size() == 2);
  CHECK(spoken(table.columns[1].head) == "Table set");
}

TEST_CASE("dates stand with the weekday of the calendar") {
  // 16 March 2027 is a Tuesday, 2 April 2027 a Friday (ISO 8601 week 11 day 2, week 13 day 5).
  const std::string text = dump(orchard_offer(Tier::Audience::Anyone));
  CHECK(offer_holds(text, "Tuesday, March 16, 2027"));
  CHECK(offer_holds(text, "Friday, April 2, 2027"));
}

TEST_CASE("what stays open after the last day is told") {
  CHECK(offer_holds(dump(orchard_offer(Tier::Audience::Anyone)),
                    "“Tutorial only” stays available anytime."));
}

TEST_CASE("the table tells amounts, not ticks alone") {
  const Document document = orchard_offer(Tier::Audience::Anyone);
  const Table& table = holding_table(document);
  const auto row = std::find_if(table.rows.begin(), table.rows.end(), [](const Row& one) {
    return one.kind == Row::Kind::Plain && spoken(one.cells.at(0)) == "Plain linen twine";
  });
  REQUIRE(row != table.rows.end());
  CHECK(spoken(row->cells.at(1)) == "whole spool");
  CHECK(spoken(row->cells.at(2)) == "18\u00A0in");
}

TEST_CASE("the plain text keeps to its width and tells what each kit holds") {
  const std::string text = offer_letter(orchard_offer(Tier::Audience::Anyone), orchard_gate());
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    const auto wide = std::count_if(line.begin(), line.end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    });
    CHECK(wide <= 76);
  }
  CHECK(offer_holds(text, "* Parts kit"));
  CHECK(offer_holds(text, "  - Rust grosgrain ribbon: 30 in"));
  CHECK(!offer_holds(text, "\u00A0"));
}

TEST_CASE("what may be taken instead never exceeds the credit unless it says what is paid") {
  const std::optional<Table> table = swap_table(orchard_gate(), 0);
  REQUIRE(table);
  // By the rule of the sample only the stamps, the label die and the whole spool cost more than
  // 5.00; the cut parts give no credit of their own unless they are worth more than that.
  const auto row = std::find_if(table->rows.begin(), table->rows.end(), [](const Row& one) {
    return spoken(one.cells.at(0)) == "Rounded label die";
  });
  REQUIRE(row != table->rows.end());
  CHECK(spoken(row->cells.at(1)) == "$7.50");
  // The dearest thing within 7.50 is a pad at 7.00; a die at 6.00 and nothing else fits beside it.
  CHECK(offer_holds(spoken(row->cells.at(2)), "Moss ink, $7.00"));
  CHECK(!swap_table(orchard_gate(), 1)); // no rule of swaps
}

TEST_CASE("a project without tiers still has something to post") {
  Project project = orchard_gate();
  project.tiers.clear();
  const Document document = offer(project, supply::needs_of_kit(project), Tier::Audience::Anyone);
  CHECK(document.sections.size() == 1);
  CHECK(!has_offer(project, Tier::Audience::Anyone));
}
