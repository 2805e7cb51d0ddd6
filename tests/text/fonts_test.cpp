#include "text/fonts.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

using namespace leafwright;
using namespace leafwright::text;

namespace {

const Fonts& fonts() {
  static const Parsed<Fonts> read = standard_fonts(LEAFWRIGHT_SOURCE_DIR "/fonts");
  REQUIRE(read.ok());
  return *read;
}

const Length ten_points = points(10);

std::int64_t plain_width(const Shaped& shaped) {
  std::int64_t sum = 0;
  for (const Glyph& glyph : shaped.glyphs) sum += fonts().plain_advance(shaped.face, glyph.id);
  return sum;
}
std::int64_t shaped_width(const Shaped& shaped) {
  std::int64_t sum = 0;
  for (const Glyph& glyph : shaped.glyphs) sum += glyph.advance;
  return sum;
}

} // namespace

TEST_CASE("the standard fonts fill every role with a face of its own") {
  CHECK(fonts().count() == 6);
  CHECK(fonts().file_name(fonts().face(Role::Text)) == "Lato-Regular.ttf");
  CHECK(fonts().file_name(fonts().face(Role::DisplayItalic)) == "Vollkorn-SemiBoldItalic.ttf");
}

TEST_CASE("a missing font folder says which file and what to do") {
  const Parsed<Fonts> none = standard_fonts("/nowhere");
  REQUIRE_FALSE(none.ok());
  CHECK(none.parse_error().found.find("/nowhere/Lato-Regular.ttf") != std::string::npos);
  CHECK_FALSE(none.parse_error().fix.empty());
}

TEST_CASE("what is no font is refused") {
  Fonts some;
  CHECK_FALSE(some.add("notes.ttf", "this is a text").ok());
  CHECK_FALSE(some.add("empty.ttf", "").ok());
  const std::string_view whole = fonts().bytes(0);
  CHECK_FALSE(some.add("short.ttf", std::string(whole.substr(0, 4000))).ok());
  CHECK(some.count() == 0);
  CHECK(some.shape(0, ten_points, "words").glyphs.empty());
}

TEST_CASE("a font whose maker forbids embedding is refused") {
  std::string bytes(fonts().bytes(0));
  // The table directory's entries of 16 bytes start at 12; the offset is their third number. fsType
  // is at 8 of the OS/2 table (OpenType specification).
  const std::size_t entry = bytes.find("OS/2");
  std::size_t at = 0;
  for (std::size_t i = 0; i < 4; ++i)
    at = at << 8U | static_cast<unsigned char>(bytes.at(entry + 8 + i));
  bytes.at(at + 9) = '\x02';
  Fonts some;
  const Parsed<int> added = some.add("restricted.ttf", std::move(bytes));
  REQUIRE_FALSE(added.ok());
  CHECK(added.parse_error().found.find("forbids") != std::string::npos);
}

TEST_CASE("kerning draws V and A together and can be turned off") {
  const int face = fonts().face(Role::Text);
  const Shaped kerned = fonts().shape(face, ten_points, "AVAVA");
  CHECK(shaped_width(kerned) < plain_width(kerned));
  Features off;
  off.kerning = false;
  const Shaped loose = fonts().shape(face, ten_points, "AVAVA", off);
  CHECK(shaped_width(loose) == plain_width(loose));
}

TEST_CASE("a ligature is one glyph for several characters, and can be turned off") {
  const int face = fonts().face(Role::Display);
  Features off;
  off.ligatures = false;
  const auto joined = fonts().shape(face, ten_points, "ff").glyphs.size();
  CHECK(joined == 1);
  CHECK(fonts().shape(face, ten_points, "ff", off).glyphs.size() == 2);
}

TEST_CASE("a fraction takes other glyphs than its digits in every standard face") {
  for (int face = 0; face < fonts().count(); ++face) {
    CAPTURE(fonts().file_name(face));
    const Shaped real = fonts().shape(face, ten_points, "13/16");
    Features off;
    off.fractions = false;
    const Shaped plain = fonts().shape(face, ten_points, "13/16", off);
    REQUIRE(real.glyphs.size() == 5);
    CHECK(real.width < plain.width);
    for (std::size_t i = 0; i < 5; ++i) CHECK(real.glyphs[i].id != plain.glyphs[i].id);
    CHECK(real.glyphs[4].cluster == 4);
  }
}

TEST_CASE("the whole number before a fraction keeps its own figures") {
  const Shaped mixed = fonts().shape(0, ten_points, "4 1/4");
  const Shaped four = fonts().shape(0, ten_points, "4");
  CHECK(mixed.glyphs.front().id == four.glyphs.front().id);
  CHECK(mixed.glyphs.back().id != four.glyphs.back().id);
}

TEST_CASE("tabular figures are all of one width in every standard face") {
  Features tabular;
  tabular.tabular = true;
  for (int face = 0; face < fonts().count(); ++face) {
    CAPTURE(fonts().file_name(face));
    const Length one = fonts().width(face, ten_points, "1", tabular);
    for (const char digit : {'0', '2', '3', '4', '5', '6', '7', '8', '9'})
      CHECK(fonts().width(face, ten_points, std::string(1, digit), tabular) == one);
  }
}

TEST_CASE("figures in running text are proportional") {
  CHECK(fonts().width(0, ten_points, "1") < fonts().width(0, ten_points, "0"));
}

TEST_CASE("a fraction in a table keeps its small figures") {
  Features tabular;
  tabular.tabular = true;
  const Shaped in_table = fonts().shape(2, ten_points, "6 5/16", tabular);
  const Shaped in_text = fonts().shape(2, ten_points, "5/16");
  REQUIRE(in_table.glyphs.size() == 6);
  CHECK(in_table.glyphs.back().id == in_text.glyphs.back().id);
  CHECK(in_table.glyphs.back().advance == in_text.glyphs.back().advance);
}

TEST_CASE("figures stand on the line in the display face: none hangs below it") {
  // Vollkorn's default figures are old-style, whose 3 4 5 7 9 hang below the line.
  const int face = fonts().face(Role::Display);
  for (const char digit : {'3', '4', '5', '7', '9'}) {
    const Shaped shaped = fonts().shape(face, millimetres(100), std::string(1, digit));
    Length lowest{};
    for (const Segment& segment : fonts().outline(face, shaped.glyphs.front().id, shaped.size))
      if (segment.kind != Segment::Kind::Close) lowest = std::max(lowest, segment.end.y);
    CAPTURE(digit);
    CHECK(lowest < millimetres(3)); // y down; a round bottom may overshoot a little
  }
}

TEST_CASE("a run is as wide as its advances at its size, rounded once") {
  // At a size of one millimetre to the font unit the width in mm is the sum of the units.
  const Length size = millimetres(fonts().units_per_em(0));
  const Shaped shaped = fonts().shape(0, size, "Gate and trees");
  CHECK(shaped.width == millimetres(shaped_width(shaped)));
  CHECK(fonts().width(0, size, "Gate and trees") == shaped.width);
}

TEST_CASE("text that is no UTF-8 is shaped without harm") {
  const Shaped shaped = fonts().shape(0, ten_points, "a\xff\xfe\xc3");
  CHECK(shaped.glyphs.size() >= 2);
  for (const Glyph& glyph : shaped.glyphs) CHECK(glyph.cluster < 4);
}

TEST_CASE("metrics are at 1000 units to the em with descent below the line") {
  for (int face = 0; face < fonts().count(); ++face) {
    const Metrics metrics = fonts().metrics(face);
    CAPTURE(fonts().file_name(face));
    CHECK(metrics.ascent > metrics.cap_height);
    CHECK(metrics.cap_height > metrics.x_height);
    CHECK(metrics.x_height > 400);
    CHECK(metrics.x_height < 600);
    CHECK(metrics.descent < 0);
  }
}

TEST_CASE("clusters lead every glyph back to its first byte, accents included") {
  const Shaped shaped = fonts().shape(0, ten_points, "\u00e9t\u00e9");
  REQUIRE(shaped.glyphs.size() == 3);
  CHECK(shaped.glyphs[0].cluster == 0);
  CHECK(shaped.glyphs[1].cluster == 2);
  CHECK(shaped.glyphs[2].cluster == 3);
}
