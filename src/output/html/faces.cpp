#include "output/html/faces.h"

#include "output/html/woff.h"
#include "output/svg/spelling.h"

#include <fmt/format.h>

#include <array>
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
  struct Face {
    text::Role role;
    const char *family, *style;
    int weight;
  };
  constexpr std::array faces{
      Face{text::Role::Text, "leafwright-text", "normal", 400},
      Face{text::Role::TextBold, "leafwright-text", "normal", 700},
      Face{text::Role::TextItalic, "leafwright-text", "italic", 400},
      Face{text::Role::Display, "leafwright-display", "normal", 400},
  };
  std::string rules;
  for (const Face& face : faces) {
    const std::string file =
        woff(text::subset_for_screen(fonts, fonts.face(face.role), characters));
    if (file.empty()) continue; // the style sheet names others to fall back on
    rules += fmt::format("@font-face{{font-family:\"{}\";font-style:{};font-weight:{};"
                         "src:url(data:font/woff;base64,{}) format(\"woff\")}}\n",
                         face.family, face.style, face.weight, svg::base64(file));
  }
  return rules;
}

} // namespace leafwright::html
