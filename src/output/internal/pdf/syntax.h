#pragma once

#include "measure/length.h"

#include <cstdint>
#include <string>
#include <string_view>

// The PDF's own spellings: numbers, strings, names, dates (ISO 32000-1, 7.3 and 7.9).

namespace leafwright::pdf {

// Appends value / 10^decimals without needless noughts: (125000, 4) -> "12.5".
void append_decimal(std::string& out, std::int64_t value, int decimals);
void append_number(std::string& out, std::int64_t value);
// To the nearest 10^-decimals; what is not a number becomes 0.
void append_real(std::string& out, double value, int decimals = 6);
// A length in points, to the nearest 0.0001 pt (35 nm), computed in whole numbers.
void append_points(std::string& out, Length a);

// A box of a page of that height as [left bottom right top], y up as PDF has it.
void append_box(std::string& out, Rect box, Length page_height);

// (text) for plain ASCII, else UTF-16BE in hexadecimal with its mark.
std::string text_string(std::string_view utf8);
// <FEFF...>; what is no UTF-8 becomes U+FFFD.
std::string utf16_string(std::string_view utf8);
void append_utf16_hex(std::string& out, std::string_view utf8);
// The character of UTF-8 text that begins at a byte; U+FFFD where none does.
char32_t character_at(std::string_view utf8, std::size_t at);
// A string of bytes in parentheses, escaped.
std::string byte_string(std::string_view bytes);
// "/Name", with what is no regular character as #xx.
std::string name(std::string_view text);
// D:20260131120000+00'00'
std::string date_string(std::int64_t seconds_since_1970);
// 2026-01-31T12:00:00Z, as XMP has it
std::string iso_date(std::int64_t seconds_since_1970);

} // namespace leafwright::pdf
