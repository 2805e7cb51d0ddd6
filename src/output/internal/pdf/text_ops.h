#pragma once

#include "output/internal/pdf/embedded_font.h"
#include "text/fonts.h"

#include <optional>
#include <string>
#include <vector>

namespace leafwright::pdf {

// A part of a run, to stand between BT and ET after font and position are set: glyph ids of two
// bytes, moved by the TJ operator to where shaping and justification want them (ISO
// 32000-1, 9.4.3).
struct TextPart {
  std::string operators;
  double start = 0; // from the run's beginning along its line, in thousandths of the font size
  // Set where the fonts' tables would not give the text, or not with its spaces: it must be said as
  // ActualText. Such a part is one on its own, so that its mark need not stand inside another's:
  // poppler 22.12 loses what follows a mark within a mark.
  std::optional<std::string> says;
};

// `word_space` widens each U+0020.
std::vector<TextPart> text_parts(const text::Fonts& fonts, const text::Shaped& shaped,
                                 Length word_space, FaceUse& use);

} // namespace leafwright::pdf
