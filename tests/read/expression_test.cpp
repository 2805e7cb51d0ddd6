#include "support.h"

using namespace leafwright;
using namespace leafwright::test;

namespace {

Reading panel_of_size(std::string_view size, std::string_view more = "") {
  return read_text(
      project_with("<panel id=\"mat\" stock=\"kraft\" on=\"front\" size=\"4 x 5 1/4\"/>"
                   "<panel id=\"p\" stock=\"kraft\" on=\"front\" size=\"" +
                   std::string(size) + "\"/>" + std::string(more)));
}

std::string size_as_text(std::string_view size) {
  const Reading reading = panel_of_size(size);
  if (!reading.ok()) return all_text(reading);
  return plain_blanks(exact_text(piece(reading, "p").size));
}

} // namespace

TEST_CASE("a size may be calculated from the measures of other things") {
  struct Row {
    std::string_view written;
    std::string_view meant;
  };
  for (const Row& row : {
           Row{"3 1/4 x 3 1/4", "3 1/4 × 3 1/4 in"},
           Row{"mat.width - 1/4 x mat.height - 1/4", "3 3/4 × 5 in"},
           Row{"mat.size - 1/4", "3 3/4 × 5 in"},
           Row{"mat.size * 1/2", "2 × 2 5/8 in"},
           Row{"half(mat.width) x 3", "2 × 3 in"},
           Row{"min(mat.width, 3 1/2) x max(1, 2, 1/2)", "3 1/2 × 2 in"},
           Row{"(mat.width + 1/2) / 3 x 2 * (1 + 1/2)", "1 1/2 × 3 in"},
           Row{"mat.width ÷ 4 x mat.height − 4.25", "1 × 1 in"},
           Row{"mat.width × 2", "4 × 2 in"}, // in a size the sign parts the two sides
           Row{"25.4 mm * 2 x 2.54 cm", "2 × 1 in"},
           Row{"front.width x front.height", "4 1/4 × 5 1/2 in"},
           Row{"card.size - 2 * 1/8 in", "4 × 5 1/4 in"},
           Row{"label-die.size + 1/4", "2 3/4 × 1 1/16 in"},
           Row{"c/mat.width - 3-1/2 x 1", "1/2 × 1 in"},
           Row{"mat.width * (mat.width / mat.width) x 1", "4 × 1 in"},
           Row{"mat.width -1/4 x1", "3 3/4 × 1 in"},
           Row{"2 - -1 x 1", "3 × 1 in"},
           Row{"mat.width - 25.4 millimetres x 1/4 in. + 3/4", "3 × 1 in"},
           Row{"mat.width - 3/8'' x 2.54 Centimeters * 1", "3 5/8 × 1 in"},
           Row{"mat.width - 3/8” x mat.height - 1 INCH", "3 5/8 × 4 1/4 in"},
       }) {
    CAPTURE(row.written);
    CHECK(size_as_text(row.written) == row.meant);
  }
}

TEST_CASE("a calculation that is no whole nanometre is rounded to the nearest") {
  const Reading reading = panel_of_size("mat.width / 3 x mat.width / 7");
  REQUIRE(reading.ok());
  CHECK(piece(reading, "p").size.width.nm == 33'866'667);
  CHECK(piece(reading, "p").size.height.nm == 14'514'286);
}

TEST_CASE("units that do not fit together are told with both kinds") {
  struct Row {
    std::string_view written;
    std::string_view code;
    std::string_view under;
  };
  for (const Row& row : {
           Row{"mat.width * mat.width x 1", "read-unit", "* mat.width"},
           Row{"1 / mat.width x 1", "read-unit", "/ mat.width"},
           Row{"mat.width / mat.height x 1", "read-unit", "mat.width / mat.height"},
           Row{"mat.width + mat.width / mat.height x 1", "read-unit", "+ mat.width / mat.height"},
           Row{"mat.width / 0 x 1", "read-unit", "/ 0"},
           Row{"mat.widht x 1", "read-unknown-property", "widht"},
           Row{"mta.width x 1", "read-unknown-name", "mta"},
           Row{"cc/mat.width x 1", "read-unknown-name", "cc/mat"},
           Row{"mat x 1", "read-expression", "mat"},
           Row{"mat.width + x 1", "read-expression", ""},
           Row{"half(mat.width x 1", "read-expression", "half"},
           Row{"third(mat.width) x 1", "read-expression", "third"},
           Row{"mat.width 2 x 1", "read-expression", "2"},
           Row{"mat.width - 9 x 1", "read-nothing-left", "mat.width - 9 x 1"},
           Row{"mat.width * 1000000000000 x 1", "read-too-large", "mat.width * 1000000000000"},
           Row{"mat.width - 1/4", "read-measure", "mat.width - 1/4"},
       }) {
    CAPTURE(row.written);
    const Reading reading = panel_of_size(row.written);
    REQUIRE_FALSE(reading.findings.empty());
    CHECK(reading.findings.front().code == row.code);
    if (!row.under.empty()) CHECK(marked(reading, reading.findings.front()) == row.under);
  }
}

TEST_CASE("a measure that leads back to itself is one finding with the whole chain") {
  const Reading reading =
      read_text(project_with("<panel id=\"a\" stock=\"kraft\" size=\"b.width x 1\"/>\n"
                             "<panel id=\"b\" stock=\"kraft\" size=\"half(d.height) x 1\"/>\n"
                             "<panel id=\"d\" stock=\"kraft\" size=\"1 x a.width + 1\"/>"));
  CHECK(
      all_text(reading) ==
      R"(here/p.xml:9:35: error: a.width depends on itself. Expected: measures that lead back to a written number. Fix: give one of them as a measure. [read-circle]
  <panel id="a" stock="kraft" size="b.width x 1"/>
                                    ^^^^^^^^^^^
  here/p.xml:9:35: a.width needs b.width
  here/p.xml:10:35: b.width needs d.height
  here/p.xml:11:35: d.height needs a.width
)");
}

TEST_CASE("an unknown name far down a chain says who needed it") {
  const Reading reading =
      read_text(project_with("<panel id=\"a\" stock=\"kraft\" size=\"b.width x 1\"/>\n"
                             "<panel id=\"b\" stock=\"kraft\" size=\"mta.width x 1\"/>"
                             "<panel id=\"mat\" stock=\"kraft\" inset=\"1/8\"/>"));
  REQUIRE(reading.findings.size() == 1);
  const Finding& finding = reading.findings.front();
  CHECK(finding.fix == "did you mean mat?");
  REQUIRE(finding.trace.size() == 1);
  CHECK(finding.trace.front().text == "a.width needs b.width");
}

TEST_CASE("names reach across cards, whichever comes first") {
  const std::string two = project_with(
      R"(<panel id="a" stock="kraft" size="d/b.width - 1 x 1"/></card>
<card id="d" title="D" form="flat" size="A2"><base stock="kraft"/><panel id="b" stock="kraft" size="3 x 3"/>)");
  const Reading reading = read_text(two);
  CHECK(all_text(reading) == "");
  CHECK(piece(reading, "a").size == Size{inches(2), inches(1)});
}

TEST_CASE("a long chain of names is refused before it can fill the stack") {
  std::string panels;
  for (int i = 0; i < 5000; ++i)
    panels += "<panel id=\"p" + std::to_string(i) + "\" stock=\"kraft\" size=\"p" +
              std::to_string(i + 1) + ".width x 1\"/>";
  panels += "<panel id=\"p5000\" stock=\"kraft\" size=\"1 x 1\"/>";
  CHECK(has_code(read_text(project_with(panels)), "read-chain"));
}

TEST_CASE("parentheses without end are refused before they can fill the stack") {
  const std::string many(100'000, '(');
  CHECK(has_code(panel_of_size(many + "1"), "read-expression"));
  const std::string closed = many + "1" + std::string(100'000, ')');
  CHECK_FALSE(panel_of_size(closed + " x 1").ok());
  CHECK_FALSE(panel_of_size(std::string(100'000, '-') + "1 x 1").ok());
}
