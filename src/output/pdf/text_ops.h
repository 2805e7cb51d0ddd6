#pragma once

#include "output/pdf/embedded_font.h"
#include "text/fonts.h"

#include <string>

namespace leafwright::pdf {

// Appends the strings of one run, to stand between BT and ET after font and position are set: glyph
// ids of two bytes, moved by the TJ operator to where shaping and justification want them (ISO
// 32000-1, 9.4.3). `word_space` widens each U+0020.
void append_glyphs(std::string& out, const text::Fonts& fonts, const text::Shaped& shaped,
                   Length word_space, FaceUse& use);

} // namespace leafwright::pdf
