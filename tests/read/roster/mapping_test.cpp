#include "read/read.h"
#include "read/roster/roster.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <utility>
#include <vector>

// Exports as forms and spreadsheets write them: other headings, other words, several kits in a row.
// Rules of the table: RFC 4180. How forms, shops and spreadsheets export: common practice.

using namespace leafwright;

namespace {

Project project_with(std::string_view columns = {}) {
  const std::string text = R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P">
<supplies><stock id="kraft" sheet="letter"/>
<stamps id="orchard" name="Orchard stamps"><image id="tree" size="1 x 1"/></stamps>
<die id="circle" name="Circle die" size="2 x 2"/></supplies>
<card id="c" title="C" form="top-fold" size="A2"><base stock="kraft"/></card>
<tier id="full" name="Full kit"/><tier id="parts" name="Parts kit"/><run>)" +
                           std::string(columns) + "</run></project>";
  Reading reading = read_project(text, "here/p.xml");
  REQUIRE(reading.findings.empty());
  return std::move(reading.project);
}

// "Ada full 2, Bo parts 1"
std::string kits_of(const Roster& roster, const Project& of) {
  std::string all;
  for (const Order& order : roster.orders)
    all += (all.empty() ? "" : ", ") + order.name + " " +
           of.tiers.at(static_cast<std::size_t>(order.tier)).id + " " +
           std::to_string(order.quantity);
  return all;
}
std::string told_at(const Roster& roster) {
  std::string all;
  for (const Finding& finding : roster.findings)
    all += (all.empty() ? "" : " ") + finding.code + "@" + std::to_string(finding.place.line);
  return all;
}
const Finding& only(const Roster& roster, std::string_view code) {
  const Finding* found = nullptr;
  for (const Finding& finding : roster.findings)
    if (finding.code == code) {
      CHECK(found == nullptr);
      found = &finding;
    }
  REQUIRE(found != nullptr);
  return *found;
}
bool offers(const Finding& finding, std::string_view mapping) {
  return finding.fix.find(mapping) != std::string::npos;
}

constexpr std::string_view form_columns =
    R"(<column heading="Your name, please" means="name"/>
<column heading="Which kit?" means="tier"><value text="Option 1 - everything" means="full"/>
<value text="Option 2, no dies" means="parts"/></column>)";

} // namespace

TEST_CASE("headings and words of a form mean what the project says") {
  const Project of = project_with(form_columns);
  const Roster roster = read_roster("Your name, please,Which kit?\n\"ignored\"\n", of, 1);
  CHECK(roster.orders.empty()); // the comma parts the heading: it has to be quoted
  const Roster good = read_roster("\"Your  Name, PLEASE \",Which kit?\n"
                                  "Ada,option 1 - everything\nBo,\"Option 2, no dies\"\n",
                                  of, 1);
  CHECK(kits_of(good, of) == "Ada full 1, Bo parts 1");
  CHECK(told_at(good).empty());
}

TEST_CASE("several kits in one row make an order each") {
  const Project of = project_with(form_columns);
  const std::vector<std::pair<std::string_view, std::string_view>> cells = {
      {"full", "Ada full 1"},
      {"full; parts", "Ada full 1, Ada parts 1"},
      {"Full kit, Parts kit", "Ada full 1, Ada parts 1"},
      {"2x full, parts", "Ada full 2, Ada parts 1"},
      {"2 x Full kit; 3 x parts", "Ada full 2, Ada parts 3"},
      {"Parts kit x2", "Ada parts 2"},
      {"Full kit \u00D7 4", "Ada full 4"},
      {"2*parts\nfull", "Ada parts 2, Ada full 1"},
      {"Option 1 - everything; 2x Option 2, no dies", "Ada full 1, Ada parts 2"},
      {"0x full", ""},
      {"20000x full", ""},
      {"x full", ""},
      {"2 full", ""},
      {"full; nothing such", ""},
  };
  for (const auto& [cell, expected] : cells) {
    CAPTURE(cell);
    const Roster roster = read_roster("name,tier\nAda,\"" + std::string(cell) + "\"\n", of, 1);
    CHECK(kits_of(roster, of) == expected);
    CHECK(roster.left_out.empty() == !expected.empty());
  }
}

TEST_CASE("a quantity beside several kits may not contradict them") {
  const Project of = project_with();
  const auto read = [&](std::string_view tier, std::string_view quantity) {
    return kits_of(read_roster("name;tier;quantity\nAda;" + std::string(tier) + ";" +
                                   std::string(quantity) + "\n",
                               of, 1),
                   of);
  };
  CHECK(read("full", "2x") == "Ada full 2");
  CHECK(read("full", "x 2") == "Ada full 2");
  CHECK(read("full", "2,00") == "Ada full 2"); // a decimal comma
  CHECK(read("full", "2.0") == "Ada full 2");
  CHECK(read("full", "2,50").empty());
  CHECK(read("full", "two").empty());
  CHECK(read("full, parts", "1") == "Ada full 1, Ada parts 1");
  CHECK(read("full, parts", "2") == "Ada full 1, Ada parts 1");
  CHECK(read("full, parts", "3").empty());
  CHECK(read("2x full", "2") == "Ada full 2");
  CHECK(read("2x full", "3").empty());
}

TEST_CASE("each kit may have a column of its own") {
  const Project of = project_with(R"(<column heading="Full" means="quantity" tier="full"/>
<column heading="Parts" means="quantity" tier="parts"><value text="one" means="1"/></column>)");
  const Roster roster =
      read_roster("name,Full,Parts\nAda,2,\nBo,0,one\nCy,1,3\nDi,,\nEd,lots,1\n", of, 1);
  CHECK(kits_of(roster, of) == "Ada full 2, Bo parts 1, Cy full 1, Cy parts 3");
  CHECK(told_at(roster) == "order-quantity@5 order-quantity@6 roster-left-out@0");
}

TEST_CASE("several columns of one meaning are joined") {
  const Project of =
      project_with(R"(<column heading="First" means="name"/><column heading="Last" means="name"/>
<column heading="Street" means="address"/><column heading="Town" means="address"/>
<column heading="Stamps?" means="owned"><value text="I have them" means="orchard"/></column>
<column heading="Dies?" means="owned"><value text="yes" means="circle"/></column>)");
  const Roster roster = read_roster("First,Last,Street,Town,tier,Stamps?,Dies?\n"
                                    "Ada,Reed,1 Lane,Fenmoor,full,I have them,yes\n"
                                    "Bo,,,Sandbury,full,,\n",
                                    of, 1);
  REQUIRE(roster.orders.size() == 2);
  CHECK(roster.orders[0].name == "Ada Reed");
  CHECK(roster.orders[0].address == "1 Lane\nFenmoor");
  CHECK(roster.orders[0].owned.size() == 2);
  CHECK(roster.orders[1].name == "Bo");
  CHECK(roster.orders[1].address == "Sandbury");
  CHECK(told_at(roster).empty());
}

TEST_CASE("time stamps are read as the project says they are written") {
  const auto day = [](std::string_view days, std::string_view text) {
    const Project of =
        project_with("<column heading=\"At\" means=\"date\" days=\"" + std::string(days) + "\"/>");
    const Roster roster = read_roster("name;tier;At\nAda;full;" + std::string(text) + "\n", of, 1);
    REQUIRE(roster.orders.size() == 1);
    return roster.orders[0].date ? iso_text(*roster.orders[0].date) : told_at(roster);
  };
  CHECK(day("month-first", "3/4/2027 22:10:07") == "2027-03-04");
  CHECK(day("day-first", "3/4/2027 22:10:07") == "2027-04-03");
  CHECK(day("day-first", "16.03.27") == "2027-03-16");
  CHECK(day("day-first", "16-3-2027, 9:05") == "2027-03-16");
  CHECK(day("month-first", "16/3/2027") == "order-date@2");
  CHECK(day("day-first", "31/2/2027") == "order-date@2");
  CHECK(day("day-first", "2027-03-16") == "order-date@2");
  CHECK(day("year-first", "2027-03-16 9:05") == "2027-03-16");
}

TEST_CASE("headings that mean nothing are told once, with the mapping to paste") {
  const Project of = project_with();
  const Roster roster = read_roster("name,tier,Heard of us,Say \"hello\" <3,,Your full name\n"
                                    "Ada,full,at the fair,hi,,Ada Reed\n",
                                    of, 1);
  const Finding& finding = only(roster, "roster-headings");
  CHECK(finding.severity == Severity::Note);
  CHECK(finding.place.column == 11);
  CHECK(offers(finding, R"(<column heading="Heard of us" means="kept"/>)"));
  CHECK(offers(finding, "&quot;hello&quot; &lt;3\" means=\"kept\"/>"));
  // What is pasted silences it.
  const Project mapped = project_with(finding.fix.substr(finding.fix.find("<column")));
  CHECK(told_at(read_roster("name,tier,Heard of us,Say \"hello\" <3,Your full name\nAda,full,,,\n",
                            mapped, 1)) == "roster-table@1");
}

TEST_CASE("a list whose headings are all unknown offers what they may mean, and reads nothing") {
  const Project of = project_with();
  const Roster roster = read_roster("Your name?,Which option do you want?,Parts kit how many\n"
                                    "Ada,everything,1\n",
                                    of, 1);
  CHECK(roster.orders.empty());
  const Finding& finding = only(roster, "roster-columns");
  CHECK(finding.severity == Severity::Error);
  CHECK(offers(finding, R"(<column heading="Your name?" means="name"/>)"));
  CHECK(offers(finding, R"(<column heading="Which option do you want?" means="tier"/>)"));
  CHECK(offers(finding, R"(<column heading="Parts kit how many" means="quantity" tier="parts"/>)"));
}

TEST_CASE("words that mean nothing are told once for all rows, with the mapping to paste") {
  const Project of = project_with();
  const Roster roster = read_roster("name,Kit,status\n"
                                    "Ada,Option A,done\nBo,Option B,paid\nCy,Option A,done\n"
                                    "Di,fulll,done\n",
                                    of, 1);
  CHECK(roster.orders.empty());
  CHECK(roster.left_out.size() == 4);
  const Finding& tier = only(roster, "order-unknown-tier");
  CHECK(tier.found == "Option A (2\u00A0×), Option B (1\u00A0×), fulll (1\u00A0×)");
  CHECK(tier.place.line == 2);
  REQUIRE(tier.trace.size() == 3);
  CHECK(tier.trace[2].place.line == 5);
  CHECK(offers(tier, R"(<column heading="Kit" means="tier"><value text="Option A" means="…"/>)"));
  CHECK(offers(tier, R"(<value text="fulll" means="full"/></column>)"));
  CHECK(only(roster, "order-status").found == "done (3\u00A0×)");
}

TEST_CASE("days that cannot be read are told once, with the way they seem to be written") {
  const Project of = project_with();
  const auto offered = [&](std::string_view rows) {
    return only(read_roster("name;tier;Timestamp\n" + std::string(rows), of, 1), "order-date");
  };
  const Finding american = offered("Ada;full;3/16/2027 9:00\nBo;full;3/4/2027\n");
  CHECK(offers(american, R"(<column heading="Timestamp" means="date" days="month-first"/>)"));
  CHECK(american.trace.size() == 1);
  CHECK(offers(offered("Ada;full;16/3/2027\n"), R"(days="day-first"/>)"));
  CHECK_FALSE(offers(offered("Ada;full;next week\n"), "<column"));
}

TEST_CASE("a row whose id was there before counts once; without an id two alike are two") {
  const Project of = project_with();
  const std::string head = "Response ID,name,tier,status\n", ada = "a1,Ada,full,paid\n",
                    bo = "b2,Bo,parts,paid\n";
  const Roster once = read_roster(head + ada + bo, of, 1);
  const Roster twice = read_roster(head + ada + bo + ada + bo, of, 1);
  CHECK(kits_of(twice, of) == kits_of(once, of));
  CHECK(twice.left_out.empty());
  CHECK(told_at(twice) == "order-again@4 order-again@5");
  CHECK(twice.findings[0].severity == Severity::Note);
  // A late row between old ones is kept, and a row that changed is told.
  const Roster late =
      read_roster(head + ada + "c3,Cy,full,\n" + bo + "a1,Ada,full,cancelled\n", of, 1);
  CHECK(kits_of(late, of) == "Ada full 1, Cy full 1, Bo parts 1");
  REQUIRE(late.findings.size() == 1);
  CHECK(late.findings[0].severity == Severity::Warning);
  CHECK(kits_of(read_roster("name,tier\nAda,full\nAda,full\n", of, 1), of) ==
        "Ada full 1, Ada full 1");
}

TEST_CASE("a row of sums at the end is told and left out; a buyer of that name is not") {
  const Project of = project_with();
  const Roster roster =
      read_roster("name,tier,quantity\nAda,full,2\nBo,parts,1\nTotal:,,3\n,,\n", of, 1);
  CHECK(kits_of(roster, of) == "Ada full 2, Bo parts 1");
  CHECK(roster.rows == 2);
  CHECK(roster.left_out.empty());
  CHECK(told_at(roster) == "roster-sum@4");
  CHECK(roster.findings[0].fix.find("3 kits") != std::string::npos);
  CHECK(kits_of(read_roster("name,tier\nAda,full\nTotal,full\n", of, 1), of) ==
        "Ada full 1, Total full 1");
  CHECK(read_roster("name,tier\nTotal,\nAda,full\n", of, 1).left_out.size() == 1);
}

TEST_CASE("a title above the headings is pointed out") {
  const Roster roster =
      read_roster("Spring class,,\n,,\nName,Kit,Qty\nAda,full,1\n", project_with(), 1);
  CHECK(only(roster, "roster-columns").fix ==
        "take away what stands above line 3, where the columns are named");
}

TEST_CASE("swaps in a row with several kits are told, not guessed at") {
  const Project of = project_with();
  const Roster roster = read_roster("name,tier,swaps\nAda,\"full, parts\",circle\n", of, 1);
  CHECK(kits_of(roster, of) == "Ada full 1, Ada parts 1");
  CHECK(roster.orders[0].swaps.empty());
  CHECK(told_at(roster) == "order-whose-swaps@2");
}

TEST_CASE("exports as they are found are read, or refused with a hint") {
  const Project of = project_with();
  const std::string utf16 = [] {
    std::string text;
    for (const char c : std::string_view("name,tier\nAda,full\n")) (text += c) += '\0';
    return text;
  }();
  const auto swapped = [](std::string text) {
    for (std::size_t i = 0; i + 1 < text.size(); i += 2) std::swap(text[i], text[i + 1]);
    return text;
  };
  struct Export {
    std::string csv;
    std::string_view orders, codes;
  };
  const std::vector<Export> exports = {
      {"\xEF\xBB\xBFname;tier\r\nAda;full\r\n", "Ada full 1", ""},
      {"name\ttier\nAda\tfull\n", "Ada full 1", ""},
      {"name,tier\rAda,full\r", "Ada full 1", ""},
      {"\"name\",\"tier\"\n\"Ada\",\"full\"", "Ada full 1", ""},
      {"\n\n name , tier \n Ada , full \n", "Ada full 1", ""},
      {"name,tier\nAda,full\n,\n,\n", "Ada full 1", ""},
      {"name,tier,\nAda,full,\n", "Ada full 1", "roster-table@1"},
      {"\xFF\xFE" + utf16, "", "roster-table@1"},
      {"\xFE\xFF" + swapped(utf16), "", "roster-table@1"},
      {utf16, "", "roster-table@1"},
      {swapped(utf16), "", "roster-table@1"},
      {"name,tier\n\U0001F338 Ada \U0001F469\u200D\U0001F3A8,full\n",
       "\U0001F338 Ada \U0001F469\u200D\U0001F3A8 full 1", ""},
      {"name,tier\n\u200Fעדה כהן\u200F,full\n", "\u200Fעדה כהן\u200F full 1", ""},
      {"name,tier\nأمل \"A\" ريد,full\n", "أمل \"A\" ريد full 1", "roster-table@2"},
      {"name,tier\n\"Ada \"\"the reed\"\" Reed\",full\n", "Ada \"the reed\" Reed full 1", ""},
      {"name,tier\n\"Reed, Ada\",full\n", "Reed, Ada full 1", ""},
      {"name,tier\nReed, Ada,full\n", "", "roster-table@2 roster-left-out@0"},
      {"name;tier;quantity\nAda;full;1,0\n", "Ada full 1", ""},
      {"name,tier\n\"Ada\nReed\",full\n", "Ada Reed full 1", ""},
      {"name,tier\n\"Ada,full\nBo,full\n", "", "roster-table@2 roster-left-out@0"},
      {"name,tier,tier\nAda,full,parts\n", "Ada full 1", "roster-table@1 roster-headings@1"},
      {"Timestamp,name,tier\n2027-03-16T09:00:00+01:00,Ada,full\n", "Ada full 1", ""},
      {"name,tier\nAda,\nBo,full\n", "Bo full 1", "order-unknown-tier@2 roster-left-out@0"},
      {"name,tier\nAda,full\n,parts\n", "Ada full 1", "order-no-name@3 roster-left-out@0"},
      {"name,tier\n=Ada,full\n", "=Ada full 1", ""},
      {"name,tier\n'0042,full\n", "'0042 full 1", ""},
      {"name,tier\nAda\xC2\xA0Reed,full\n", "Ada\u00A0Reed full 1", ""},
      {"name,tier\nAda,FULL KIT\n", "Ada full 1", ""},
      {"name,tier\nAda,Full  kit\n", "Ada full 1", ""},
      {"sep=;\nname;tier\nAda;full\n", "Ada full 1", ""},
      {"sep=,\r\nname,tier\r\nAda,full\r\n", "Ada full 1", ""},
      {"sep=\nname,tier\nAda,full\n", "", "roster-columns@1"},
  };
  for (const Export& one : exports) {
    CAPTURE(one.csv);
    const Roster roster = read_roster(one.csv, of, 1);
    CHECK(kits_of(roster, of) == one.orders);
    CHECK(told_at(roster) == one.codes);
  }
}

TEST_CASE("amounts are read with either decimal mark; what is in doubt counts as not said") {
  const Project of = project_with();
  const auto paid = [&](std::string_view cell) {
    const Roster roster =
        read_roster("name;tier;paid\nAda;full;" + std::string(cell) + "\n", of, 1);
    REQUIRE(roster.orders.size() == 1);
    const Order& order = roster.orders[0];
    return order.paid ? std::to_string(order.paid->minor) : told_at(roster);
  };
  const std::vector<std::pair<std::string_view, std::string_view>> cells = {
      {"12.50", "1250"},
      {"12,50", "1250"},
      {"12,5", "1250"},
      {"12", "1200"},
      {"$12.50", "1250"},
      {"12,50 USD", "1250"},
      {"1,250.00", "125000"},
      {"1.250,00", "125000"},
      {"1.234.567,80", "123456780"},
      {"0", "0"},
      {"1,234", "order-money@2"},
      {"1.234", "order-money@2"},
      {"12,34,56", "order-money@2"},
      {"1,2345.00", "order-money@2"},
      {"-5", "order-money@2"},
      {"12.50 EUR", "order-money@2"},
      {"about 12", "order-money@2"},
  };
  for (const auto& [cell, expected] : cells) {
    CAPTURE(cell);
    CHECK(paid(cell) == expected);
  }
}

TEST_CASE("paid, sent, fetched and shared are read, and yes and no say whether it is paid") {
  const Project of = project_with(R"(<column heading="Bezahlt am" means="paid-on" days="day-first"/>
<column heading="Comes?" means="picked-up"><value text="Ja" means="yes"/></column>)");
  const Roster roster =
      read_roster("name,tier,paid,Bezahlt am,sent,Comes?,parcel,refunded,e-mail\n"
                  "Ada,full,yes,4.3.2027,RR 12,Ja,reed,,a@x.example\n"
                  "Bo,full,no,,,no,,,\nCy,full,12.50,,,,,2.50,\nDi,full,,,,perhaps,,,\n",
                  of, 1);
  REQUIRE(roster.orders.size() == 4);
  const Order& ada = roster.orders[0];
  CHECK(ada.status == OrderStatus::Paid);
  CHECK(iso_text(ada.paid_on.value()) == "2027-03-04");
  CHECK(ada.sent == "RR 12");
  CHECK(ada.picked_up);
  CHECK(ada.parcel == "reed");
  CHECK(ada.email == "a@x.example");
  CHECK(roster.orders[1].status == OrderStatus::Open);
  CHECK_FALSE(roster.orders[1].paid);
  CHECK(roster.orders[2].refunded.value().minor == 250);
  CHECK_FALSE(roster.orders[3].picked_up);
  CHECK(told_at(roster) == "order-status@5");
}

TEST_CASE("one row with several kits is paid once") {
  const Project of = project_with();
  const Roster roster = read_roster("name,tier,paid\nAda,\"full, parts\",20\n", of, 1);
  REQUIRE(roster.orders.size() == 2);
  CHECK(roster.orders[0].paid.value().minor == 2000);
  CHECK_FALSE(roster.orders[1].paid);
}
