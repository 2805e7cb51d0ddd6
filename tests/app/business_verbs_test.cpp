#include "shop.h"

#include "app/system/environment.h"

#include <doctest/doctest.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

// The offer and the money report as files, through the command line. Outside checks: pdfinfo
// (poppler), xmllint (libxml2), and Python's readers of HTML, CSV and JSON.

namespace fs = std::filesystem;
using namespace leafwright;
using namespace leafwright::app;

using leafwright::test::count_of;
using leafwright::test::Ran;
using leafwright::test::run_program;
using leafwright::test::sample;
using leafwright::test::Shop;

namespace {

// What a Python script prints that is given the file.
std::string told_by_python(const std::string& script, const std::string& bytes,
                           const char* suffix) {
  const tools::Folder folder;
  std::ofstream(folder.path("script.py"), std::ios::binary) << script;
  return tools::run_on(bytes, "/usr/bin/python3 '" + folder.path("script.py") + "' {}", suffix)
      .output;
}

int number_at(std::string_view bytes, std::size_t at) { // PNG: 4 bytes, the highest first
  int number = 0;
  for (std::size_t i = 0; i < 4; ++i)
    number = number * 256 + static_cast<unsigned char>(bytes.at(at + i));
  return number;
}

// The offer of the sample, made once.
const tools::Folder& offers() {
  static const tools::Folder folder;
  static const int code = run_program({"offer", sample("orchard-gate"), "-o", folder.path()}).code;
  REQUIRE(code == Done);
  return folder;
}

// Both offers of the sample that has a tier for the team.
const tools::Folder& offers_with_a_team() {
  static const tools::Folder folder;
  static const int code = run_program({"offer", sample("kelp-lantern"), "-o", folder.path()}).code;
  REQUIRE(code == Done);
  return folder;
}

constexpr const char* html_reader = R"PY(
import sys
from html.parser import HTMLParser
class Reader(HTMLParser):
    def __init__(self):
        super().__init__()
        self.open, self.h1, self.tables, self.captions, self.bare, self.lang = [], 0, 0, 0, 0, ''
        self.headings = []
    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        if tag == 'html': self.lang = given.get('lang', '')
        if tag == 'table': self.tables += 1
        if tag == 'caption': self.captions += 1
        if tag == 'th' and given.get('scope') not in ('col', 'row', 'rowgroup'): self.bare += 1
        if tag in ('h1', 'h2', 'h3', 'h4'): self.headings.append(int(tag[1]))
reader = Reader()
reader.feed(open(sys.argv[1], encoding='utf-8').read())
steps = [b - a for a, b in zip(reader.headings, reader.headings[1:])]
print(reader.lang, reader.headings.count(1), max(steps), reader.bare,
      reader.tables > 1 and reader.tables == reader.captions)
)PY";

constexpr const char* money_reader = R"PY(
import json, sys
book = json.load(open(sys.argv[1], encoding='utf-8'))
names = ('orders', 'kits', 'price', 'charged', 'goods', 'fees', 'postage', 'packing', 'margin')
for name in names:
    assert sum(tier[name] for tier in book['tiers']) == book['all'][name], name
for tier in book['tiers'] + [book['all']]:
    costs = tier['goods'] + tier['fees'] + tier['postage'] + tier['packing']
    assert tier['price'] + tier['charged'] - costs == tier['margin'], tier
assert book['all']['margin'] - book['outlays'] == book['result']
exact = [one for one in book['scenarios'] if not one['estimate']]
assert len(exact) == 1 and exact[0]['result'] == book['result'], exact
for one in book['scenarios']:
    assert one['brought'] - one['goods'] - one['selling'] - book['outlays'] == one['result'], one
print(book['currency'], len(book['tiers']), exact[0]['kits'])
)PY";

constexpr const char* table_reader = R"PY(
import csv, decimal, sys
rows = list(csv.DictReader(open(sys.argv[1], newline='', encoding='utf-8')))
money = lambda row, name: decimal.Decimal(row[name] or '0')
tiers = [row for row in rows if row['row'] == 'tier']
total = next(row for row in rows if row['row'] == 'total')
for name in ('price', 'charged', 'goods', 'fees', 'postage', 'packing', 'margin'):
    assert sum(money(row, name) for row in tiers) == money(total, name), name
result = next(row for row in rows if row['row'] == 'result')
assert money(total, 'margin') - money(result, 'outlays') == money(result, 'margin')
print(len(tiers), sum(row['row'] == 'planned' for row in rows))
)PY";

} // namespace

TEST_CASE("the offer is a PDF, a picture of each page for the web, a web page and a letter") {
  const std::string pdf = tools::read_file(offers().path("orchard-gate-offer.pdf"));
  CHECK(tools::run_on(pdf, "pdfinfo {} | grep '^Pages'").output.find(" 2\n") != std::string::npos);
  for (const char* page : {"1", "2"}) {
    const std::string png =
        tools::read_file(offers().path("orchard-gate-offer-" + std::string(page) + ".png"));
    REQUIRE(png.starts_with("\x89PNG\r\n\x1a\n"));
    CHECK(number_at(png, 16) == 1224); // 8 1/2 in of 144 dots
    CHECK(number_at(png, 20) == 1584); // 11 in
  }
  CHECK_FALSE(fs::exists(offers().path("orchard-gate-offer-3.png")));
  CHECK(tools::read_file(offers().path("orchard-gate-offer.txt")).starts_with("Orchard Gate"));
}

TEST_CASE("on A4 the offer's pages and pictures are A4") {
  const tools::Folder folder;
  REQUIRE(
      run_program({"offer", sample("orchard-gate"), "--paper", "a4", "-o", folder.path()}).code ==
      Done);
  const std::string pdf = tools::read_file(folder.path("orchard-gate-offer.pdf"));
  const std::string size = tools::run_on(pdf, "pdfinfo {} | grep '^Page size'").output;
  CHECK(size.find("A4") != std::string::npos);
  const std::string png = tools::read_file(folder.path("orchard-gate-offer-1.png"));
  CHECK(number_at(png, 16) == 1191); // 210 mm of 144 dots to the inch: 1190.55
}

TEST_CASE(
    "another parser reads the offer's web page: one h1, no level skipped, every head scoped") {
  for (const auto& [path, told] :
       {std::pair{offers().path("orchard-gate-offer.html"), "en-US 1 1 0 True\n"},
        std::pair{offers_with_a_team().path("team/kelp-lantern-offer-team.html"), // one table
                  "en-GB 1 1 0 False\n"}}) {
    CAPTURE(path);
    const std::string page = tools::read_file(path);
    CHECK(told_by_python(html_reader, page, ".html") == told);
    CHECK(tools::run_on(page, "xmllint --noout {}", ".html").output.empty());
    CHECK(page.find("<script") == std::string::npos);
    CHECK(page.find("url(http") == std::string::npos);
  }
}

TEST_CASE(
    "web page and letter say what the PDF says: amounts, dates with their weekday, the gift") {
  const std::string page = tools::read_file(offers().path("orchard-gate-offer.html"));
  const std::string letter = tools::read_file(offers().path("orchard-gate-offer.txt"));
  for (const std::string_view words :
       {"Tuesday, March 16, 2027", "Friday, April 2, 2027", "whole spool", "need"}) {
    CAPTURE(words);
    CHECK(page.find(words) != std::string::npos);
    CHECK(letter.find(words) != std::string::npos);
  }
  // Half a pack of 8.00.
  std::string flowed = letter;
  for (char& c : flowed)
    if (c == '\n') c = ' ';
  CHECK(flowed.find("half of the Windfall paper pack, worth $4.00.") != std::string::npos);
}

TEST_CASE("nothing of the team's tiers stands outside the team's own folder") {
  for (const auto& entry : fs::directory_iterator(offers_with_a_team().path())) {
    if (!entry.is_regular_file()) continue;
    CAPTURE(entry.path().string());
    std::string text = tools::read_file(entry.path().string());
    if (entry.path().extension() == ".pdf") text = tools::run_on(text, "pdftotext {} -").output;
    CHECK(text.find("Table set") == std::string::npos);
  }
  CHECK(tools::read_file(offers_with_a_team().path("team/kelp-lantern-offer-team.txt"))
            .find("Table set") != std::string::npos);
}

TEST_CASE("words of a project cannot become markup of the offer's page") {
  const Shop shop("name,tier\nAda,full\n", "",
                  R"(<blurb>A &lt;b onclick="x"&gt; &amp; more</blurb>)");
  REQUIRE(shop.make("offer").code == Done);
  const std::string page = shop.out("p-offer.html");
  CHECK(page.find("<b onclick") == std::string::npos);
  CHECK(page.find("&lt;b onclick=") != std::string::npos);
}

TEST_CASE("the money report is private, and other readers find that its data add up") {
  const tools::Folder folder;
  REQUIRE(run_program({"money", sample("orchard-gate"), "-o", folder.path()}).code == Done);
  for (const auto& entry : fs::directory_iterator(folder.path()))
    CHECK(entry.path().filename() == "private");
  const std::string stem = folder.path("private/orchard-gate-money");
  const std::string json = told_by_python(money_reader, tools::read_file(stem + ".json"), ".json");
  CHECK(json == "USD 4 28\n");
  const std::string csv = told_by_python(table_reader, tools::read_file(stem + ".csv"), ".csv");
  CHECK(csv == "4 1\n");
  const std::string words = tools::run_on(tools::read_file(stem + ".pdf"), "pdftotext {} -").output;
  CHECK(words.find("Not tax advice.") != std::string::npos);
  CHECK(words.find("others are estimates") != std::string::npos);
  CHECK(words.find("Quillfeather") == std::string::npos); // a buyer
}

TEST_CASE("the money report follows a top-up that a buyer pays") {
  const Shop shop("name,tier,quantity,owned,swaps\nAda,full,2,orchard,twine:5\n", "",
                  R"(<swap top-up="yes"/>)");
  REQUIRE(shop.make("money").code == Done);
  // Two kits at 30.00, and five spools are 25.00 for a credit of 20.00: 5.00 more for each kit.
  CHECK(shop.out("private/p-money.csv").find("tier,full,1,2,70.00,") != std::string::npos);
}

TEST_CASE("swaps beyond the credit are told by check at their cell, and kept off the slip") {
  const std::string roster = "name,tier,owned,swaps\nAda Reed,full,orchard,twine;twine:4\n";
  const Shop strict(roster);
  const Ran told = strict.check();
  CHECK(told.code == Done); // a warning: the order still counts
  CHECK(
      told.error.find("roster.csv:2:23: warning: Ada Reed takes more than the credit of $20.00") !=
      std::string::npos);
  CHECK(told.error.find("[order-over-credit]") != std::string::npos);
  REQUIRE(strict.make("packing-slips").code == Done);
  const std::string slip = strict.text_of("private/p-packing-slips.pdf");
  CHECK(slip.find("Credit $20.00, picked $5.00, $15.00 left over.") != std::string::npos);
  CHECK(strict.out("private/p-parcels.csv").find(",20.00,5.00,15.00,0.00,") != std::string::npos);

  const Shop paid(roster, "", R"(<swap top-up="yes"/>)");
  CHECK(paid.check().error.find("roster.csv:2:23: note: Ada Reed takes things worth $25.00 for a "
                                "credit of $20.00. Expected: $5.00 paid with the order") !=
        std::string::npos);
  REQUIRE(paid.make("packing-slips").code == Done);
  CHECK(paid.text_of("private/p-packing-slips.pdf").find("$5.00 to pay.") != std::string::npos);
}

TEST_CASE("check tells dates that contradict each other, or their weekday, or the work") {
  struct Case {
    const char* dates;
    const char* run;
    const char* code;
  };
  constexpr std::array cases{
      Case{R"(reply-by="2027-03-31" ship-by="2027-03-16")", "", "[date-order]"},
      Case{R"(ship-by="2027-03-28")", "", "[date-no-post]"}, // a Sunday
      Case{R"(reply-by="2027-03-16" ship-by="2027-03-18")",
           R"(<supplier name="Reed" lead-days="5"/>)", "[date-supplies-late]"},
      Case{R"(reply-by="2027-03-16" ship-by="2027-03-17")", "", "[date-no-time]"},
      Case{R"(ship-by="2027-03-31")", R"(<class date="Sat 2027-04-18" start="10:00"/>)", "weekday"},
      Case{R"(reply-by="Mon 2027-03-16" ship-by="2027-03-31")", "", "weekday"},
  };
  for (const Case& one : cases) {
    CAPTURE(one.dates);
    const Ran told = Shop("name,tier\nAda,full\n", one.run, "<swap/>", one.dates).check();
    CAPTURE(told.error);
    CHECK(told.error.find(one.code) != std::string::npos);
    CHECK(told.error.find("project.xml:") != std::string::npos);
  }
  const Ran good = Shop("name,tier\nAda,full\n").check();
  CHECK(good.error.find("[date-") == std::string::npos);
}

TEST_CASE("hostile cells of a roster leave the slips whole and the tables harmless") {
  const std::string right_to_left = "\xE2\x80\xAE"
                                    "drowssap"; // U+202E
  const Shop shop("name,tier,quantity,swaps,note\n"
                  "\"=cmd|' /C calc'!A0\",full,1,,\"+SUM(1)\"\n"
                  "\"<script>alert(1)</script>\",full,1,,\"a\"\"b,c\r\nd\"\n" +
                  right_to_left +
                  ",full,1,,\n"
                  "\xF0\x9F\x8C\xB3 Tree,full,1,,\n" // an emoji: no glyph
                  "\xFF\xFE broken,full,1,,\n"
                  "Huge,full,99999999999999999999,,\n"
                  "Much,full,1,twine: 999999999999999999999 in,\n" +
                  std::string(5000, 'x') + ",full,1,,\n");
  const Ran ran = shop.make("packing-slips");
  REQUIRE(ran.code == Done);
  CHECK(ran.error.find("\xE2\x80\xAE") == std::string::npos); // does not steer the terminal
  CHECK(ran.error.find("roster.csv:8:11: warning: 99999999999999999999. Expected: ") !=
        std::string::npos);
  CHECK(ran.error.find("page-missing-glyph") != std::string::npos);
  const std::string csv = shop.out("private/p-parcels.csv");
  const std::string cells =
      told_by_python("import csv, sys\n"
                     "rows = list(csv.reader(open(sys.argv[1], newline='', encoding='utf-8')))\n"
                     "print(len(rows), {len(row) for row in rows}, rows[1][1], rows[1][-1])\n",
                     csv, ".csv");
  CHECK(cells == "8 {21} '=cmd|' /C calc'!A0 '+SUM(1)\n");
  CHECK(shop.make("labels").code == Done);
  CHECK(shop.make("totals").code == Done);
}

TEST_CASE("a draft's labels say so, each of them") {
  const Shop shop("name,tier\nAda,full\nBo,full\nCy,full\n");
  REQUIRE(shop.make("labels").code == Done);
  CHECK(count_of(shop.text_of("private/p-labels.pdf"), "DRAFT") == 0);
  REQUIRE(shop.make("labels", {"--draft"}).code == Done);
  CHECK(count_of(shop.text_of("private/p-labels.pdf"), "DRAFT") == 3);
}
