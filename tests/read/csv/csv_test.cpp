#include "read/csv/csv.h"

#include <doctest/doctest.h>

#include <string>

// The rules and the examples with aaa, bbb, ccc are those of RFC 4180, section 2.

namespace csv = leafwright::csv;

namespace {

std::string joined(const csv::Row& row) {
  std::string text;
  for (const csv::Cell& cell : row.cells) text += '[' + cell.text + ']';
  return text;
}

} // namespace

TEST_CASE("the last line may end with or without a line break") {
  for (const char* text : {"a,b,c\r\naaa,bbb,ccc\r\n", "a,b,c\r\naaa,bbb,ccc",
                           "a,b,c\naaa,bbb,ccc\n", "a,b,c\raaa,bbb,ccc\r"}) {
    const csv::Table table = csv::read(text);
    REQUIRE(table.rows.size() == 1);
    CHECK(joined(table.rows[0]) == "[aaa][bbb][ccc]");
    CHECK(table.problems.empty());
  }
}

TEST_CASE("a quoted cell may hold separators, line breaks and doubled quotes") {
  const csv::Table table = csv::read("a,b,c\r\n\"aaa\",\"b\r\nb,b\",\"c\"\"c\"\r\nzzz,yyy,xxx");
  REQUIRE(table.rows.size() == 2);
  CHECK(joined(table.rows[0]) == "[aaa][b\r\nb,b][c\"c]");
  CHECK(joined(table.rows[1]) == "[zzz][yyy][xxx]");
  CHECK(table.rows[1].place == csv::CellPlace{4, 1});
  CHECK(table.problems.empty());
}

TEST_CASE("blanks belong to the cell") {
  const csv::Table table = csv::read("a,b\n x , y\n");
  CHECK(joined(table.rows[0]) == "[ x ][ y]");
}

TEST_CASE("a byte order mark is skipped") {
  const csv::Table table = csv::read("\xEF\xBB\xBFname,copies\nbase,2\n");
  CHECK(table.column("name") == 0);
  CHECK(table.header.cells[0].place == csv::CellPlace{1, 1});
}

TEST_CASE("semicolons and tabs are recognised by the first line") {
  CHECK(csv::read("a;b;c\n1,5;2;3\n").rows[0].cells[0].text == "1,5");
  CHECK(csv::read("a\tb\n1;2\t3\n").rows[0].cells[0].text == "1;2");
  CHECK(csv::read("\"a;b;c\",d\n1,2\n").separator == ',');
}

TEST_CASE("columns are found by name in any order, whatever the case and blanks") {
  const csv::Table table = csv::read(" Copies ;WIDTH;id\n2;30;x\n");
  CHECK(table.column("id") == 2);
  CHECK(table.column("width") == 1);
  CHECK(table.column("copies") == 0);
  CHECK_FALSE(table.column("height").has_value());
}

TEST_CASE("every cell knows its line and character") {
  const csv::Table table = csv::read("a,b\n\xC3\xA4\xC3\xB6,x\n");
  CHECK(table.rows[0].cells[1].place == csv::CellPlace{2, 4});
}

TEST_CASE("blank lines are skipped but counted") {
  const csv::Table table = csv::read("\n\na,b\n\n1,2\n  \n3,4\n");
  REQUIRE(table.rows.size() == 2);
  CHECK(table.rows[1].place.line == 7);
  CHECK(table.problems.empty());
}

TEST_CASE("an empty quoted cell alone on its line is a row") {
  CHECK(csv::read("a\n\"\"\n").rows.size() == 1);
}

TEST_CASE("all problems are reported, each at its place, and the rows are kept") {
  const csv::Table table = csv::read("a,,A\n1,2\n1,2,3,4\nx\"y,2,3\n\"q\"z,2,3\n1,2,\"open\n");
  REQUIRE(table.problems.size() == 7);
  CHECK(table.problems[0].place == csv::CellPlace{1, 3}); // no name
  CHECK(table.problems[1].place == csv::CellPlace{1, 4}); // named twice
  CHECK(table.problems[2].place == csv::CellPlace{2, 1}); // too few
  CHECK(table.problems[3].place == csv::CellPlace{3, 7}); // too many
  CHECK(table.problems[4].place == csv::CellPlace{4, 1}); // quote inside
  CHECK(table.problems[5].place == csv::CellPlace{5, 4}); // text after the quote
  CHECK(table.problems[6].place == csv::CellPlace{6, 5}); // not closed
  CHECK(table.rows.size() == 5);
  CHECK(table.rows[3].cells[0].text == "qz");
}

TEST_CASE("a table without any line and UTF-16 text say what is expected") {
  CHECK(csv::read("").problems.size() == 1);
  CHECK(csv::read("\n \n").problems.size() == 1);
  CHECK(csv::read(std::string("\xFF\xFE\x61\x00", 4)).problems[0].expected == "UTF-8 text");
}

TEST_CASE("a zero byte is reported and left out") {
  const csv::Table table = csv::read(std::string_view("a\nx\0y\n", 6));
  CHECK(table.problems.size() == 1);
  CHECK(table.rows[0].cells[0].text == "xy");
}

TEST_CASE("what is quoted is read back the same") {
  for (const std::string text : {"plain", "a,b", "say \"so\"", "two\nlines", " blank ", ""}) {
    const csv::Table table = csv::read("c,d\n" + csv::quoted(text) + ",x\n");
    CHECK(table.rows[0].cells[0].text == text);
    CHECK(table.problems.empty());
  }
}
