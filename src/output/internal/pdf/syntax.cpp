#include "output/internal/pdf/syntax.h"

#include "basics/utf8.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace leafwright::pdf {
namespace {

char32_t shown_character(char32_t code) { return code > 0x10ffff ? U'\ufffd' : code; }

void append_hex_unit(std::string& out, unsigned unit) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  for (const unsigned shift : {12U, 8U, 4U, 0U}) out.push_back(digits[(unit >> shift) & 0xfU]);
}

bool is_plain(std::string_view text) {
  for (const char c : text)
    if (c < ' ' || c > '~') return false;
  return true;
}

struct Civil {
  std::chrono::year_month_day day;
  std::chrono::hh_mm_ss<std::chrono::seconds> time;
};
Civil civil(std::int64_t seconds) {
  const std::chrono::sys_seconds at{std::chrono::seconds{seconds}};
  const auto day = std::chrono::floor<std::chrono::days>(at);
  return {std::chrono::year_month_day{day}, std::chrono::hh_mm_ss{at - day}};
}
std::string dated(std::int64_t seconds,
                  fmt::format_string<int&, unsigned&, unsigned&, long&, long&, long&> form) {
  const Civil at = civil(seconds);
  int year = static_cast<int>(at.day.year());
  auto month = static_cast<unsigned>(at.day.month());
  auto day = static_cast<unsigned>(at.day.day());
  long hours = at.time.hours().count();
  long minutes = at.time.minutes().count();
  long secs = at.time.seconds().count();
  return fmt::format(form, year, month, day, hours, minutes, secs);
}

} // namespace

void append_number(std::string& out, std::int64_t value) {
  const fmt::format_int text(value);
  out.append(text.data(), text.size());
}

// Most of a page's operators are numbers: digits are gathered and appended at once.
void append_decimal(std::string& out, std::int64_t value, int decimals) {
  constexpr std::size_t most = 48; // sign, 20 figures, point, 18 decimals
  std::array<char, most> text{};
  std::size_t end = 0;
  if (value < 0) text[end++] = '-';
  std::uint64_t rest =
      value < 0 ? 0 - static_cast<std::uint64_t>(value) : static_cast<std::uint64_t>(value);
  std::array<char, 18> fraction{};
  const auto places = as_index(std::clamp(decimals, 0, 18));
  std::size_t used = 0; // decimals up to the last that is not 0
  for (std::size_t i = places; i-- > 0; rest /= 10) {
    fraction[i] = static_cast<char>('0' + rest % 10);
    if (used == 0 && fraction[i] != '0') used = i + 1;
  }
  if (rest != 0 || used == 0) {
    const fmt::format_int whole(rest);
    end = as_index(
        std::copy_n(whole.data(), whole.size(), text.begin() + static_cast<std::ptrdiff_t>(end)) -
        text.begin());
  }
  if (used > 0) {
    text[end++] = '.';
    end = as_index(
        std::copy_n(fraction.begin(), used, text.begin() + static_cast<std::ptrdiff_t>(end)) -
        text.begin());
  }
  out.append(text.data(), end);
}

void append_real(std::string& out, double value, int decimals) {
  constexpr double largest = 1e9;
  if (!std::isfinite(value) || std::abs(value) > largest) value = 0;
  double unit = 1;
  for (int i = 0; i < decimals; ++i) unit *= 10;
  append_decimal(out, std::llround(value * unit), decimals);
}

void append_points(std::string& out, Length a) {
  // 1 nm = 72 / 25 400 000 pt = 18 / 635 of 0.0001 pt; lengths here stay far below 10^17 nm.
  const std::int64_t doubled = a.nm * 36;
  const std::int64_t half = doubled < 0 ? -635 : 635;
  append_decimal(out, (doubled + half) / 1270, 4);
}

void append_box(std::string& out, Rect box, Length page_height) {
  out.push_back('[');
  append_points(out, box.left());
  out.push_back(' ');
  append_points(out, page_height - box.bottom());
  out.push_back(' ');
  append_points(out, box.right());
  out.push_back(' ');
  append_points(out, page_height - box.top());
  out.push_back(']');
}

void append_utf16_hex(std::string& out, std::string_view utf8) {
  for (detail::TextCursor cursor(utf8); !cursor.done();) {
    const char32_t character = shown_character(cursor.next());
    if (character < 0x10000) {
      append_hex_unit(out, character);
    } else {
      append_hex_unit(out, 0xd800U + ((character - 0x10000) >> 10U));
      append_hex_unit(out, 0xdc00U + ((character - 0x10000) & 0x3ffU));
    }
  }
}

char32_t character_at(std::string_view utf8, std::size_t at) {
  detail::TextCursor cursor(utf8);
  cursor.go_to(at);
  return shown_character(cursor.peek());
}

std::string utf16_string(std::string_view utf8) {
  std::string out = "<FEFF";
  append_utf16_hex(out, utf8);
  out.push_back('>');
  return out;
}

std::string byte_string(std::string_view bytes) {
  std::string out = "(";
  for (const char c : bytes) {
    if (c == '(' || c == ')' || c == '\\') out.push_back('\\');
    if (c == '\r')
      out += "\\r";
    else
      out.push_back(c);
  }
  out.push_back(')');
  return out;
}

std::string text_string(std::string_view utf8) {
  return is_plain(utf8) ? byte_string(utf8) : utf16_string(utf8);
}

std::string name(std::string_view text) {
  std::string out = "/";
  for (const char c : text) {
    constexpr std::string_view special = "#()<>[]{}/%";
    if (c > ' ' && c <= '~' && special.find(c) == std::string_view::npos)
      out.push_back(c);
    else
      out += fmt::format("#{:02X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
  }
  return out;
}

std::string date_string(std::int64_t seconds_since_1970) {
  return dated(seconds_since_1970, "(D:{:04}{:02}{:02}{:02}{:02}{:02}+00'00')");
}
std::string iso_date(std::int64_t seconds_since_1970) {
  return dated(seconds_since_1970, "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z");
}

} // namespace leafwright::pdf
