#pragma once

#include "text/fonts.h"

#include <string>
#include <string_view>

namespace leafwright::html {

// The characters of UTF-8 text, each once, in order. Control characters are left out.
std::u32string characters_of(std::string_view utf8);

// @font-face rules for the families "leafwright-text" (regular, bold, italic) and
// "leafwright-display", each with the characters of the page and no others.
std::string font_faces(const text::Fonts& fonts, std::u32string_view characters);

// A TrueType or OpenType font as WOFF 1.0 (W3C Recommendation, 13 December 2012): the same tables,
// each compressed where that makes it smaller. Empty when the font is damaged.
std::string woff(std::string_view font);

} // namespace leafwright::html
