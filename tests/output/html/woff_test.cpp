#include "output/html/internal/faces.h"
#include "web_page.h"

#include <doctest/doctest.h>

#include <woff2/decode.h>

#include <cstdint>
#include <string>

using namespace leafwright;

TEST_CASE("a WOFF file gives its font back: the same widths, the same outlines") {
  const std::string_view font = web_page::fonts().bytes(0);
  const std::string packed = html::woff(font);
  REQUIRE(packed.starts_with("wOF2"));
  CHECK(packed.size() < font.size() / 2);
  const auto* bytes = reinterpret_cast<const std::uint8_t*>(packed.data());
  std::string plain;
  woff2::WOFF2StringOut out(&plain);
  REQUIRE(woff2::ConvertWOFF2ToTTF(bytes, packed.size(), &out)); // the format's own decoder
  text::Fonts again;
  const Parsed<int> face = again.add("again.ttf", plain);
  REQUIRE(face.ok());
  const text::Shaped was = web_page::fonts().shape(0, points(10), "Cut 3 1/8 in: Tape");
  const text::Shaped is = again.shape(*face, points(10), "Cut 3 1/8 in: Tape");
  CHECK(is.width == was.width);
  REQUIRE(is.glyphs.size() == was.glyphs.size());
  for (std::size_t i = 0; i < is.glyphs.size(); ++i)
    CHECK(again.outline(*face, is.glyphs[i].id, points(10)) ==
          web_page::fonts().outline(0, was.glyphs[i].id, points(10)));
}

TEST_CASE("a damaged font gives nothing") {
  const std::string font(web_page::fonts().bytes(0));
  CHECK(html::woff("").empty());
  CHECK(html::woff(font.substr(0, 40)).empty());
  CHECK(html::woff(font.substr(0, font.size() / 2)).empty());
}

TEST_CASE("characters are counted once and in order") {
  CHECK(html::characters_of("b¼a\n≈a¼") == U"ab¼≈");
  CHECK(html::characters_of("a\xe2\x89").size() == 1); // cut short
}

TEST_CASE("a face for the screen can set fractions and keeps to the characters asked for") {
  const std::string part = text::subset_for_screen(web_page::fonts(), 0, U"Tape 123456789/0");
  Parsed<int> face = ParseError{};
  text::Fonts again;
  face = again.add("part.ttf", part);
  REQUIRE(face.ok());
  const auto plain = again.shape(*face, points(10), "1/2", {.fractions = false});
  const auto fraction = again.shape(*face, points(10), "1/2");
  CHECK(fraction.width < plain.width);
  CHECK(again.shape(*face, points(10), "Tape").width ==
        web_page::fonts().shape(0, points(10), "Tape").width);
  CHECK(again.shape(*face, points(10), "Z").glyphs.at(0).id == 0);
  CHECK(part.size() < web_page::fonts().bytes(0).size() / 10);
}
