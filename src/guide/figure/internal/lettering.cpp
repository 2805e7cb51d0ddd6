#include "guide/figure/internal/label_layout.h"

#include <algorithm>
#include <string_view>

namespace leafwright::figure {

namespace {

// "4 1/4" is set as 4¼: the space between a whole and its fraction becomes a hair.
void close_up_fractions(text::Shaped& words, int units_per_em) {
  constexpr std::string_view space = "\u00A0";
  const auto digit = [&](std::size_t at) {
    return at < words.text.size() && words.text[at] >= '0' && words.text[at] <= '9';
  };
  const auto before_fraction = [&](std::size_t at) {
    std::size_t end = at;
    while (digit(end)) ++end;
    return end > at && end < words.text.size() && words.text[end] == '/';
  };
  const std::int32_t hair = units_per_em / 28;
  for (text::Glyph& glyph : words.glyphs) {
    const std::size_t at = glyph.cluster;
    if (at == 0 || words.text.compare(at, space.size(), space) != 0 || glyph.advance <= hair)
      continue;
    if (!digit(at - 1) || !before_fraction(at + space.size())) continue;
    const double cut = static_cast<double>(glyph.advance - hair) / units_per_em;
    words.width -= Length{static_cast<std::int64_t>(cut * static_cast<double>(words.size.nm))};
    glyph.advance = hair;
  }
}

Lettering lettering_of(const Lettering& sizes, Length size) {
  Lettering letters = sizes;
  const text::Metrics metrics = sizes.fonts->metrics(sizes.fonts->face(text::Role::Text));
  letters.size = size;
  letters.em = in_mm(size);
  letters.above = letters.em * std::max(metrics.cap_height, 600) / 1000.0 + 0.08 * letters.em;
  letters.below = letters.em * 0.22;
  letters.leading = letters.em * 1.22;
  return letters;
}

} // namespace

Lettering lettering(const Look& look, const text::Fonts& fonts) {
  Lettering sizes;
  sizes.fonts = &fonts;
  const Length size = std::max(look.label_size, points(8));
  sizes.dimension = std::max({look.dimension_size, size, points(9)});
  sizes.badge = std::max(look.badge_size, points(12.5));
  return lettering_of(sizes, size);
}

Lettering dimension_lettering(const Lettering& letters) {
  return lettering_of(letters, letters.dimension);
}

double letter_width(const std::string& letter, const Lettering& letters, bool number) {
  const double high = in_mm(letters.badge) * (number ? number_height : 1.0);
  const double wide = in_mm(
      letters.fonts->width(letters.fonts->face(text::Role::TextBold), badge_text(letters), letter));
  return std::max(high, wide + 0.45 * high);
}

text::Shaped shaped(const Lettering& letters, const std::string& words, bool bold) {
  const int face = letters.fonts->face(bold ? text::Role::TextBold : text::Role::Text);
  text::Shaped result = letters.fonts->shape(face, letters.size, words);
  close_up_fractions(result, letters.fonts->units_per_em(face));
  return result;
}

double width_mm(const text::Shaped& words) { return in_mm(words.width); }

} // namespace leafwright::figure
