#include "output/html/internal/faces.h"

#include "output/pictures.h"

#include <fmt/format.h>
#include <zlib.h>

#include <array>
#include <cstdint>
#include <set>

namespace leafwright::html {

std::u32string characters_of(std::string_view utf8) {
  std::set<char32_t> found;
  for (std::size_t at = 0; at < utf8.size();) {
    const auto lead = static_cast<unsigned char>(utf8[at]);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
    if (at + length > utf8.size()) break;
    char32_t character = length == 1 ? lead : lead & (0xffU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i)
      character = character << 6U | (static_cast<unsigned char>(utf8[at + i]) & 0x3fU);
    if (character >= U' ') found.insert(character);
    at += length;
  }
  return {found.begin(), found.end()};
}

std::string font_faces(const text::Fonts& fonts, std::u32string_view characters) {
  struct FontFace {
    text::Role role;
    const char *family, *style;
    int weight;
  };
  constexpr std::array faces{
      FontFace{text::Role::Text, "leafwright-text", "normal", 400},
      FontFace{text::Role::TextBold, "leafwright-text", "normal", 700},
      FontFace{text::Role::TextItalic, "leafwright-text", "italic", 400},
      FontFace{text::Role::Display, "leafwright-display", "normal", 400},
  };
  std::string rules;
  for (const FontFace& face : faces) {
    const std::string file =
        woff(text::subset_for_screen(fonts, fonts.face(face.role), characters));
    if (file.empty()) continue; // the style sheet names others to fall back on
    rules += fmt::format("@font-face{{font-family:\"{}\";font-style:{};font-weight:{};"
                         "src:url(data:font/woff;base64,{}) format(\"woff\")}}\n",
                         face.family, face.style, face.weight, svg::base64(file));
  }
  return rules;
}

namespace {

constexpr std::size_t font_header = 12, font_entry = 16; // OpenType: "sfnt" header, table record
constexpr std::size_t woff_header = 44, woff_entry = 20;

std::uint32_t word_at(std::string_view bytes, std::size_t at) {
  std::uint32_t word = 0;
  for (std::size_t i = 0; i < 4; ++i)
    word = word << 8U | static_cast<unsigned char>(bytes.at(at + i));
  return word;
}

void append_word(std::string& out, std::size_t word) {
  for (const unsigned shift : {24U, 16U, 8U, 0U})
    out.push_back(static_cast<char>(word >> shift & 0xffU));
}
void append_half(std::string& out, std::size_t half) {
  out.push_back(static_cast<char>(half >> 8U & 0xffU));
  out.push_back(static_cast<char>(half & 0xffU));
}

std::size_t padded(std::size_t length) { return (length + 3) / 4 * 4; }

std::string deflated(std::string_view table) {
  uLongf length = compressBound(static_cast<uLong>(table.size()));
  std::string out(length, '\0');
  const int failed =
      compress2(reinterpret_cast<Bytef*>(out.data()), &length,
                reinterpret_cast<const Bytef*>(table.data()), static_cast<uLong>(table.size()), 9);
  out.resize(failed == Z_OK ? length : 0);
  return failed == Z_OK && out.size() < table.size() ? out : std::string(table);
}

} // namespace

std::string woff(std::string_view font) {
  if (font.size() < font_header) return {};
  const std::size_t count = word_at(font, 2) & 0xffffU;
  if (font.size() < font_header + count * font_entry) return {};
  std::string directory, tables;
  std::size_t plain_size = font_header + count * font_entry;
  const std::size_t first = woff_header + count * woff_entry;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t entry = font_header + i * font_entry;
    const std::size_t offset = word_at(font, entry + 8), length = word_at(font, entry + 12);
    if (offset > font.size() || length > font.size() - offset) return {};
    const std::string packed = deflated(font.substr(offset, length));
    directory += font.substr(entry, 4);
    append_word(directory, first + tables.size());
    append_word(directory, packed.size());
    append_word(directory, length);
    directory += font.substr(entry + 4, 4); // its checksum
    tables += packed;
    tables.resize(padded(tables.size()));
    plain_size += padded(length);
  }
  std::string out = "wOFF";
  out += font.substr(0, 4); // the flavour
  append_word(out, first + tables.size());
  append_half(out, count);
  append_half(out, 0);
  append_word(out, plain_size);
  append_half(out, 1); // version 1.0
  append_half(out, 0);
  for (int i = 0; i < 5; ++i) append_word(out, 0); // no metadata, no private block
  return out + directory + tables;
}

} // namespace leafwright::html
