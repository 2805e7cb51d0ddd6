#include "output/html/internal/faces.h"

#include "measure/utf8.h"
#include "output/pictures.h"

#include <fmt/format.h>
#include <woff2/encode.h>

#include <array>
#include <cstdint>
#include <set>

namespace leafwright::html {

std::u32string characters_of(std::string_view utf8) {
  std::set<char32_t> found;
  for (detail::TextCursor cursor(utf8); !cursor.done();)
    if (const char32_t c = cursor.next(); c >= U' ' && c != detail::not_a_letter) found.insert(c);
  return {found.begin(), found.end()};
}

std::string font_faces(const text::Fonts& fonts, std::u32string_view characters) {
  struct StyledFace {
    text::Role role;
    const char *family, *style;
    int weight;
  };
  constexpr std::array faces{
      StyledFace{text::Role::Text, "leafwright-text", "normal", 400},
      StyledFace{text::Role::TextBold, "leafwright-text", "normal", 700},
      StyledFace{text::Role::TextItalic, "leafwright-text", "italic", 400},
      StyledFace{text::Role::Display, "leafwright-display", "normal", 400},
  };
  std::string rules;
  for (const StyledFace& face : faces) {
    const std::string file =
        woff(text::subset_for_screen(fonts, fonts.face(face.role), characters));
    if (file.empty()) continue; // the style sheet names others to fall back on
    rules += fmt::format("@font-face{{font-family:\"{}\";font-style:{};font-weight:{};"
                         "src:url(data:font/woff2;base64,{}) format(\"woff2\")}}\n",
                         face.family, face.style, face.weight, svg::base64(file));
  }
  return rules;
}

std::string woff(std::string_view font) {
  const auto* bytes = reinterpret_cast<const std::uint8_t*>(font.data());
  std::size_t size = woff2::MaxWOFF2CompressedSize(bytes, font.size());
  std::string out(size, '\0');
  if (!woff2::ConvertTTFToWOFF2(bytes, font.size(), reinterpret_cast<std::uint8_t*>(out.data()),
                                &size))
    return {};
  out.resize(size);
  return out;
}

} // namespace leafwright::html
