#include "guide/plain/plain.h"

#include "guide/plain/lines.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::guide;

namespace {

Inlines words(std::string text) { return {Words{std::move(text)}}; }

Document with(std::vector<Block> blocks) {
  Document document;
  document.sections.push_back({"part", "", std::move(blocks)});
  return document;
}

Table three_kits() {
  Table table;
  table.caption = "What each kit holds";
  table.columns = {{words("Item"), Column::Align::Left, 1.0, true},
                   {words("Full kit"), Column::Align::Right, 1.0, false},
                   {words("Parts kit"), Column::Align::Left, 1.0, false},
                   {words("Paper"), Column::Align::Left, 1.0, false}};
  table.rows = {{Row::Kind::Group, {words("Ribbon")}},
                {Row::Kind::Plain,
                 {words("Rust grosgrain"), words("24\u00A0in"), words("whole spool"), words("–")}}};
  return table;
}

} // namespace

TEST_CASE(
    "lines are broken between words, at most as wide as asked, and never at a no-break space") {
  CHECK(plaintext::lines_of("four and 4\u00A01/4\u00A0in", 8) ==
        std::vector<std::string>{"four and", "4 1/4 in"});
  CHECK(plaintext::lines_of("unbreakable x", 4) == std::vector<std::string>{"unbreakable", "x"});
  CHECK(plaintext::lines_of("", 10) == std::vector<std::string>{""});
  CHECK(plaintext::wrapped("aa bb cc", 6, "- ", "  ") == "- aa\n  bb\n  cc\n");
  CHECK(plaintext::columns_of("ä½–") == 3);
}

TEST_CASE("headings are underlined as wide as they are, and one empty line parts what follows") {
  const std::string text = plain_text(with({{Heading{1, "", "Käse", "", "aside"}, {}},
                                            {Paragraph{{}, words("One.")}, {}},
                                            {Heading{2, "", "Two", "3", ""}, {}},
                                            {List{true, {words("a"), words("b")}}, {}}}));
  CHECK(text == "Käse, aside\n===========\n\nOne.\n\n3 Two\n-----\n\n1. a\n2. b\n");
}

TEST_CASE("a table stands in columns, figures at the right") {
  CHECK(plain_text(with({{three_kits(), {}}})) == "  Item            Full kit  Parts kit    Paper\n"
                                                  "Ribbon\n"
                                                  "  Rust grosgrain     24 in  whole spool  –\n");
}

TEST_CASE("columns give way until the table fits, and their words turn over") {
  PlainLook look;
  look.width = 40;
  const std::string text = plain_text(with({{three_kits(), {}}}), look);
  CHECK(text == "  Item      Full kit  Parts kit  Paper\n"
                "Ribbon\n"
                "  Rust         24 in  whole      –\n"
                "  grosgrain            spool\n");
}

TEST_CASE(
    "a table that is told names each column, then what its rows say, and passes over nothing") {
  PlainLook look;
  look.tables = PlainLook::Tables::OneCellALine;
  CHECK(plain_text(with({{three_kits(), {}}}), look) == "* Full kit\n"
                                                        "  - Rust grosgrain: 24 in\n"
                                                        "\n"
                                                        "* Parts kit\n"
                                                        "  - Rust grosgrain: whole spool\n"
                                                        "\n"
                                                        "* Paper\n");
}

TEST_CASE("a drawing is told by its words, and a letter is signed") {
  Figure figure;
  figure.scene.alternative = "The finished card.";
  figure.caption = words("Gate");
  PlainLook look;
  look.signature = "Fenmoor Paper Room, Edition\u00A03";
  CHECK(plain_text(with({{figure, {}}}), look) ==
        "- Gate: The finished card.\n\n-- \nFenmoor Paper Room, Edition 3\n");
}

TEST_CASE("a draft says so first") {
  Document draft = with({{Paragraph{{}, words("One.")}, {}}});
  draft.draft = true;
  CHECK(plain_text(draft) == "DRAFT: not for sale\n\nOne.\n");
}
