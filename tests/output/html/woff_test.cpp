#include "output/html/internal/faces.h"
#include "web_page.h"

#include <doctest/doctest.h>

#include <zlib.h>

#include <string>

using namespace leafwright;

namespace {

std::size_t word_at(std::string_view bytes, std::size_t at, std::size_t count = 4) {
  std::size_t word = 0;
  for (std::size_t i = 0; i < count; ++i)
    word = word << 8U | static_cast<unsigned char>(bytes.at(at + i));
  return word;
}

std::string plain_table(std::string_view woff, std::size_t entry) {
  const std::string_view packed = woff.substr(word_at(woff, entry + 4), word_at(woff, entry + 8));
  std::string out(word_at(woff, entry + 12), '\0');
  if (packed.size() == out.size()) return std::string(packed);
  auto length = static_cast<uLongf>(out.size());
  REQUIRE(uncompress(reinterpret_cast<Bytef*>(out.data()), &length,
                     reinterpret_cast<const Bytef*>(packed.data()),
                     static_cast<uLong>(packed.size())) == Z_OK);
  return out;
}

} // namespace

TEST_CASE("a WOFF file holds every table of its font, byte for byte") {
  const std::string_view font = web_page::fonts().bytes(0);
  const std::string packed = html::woff(font);
  REQUIRE(packed.size() > 44);
  CHECK(packed.starts_with("wOFF"));
  CHECK(word_at(packed, 8) == packed.size());
  const std::size_t count = word_at(packed, 12, 2);
  REQUIRE(count == word_at(font, 4, 2));
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t in_font = 12 + 16 * i, in_woff = 44 + 20 * i;
    CHECK(packed.substr(in_woff, 4) == font.substr(in_font, 4));
    CHECK(word_at(packed, in_woff + 4) % 4 == 0);
    CHECK(plain_table(packed, in_woff) ==
          font.substr(word_at(font, in_font + 8), word_at(font, in_font + 12)));
  }
  CHECK(packed.size() < font.size());
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
