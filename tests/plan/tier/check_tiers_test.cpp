#include "plan/tier/check_tiers.h"

#include "stall.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace leafwright;

namespace {

const Finding* spoken(const Findings& findings, std::string_view code) {
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [&](const Finding& one) { return one.code == code; });
  return found == findings.end() ? nullptr : &*found;
}

Findings check(std::initializer_list<std::pair<std::string_view, std::string_view>> replaced = {}) {
  return tiers::check(stall::project(replaced));
}

bool says(const Finding* finding, std::string_view words) {
  if (!finding) return false;
  const std::string all = finding->found + " " + finding->fix;
  INFO(all);
  CHECK(all.find(words) != std::string::npos);
  return all.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("every rule of tiers has an id of its own") {
  for (const fit::Rule& rule : tiers::rules()) {
    CHECK(rule.id.starts_with("tier-"));
    CHECK(std::count_if(tiers::rules().begin(), tiers::rules().end(),
                        [&](const fit::Rule& other) { return other.id == rule.id; }) == 1);
  }
}

TEST_CASE("the stall's tiers are in order") { CHECK(check().empty()); }

TEST_CASE("a cheaper tier and a shop beat a dearer one") {
  // The kit at 9.00 is 12.00 with postage; stamps 20.00 and a packet of domes 5.00 make 37.00. The
  // full kit at 38.00 and 3.00 is beaten by 4.00. (The booklet and the shop come to 38.00.)
  const auto with = [](std::string_view full) {
    return check({{R"(price="12.00")", R"(price="9.00")"}, {R"(price="30.00")", full}});
  };
  const Findings findings = with(R"(price="38.00")");
  const Finding* finding = spoken(findings, "tier-shop-beats");
  CHECK(says(finding, "Kit for $12.00 and $25.00 from a shop (set and dome) come to $37.00"));
  CHECK(says(finding, "ask at most $34.00"));
  CHECK(!spoken(with(R"(price="34.00")"), "tier-shop-beats"));
}

TEST_CASE("a tier that comes die-cut asks for no die") {
  const std::pair<std::string_view, std::string_view> owns{
      R"(<own item="set"/>)", R"(<own item="set"/><own item="oval"/>)"};
  CHECK(!spoken(check({owns}), "tier-die-for-ready"));
  const Findings findings = check(
      {owns, {R"(shipping="3.00" parts="cut")", R"(shipping="3.00" parts="cut" ready="die-cut")"}});
  CHECK(says(spoken(findings, "tier-die-for-ready"),
             "Kit comes die-cut and asks the buyer to own oval"));
}

TEST_CASE("a share of paper that is less than a kit is cut from is noted") {
  // Ten A2 fronts, four from a letter sheet: three sheets.
  const auto with = [](std::string_view amount) {
    return check({{R"(of-each="2")", R"(of-each="10")"},
                  {R"(<include item="tutorial"/>
  </tier>)",
                   amount}});
  };
  const Findings findings = with(R"(<include item="kraft" amount="2 sheets"/>
  </tier>)");
  CHECK(says(spoken(findings, "tier-paper-short"), "Booklet is short of 1 sheet of kraft"));
  CHECK(!spoken(with(R"(<include item="kraft" amount="3 sheets"/>
  </tier>)"),
                "tier-paper-short"));
}

TEST_CASE("a tier that only the team may take is no way out for a buyer") {
  const Findings findings =
      check({{R"(price="30.00")", R"(price="38.00")"},
             {R"(name="Kit" price="12.00")", R"(name="Kit" price="9.00" audience="team")"}});
  CHECK(says(spoken(findings, "tier-shop-beats"), "Booklet for $4.00"));
}

TEST_CASE("a tier that holds what it asks for contradicts itself") {
  const Findings findings = check({{R"(<own item="set"/>)", R"(<own any="silk set"/>)"}});
  CHECK(
      says(spoken(findings, "tier-owns-included"), "Kit asks the buyer to own silk and holds it"));
}

TEST_CASE("parts that need a thing neither held nor asked for are told") {
  const Findings findings = check({{R"(<own item="set"/>)", ""}});
  CHECK(says(spoken(findings, "tier-parts-missing"), "the parts of Kit need set"));
  CHECK(!spoken(
      check({{R"(<own item="set"/>)", ""},
             {R"(shipping="3.00" parts="cut")", R"(shipping="3.00" parts="cut" ready="stamped")"}}),
      "tier-parts-missing"));
}

TEST_CASE("a gift that turns a margin into a loss is told with the price that bears it") {
  // Ten kits bring 123.50 and cost 22.00. Ten dies as a gift are 70.00: still a gain. Ten stamp
  // sets are 200.00 and 1.00 more of postage each: a loss of 108.50. Each must bring 10.85 more,
  // and 3 % of what is asked goes: 11.19.
  CHECK(!spoken(check({{R"(<include item="dome" amount="4"/>)",
                        R"(<include item="dome" amount="4"/><include item="oval" gift="yes"/>)"}}),
                "tier-gift-loss"));
  const Findings findings =
      check({{R"(<include item="dome" amount="4"/>)",
              R"(<include item="dome" amount="4"/><include item="set" gift="yes"/>)"},
             {R"(<own item="set"/>)", ""}});
  CHECK(says(spoken(findings, "tier-gift-loss"),
             "with 10 kits of Kit the gift turns a margin of $101.50 into a loss of $108.50"));
  CHECK(says(spoken(findings, "tier-gift-loss"), "ask at least $23.19"));
  CHECK(!spoken(findings, "tier-loss"));
}

TEST_CASE("a tier that costs more than it brings is a note") {
  // 5.00 and 3.00, less a fee of 0.44, 1.50 and 0.50, is 5.56; the full kit's stamps alone
  // are 20.00.
  const Findings findings = check({{R"(price="30.00")", R"(price="13.00")"}});
  const Finding* finding = spoken(findings, "tier-loss");
  REQUIRE(finding);
  CHECK(finding->severity == Severity::Note);
  CHECK(says(finding, "supposed 10 kits of Full kit"));
}

TEST_CASE("a choice to swap for needs a price or a value") {
  const auto with = [](std::string_view choice) {
    return check({{R"(<swap top-up="yes"/>)", choice}});
  };
  CHECK(spoken(with(R"(<swap><choice item="plum"/></swap>)"), "tier-choice-unpriced"));
  CHECK(
      !spoken(with(R"(<swap><choice item="plum" value="6.00"/></swap>)"), "tier-choice-unpriced"));
}

TEST_CASE("as much as is needed of what nothing uses is nothing, and is said") {
  const Findings findings =
      check({{R"(<include item="tutorial"/>)",
              R"(<include item="tutorial"/><include item="gun"/><include item="spare-tape"/>)"},
             {"</supplies>", R"(<tool id="gun" name="Heat gun" risk="heat"/>
  <ribbon id="spare-tape" name="Spare ribbon" width="1/4" spool="90"/></supplies>)"}});
  const auto count = std::count_if(findings.begin(), findings.end(), [](const Finding& one) {
    return one.code == "tier-as-needed-nothing";
  });
  CHECK(count == 2);
  CHECK(says(spoken(findings, "tier-as-needed-nothing"), "holds Heat gun as needed"));
}
