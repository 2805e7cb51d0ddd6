#include "shop.h"

#include "app/system/environment.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <string>

// From the roster on the disk to the files that are written. Outside check: pdftotext (poppler).

namespace fs = std::filesystem;
using namespace leafwright;
using namespace leafwright::app;

using leafwright::test::count_of;
using leafwright::test::Ran;
using leafwright::test::Shop;

TEST_CASE("a slip for each order, several on a page, with its changes and its weight") {
  const Shop shop("name,tier,quantity,owned,swaps\n"
                  "Ada Reed,full,2,,\n"
                  "Bo Wren,full,1,orchard,twine\n"
                  "Cy Moss,paper,1,,\n"
                  "Di Fern,booklet,1,,\n");
  const Ran ran = shop.make("packing-slips");
  CHECK(ran.error.find("warning") == std::string::npos);
  REQUIRE(ran.code == Done);
  const std::string text = shop.text_of("private/p-packing-slips.pdf");
  CHECK(count_of(text, "\f") == 1); // three slips, and those without a parcel below them
  CHECK(text.find("2 × Full kit · parcel 1 of 3") != std::string::npos);
  CHECK(text.find("Without the Orchard stamps, with the twine") != std::string::npos);
  CHECK(text.find("Check the shipping with your carrier") != std::string::npos);
  CHECK(text.find("Di Fern") > text.find("Sent by e-mail"));
}

TEST_CASE("where no kit is ordered or expected no paper is made of nothing, and a line says so") {
  const Shop shop("name,tier,quantity\n");
  for (const char* verb : {"cutting-plan", "buying-list", "money", "packing-slips", "totals"}) {
    CAPTURE(verb);
    const Ran ran = shop.make(verb);
    CHECK(ran.code == Done);
    CHECK(ran.error.find("no kits are ordered or expected") != std::string::npos);
    CHECK(shop.out(std::string("p-") + verb + ".pdf").empty());
    CHECK(shop.out(std::string("private/p-") + verb + ".pdf").empty());
  }
  // The days of the work are told all the same.
  CHECK(shop.make("calendar").code == Done);
  CHECK_FALSE(shop.out("p-calendar.pdf").empty());
}

TEST_CASE("the buying list follows the roster") {
  const Shop shop("name,tier,quantity\nAda,full,2\nBo,paper,3\n",
                  R"(<expect tier="full" kits="40"/>)");
  REQUIRE(shop.make("buying-list").code == Done);
  const std::string csv = shop.out("p-buying-list.csv");
  CHECK(csv.find("Orchard stamps") != std::string::npos);
  // Two sets of stamps for two kits, not for the forty that were expected.
  const std::size_t line = csv.find("Orchard stamps");
  CHECK(csv.substr(line, csv.find('\n', line) - line).find(",2,0,2") != std::string::npos);
}

TEST_CASE("an order that is cancelled, refunded or a test is nowhere, and a line says so") {
  const std::string live = "name,tier,quantity,status\nAda,full,2,paid\nBo,paper,3,open\n";
  const Shop shop(live +
                  "Cy,full,4,cancelled\nDi,paper,5,Refunded\nEd,full,6,TEST\nFy,,,canceled\n");
  const Shop alone(live);
  for (const char* verb :
       {"cutting-plan", "buying-list", "money", "packing-slips", "labels", "totals", "calendar"}) {
    CAPTURE(verb);
    const Ran ran = shop.make(verb);
    REQUIRE(ran.code == Done);
    REQUIRE(alone.make(verb).code == Done);
    CHECK(count_of(ran.error, "[order-not-counted]") == 4);
  }
  CHECK(shop.check().error.find("roster.csv:4:1: note: the order of Cy is marked cancelled") !=
        std::string::npos);
  for (const auto& entry : fs::recursive_directory_iterator(alone.path("out"))) {
    if (!entry.is_regular_file()) continue;
    const std::string name = fs::relative(entry.path(), alone.path("out")).generic_string();
    const std::string extension = entry.path().extension().string();
    if (extension != ".csv" && extension != ".json") continue;
    CAPTURE(name);
    CHECK(shop.out(name) == alone.out(name));
  }
  REQUIRE(shop.make("copies").code == Done);
  CHECK(shop.make("copies").out.starts_with("1 copy"));
}

TEST_CASE("a word of status that is not known leaves the row out and is told with its place") {
  const Shop shop("name,tier,status\nAda,full,paid\nBo,full,refundet\n");
  const Ran ran = shop.make("totals");
  CHECK(ran.code == Done);
  CHECK(ran.error.find("roster.csv:3:9: warning: refundet") != std::string::npos);
  CHECK(ran.error.find("did you mean refunded?") != std::string::npos);
  CHECK(ran.error.find("1 of 2 rows NOT counted: line 3") != std::string::npos);
}

TEST_CASE("notes are never read for a status") {
  const Shop shop("name,tier,note\nAda,full,please cancel\nBo,full,refunded\n");
  const Ran ran = shop.make("packing-slips");
  CHECK(ran.error.find("order-") == std::string::npos);
  CHECK(shop.text_of("private/p-packing-slips.pdf").find("parcel 2 of 2") != std::string::npos);
}

TEST_CASE("the slip, the table of parcels and the money report say what is not paid yet") {
  const Shop shop("name,tier,status\nAda,full,unpaid\nBo,full,paid\nCy,booklet,open\n");
  REQUIRE(shop.make("packing-slips").code == Done);
  const std::string slips = shop.text_of("private/p-packing-slips.pdf");
  CHECK(count_of(slips, "Not paid yet.") == 1);
  CHECK(slips.find("Cy (not paid yet)") != std::string::npos);
  CHECK(shop.out("private/p-parcels.csv").find(",open,") != std::string::npos);
  REQUIRE(shop.make("money").code == Done);
  CHECK(tools::run_on(shop.out("private/p-money.pdf"), "pdftotext {} - | tr '\\n' ' '")
            .output.find("35.00 from two open orders is not paid yet") != std::string::npos);
  CHECK(shop.make("copies").out.find("3 copies in ") == 0);
  CHECK(shop.make("copies").out.find("; not paid yet: 1, 3") != std::string::npos);
}

TEST_CASE(
    "an owner who takes nothing instead: asked about, left out or credited as the tier says") {
  const std::string roster = "name,tier,owned\nAda,full,orchard\nBo,full,\n";
  const Ran silent = Shop(roster).check();
  CHECK(count_of(silent.error, "[order-owned-twice]") == 1);
  CHECK(silent.error.find("roster.csv:2:1: warning: Ada owns Orchard stamps, and Full kit holds it "
                          "too") != std::string::npos);
  for (const char* choice : {"as-it-is", "nothing-instead", "credit"}) {
    CAPTURE(choice);
    const Shop shop(roster, "", "<swap/>", R"(reply-by="2027-03-16" ship-by="2027-03-31")", choice);
    const bool again = std::string_view(choice) == "as-it-is";
    CHECK(shop.check().error.find("order-owned-twice") == std::string::npos);
    REQUIRE(shop.make("packing-slips").code == Done);
    const std::string slips = shop.text_of("private/p-packing-slips.pdf");
    CHECK(count_of(slips, "Left out, since she has it.") == (again ? 0 : 1));
    CHECK(count_of(slips, "1 Orchard stamps") == (again ? 2 : 1));
    CHECK(count_of(slips, "20.00 comes off the price.") ==
          (std::string_view(choice) == "credit" ? 1 : 0));
    REQUIRE(shop.make("buying-list").code == Done);
    const std::string csv = shop.out("p-buying-list.csv");
    const std::size_t line = csv.find("Orchard stamps");
    CHECK(csv.substr(line, csv.find('\n', line) - line).find(again ? ",2,0,2" : ",1,0,1") !=
          std::string::npos);
    REQUIRE(shop.make("offer").code == Done);
    std::string offer = shop.out("p-offer.txt");
    for (std::size_t at = 0; (at = offer.find("\n  ")) != std::string::npos;) offer.erase(at, 2);
    for (char& c : offer) c = c == '\n' ? ' ' : c;
    CHECK(offer.find(again ? "your kit comes complete"
                     : std::string_view(choice) == "credit"
                         ? "comes off your price"
                         : "The price stays the same") != std::string::npos);
  }
}

TEST_CASE("the team's edition lies in its own folder, and parts alone get a key to their letters") {
  const Shop shop("name,tier\nAda,bits\n", "",
                  R"(</tier><tier id="team" name="Team kit" price="9" audience="team" parts="cut">)"
                  R"(<include item="tutorial"/><include item="parts"/></tier>)"
                  R"(<tier id="bits" name="Bits" price="8" parts="cut"><include item="parts"/>)");
  REQUIRE(shop.make("editions").code == Done);
  CHECK(fs::exists(shop.path("out/team/p-tutorial-team.pdf")));
  CHECK_FALSE(fs::exists(shop.path("out/p-tutorial-team.pdf")));
  CHECK_FALSE(fs::exists(shop.path("out/p-tutorial-bits.pdf")));
  const std::string key = shop.text_of("p-letters-bits.pdf");
  CHECK(key.find("Which letter is which") != std::string::npos);
  CHECK(key.find("Kraft base") != std::string::npos);
  CHECK(key.find("4 1/4 × 11 in") != std::string::npos);
  REQUIRE(shop.make("packing-slips").code == Done);
  CHECK(shop.text_of("private/p-packing-slips.pdf").find("Letter key: the page letters-bits") !=
        std::string::npos);
}

TEST_CASE("a name that a spreadsheet would run is made harmless in the table of parcels") {
  const Shop shop("name,tier,note\n=HYPERLINK(1),full,+1\n\"-2+3\",full,@SUM(A1)\n");
  REQUIRE(shop.make("packing-slips").code == Done);
  const std::string csv = shop.out("private/p-parcels.csv");
  CHECK(csv.find(",'=HYPERLINK(1),") != std::string::npos);
  CHECK(csv.find("'-2+3") != std::string::npos);
  CHECK(csv.find("'@SUM(A1)") != std::string::npos);
  CHECK(csv.find("'+1") != std::string::npos);
}

TEST_CASE("the table of parcels keeps what the roster alone knows, under its own heads") {
  const Shop shop("number,name,e-mail,tier,paid\n1043,Ada,ada@x.example,full,yes\n,Bo,,full,no\n");
  REQUIRE(shop.make("packing-slips").code == Done);
  const std::string csv = shop.out("private/p-parcels.csv");
  CHECK(csv.find("note,number,e-mail,paid") != std::string::npos);
  CHECK(csv.find(",1043,ada@x.example,yes") != std::string::npos);
  CHECK(csv.find(",,,no") != std::string::npos);
}

TEST_CASE("long names, accents and quotes are printed; letters without a glyph are named") {
  std::string endless;
  for (int i = 0; i < 150; ++i) endless += "Quill";
  const Shop shop("name,tier\nŁucja Żądło-Þórsdóttir,full\n" + endless + ",full\nשרה לוי,full\n");
  for (const char* verb : {"packing-slips", "labels"}) {
    CAPTURE(verb);
    const Ran ran = shop.make(verb);
    CHECK(ran.code == Done);
    CHECK(ran.error.find("page-missing-glyph") != std::string::npos);
    CHECK(ran.error.find("U+05E9") != std::string::npos);
    CHECK(ran.error.find("roster.csv:4:1") != std::string::npos);
    CHECK(ran.error.find("page-overfull") == std::string::npos);
  }
  CHECK(shop.text_of("private/p-packing-slips.pdf").find("Łucja Żądło-Þórsdóttir") !=
        std::string::npos);
}

TEST_CASE("bad rows are told with file, line and column, and the rest is made") {
  const Shop shop("name,tier\nAda,full\nBo,nothing\n");
  const Ran ran = shop.make("totals");
  CHECK(ran.code == Done);
  CHECK(ran.error.find("roster.csv:3:4: warning: nothing") != std::string::npos);
  CHECK(ran.error.find("1 of 2 rows NOT counted: line 3") != std::string::npos);
}

TEST_CASE("a roster that is not there stops what needs it, and nothing else") {
  const Shop shop("name,tier\nAda,full\n");
  fs::remove(shop.path("roster.csv"));
  CHECK(shop.make("totals").code == FoundErrors);
  CHECK(shop.make("tutorial").code == Done);
}

TEST_CASE("no buyer's name is in anything but slips, labels and the table of parcels") {
  const Shop shop("name,tier,address\nZebedee Quillfeather,full,Secretlane 7\n");
  REQUIRE(shop.make("all").code == Done);
  for (const auto& entry : fs::recursive_directory_iterator(shop.path("out"))) {
    if (!entry.is_regular_file()) continue;
    if (entry.path().parent_path().filename() == "private") continue;
    CAPTURE(entry.path().string());
    std::string text = tools::read_file(entry.path().string());
    if (entry.path().extension() == ".pdf") text = tools::run_on(text, "pdftotext {} -").output;
    CHECK(text.find("Zebedee") == std::string::npos);
    CHECK(text.find("Secretlane") == std::string::npos);
  }
}

TEST_CASE("labels stand where the sheet has them, to a hundredth of a millimetre") {
  std::string roster = "name,tier\n";
  for (int i = 0; i < 12; ++i) roster += "Xylo" + std::to_string(i) + ",full\n";
  // 2 x 5 labels of 4 x 2 in; two of the first sheet are gone.
  const Shop shop(
      roster, R"(<labels paper="letter" size="4 x 2" columns="2" rows="5" left="5/32" top="1/2")"
              R"( gap-across="3/16" first="3"/>)");
  REQUIRE(shop.make("labels").code == Done);
  const std::string boxes =
      tools::run_on(shop.out("private/p-labels.pdf"), "pdftotext -bbox {} -").output;
  CHECK(count_of(boxes, "<page ") == 2);
  for (int i = 0; i < 12; ++i) {
    CAPTURE(i);
    const std::size_t at = boxes.find(">Xylo" + std::to_string(i) + "<");
    REQUIRE(at != std::string::npos);
    const std::size_t line = boxes.rfind("<word", at);
    double x = 0, y = 0, right = 0, bottom = 0;
    REQUIRE(std::sscanf(boxes.c_str() + line,
                        "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &x, &y, &right,
                        &bottom) == 4);
    const int place = (i + 2) % 10;
    const double left = 72.0 * (5.0 / 32 + (place % 2) * (4 + 3.0 / 16));
    const double top = 72.0 * (0.5 + place / 2 * 2.0);
    const double margin = 72.0 / 25.4 * 4.0; // a sixteenth of the width, at most 4 mm
    CHECK(std::abs(x - (left + margin)) < 0.01 * 72 / 25.4);
    CHECK(y > top);
    CHECK(bottom < top + 144.0);
  }
}

TEST_CASE("labels that run off their paper are not made") {
  const Shop shop("name,tier\nAda,full\n",
                  R"(<labels paper="letter" size="4 x 2" columns="3" rows="5"/>)");
  const Ran ran = shop.make("labels");
  CHECK(ran.code == FoundErrors);
  CHECK(ran.error.find("label-off-sheet") != std::string::npos);
}

TEST_CASE("the calendar file is stamped with the project's date and says what is to be done") {
  const Shop shop("name,tier\nAda,full\n");
  REQUIRE(shop.make("calendar").code == Done);
  const std::string text = shop.out("p-calendar.ics");
  CHECK(text.find("DTSTAMP:20270302T000000Z\r\n") != std::string::npos);
  CHECK(text.find("SUMMARY:Cut paper (P)\r\n") != std::string::npos);
  CHECK(text.find("DTSTART;VALUE=DATE:20270331\r\n") != std::string::npos);
}
