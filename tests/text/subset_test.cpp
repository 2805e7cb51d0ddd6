#include "text/fonts.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::text;

namespace {

std::vector<std::uint32_t> glyph_ids(const Shaped& shaped) {
  std::vector<std::uint32_t> ids;
  for (const Glyph& glyph : shaped.glyphs) ids.push_back(glyph.id);
  return ids;
}

// Offset of a table in a font file, 0 when there is none (OpenType: entries of 16 bytes from byte
// 12).
std::size_t table_at(std::string_view font, std::string_view tag) {
  const auto byte = [font](std::size_t at) {
    return static_cast<std::size_t>(static_cast<unsigned char>(font.at(at)));
  };
  const std::size_t count = byte(4) << 8U | byte(5);
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t entry = 12 + 16 * i;
    if (font.substr(entry, 4) == tag)
      return byte(entry + 8) << 24U | byte(entry + 9) << 16U | byte(entry + 10) << 8U |
             byte(entry + 11);
  }
  return 0;
}

} // namespace

TEST_CASE("a subset is far smaller and holds only what a PDF needs") {
  const Parsed<Fonts> fonts = standard_fonts(LEAFWRIGHT_SOURCE_DIR "/fonts");
  REQUIRE(fonts.ok());
  const Shaped shaped = (*fonts).shape(0, points(10), "Tape the scene to the mat.");
  const std::string part = subset(*fonts, 0, glyph_ids(shaped));
  CHECK(part.size() > 1000);
  CHECK(part.size() < (*fonts).bytes(0).size() / 20);
  for (const char* tag : {"glyf", "loca", "head", "hhea", "hmtx", "maxp"})
    CHECK(table_at(part, tag) != 0);
  for (const char* tag : {"GSUB", "GPOS", "cmap", "name", "OS/2"}) CHECK(table_at(part, tag) == 0);
}

TEST_CASE("the same glyphs give the same bytes, in any order") {
  const Parsed<Fonts> fonts = standard_fonts(LEAFWRIGHT_SOURCE_DIR "/fonts");
  REQUIRE(fonts.ok());
  const std::vector<std::uint32_t> up{40, 41, 42}, down{42, 41, 40};
  CHECK(subset(*fonts, 0, up) == subset(*fonts, 0, down));
}
