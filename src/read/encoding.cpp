#include "read/encoding.h"

#include "measure/text_cursor.h"

#include <fmt/format.h>

#include <cstdint>
#include <string_view>

namespace leafwright::reading {
namespace {

constexpr std::string_view utf8_wanted = "text in UTF-8";

// UTF-16 and UTF-32 show themselves by a mark or by the NUL in every second byte.
bool looks_wide(std::string_view text) {
  using namespace std::string_view_literals;
  return text.starts_with("\xFF\xFE"sv) || text.starts_with("\xFE\xFF"sv) ||
         text.starts_with("<\0"sv) || text.starts_with("\0<"sv) || text.starts_with("\0\0"sv);
}

} // namespace

bool check_encoding(const SourceText& source, std::int32_t file, Journal& journal) {
  const std::string_view text = source.text();
  const auto fault = [&](std::size_t at, std::string found, std::string expected,
                         std::string mend) {
    journal.error("read-encoding", source.place(file, at, 1), std::move(found), std::move(expected),
                  std::move(mend));
    return false;
  };
  if (looks_wide(text)) {
    return fault(0, "a file in UTF-16 or UTF-32", std::string(utf8_wanted),
                 "save the file again with the encoding UTF-8");
  }
  detail::TextCursor cursor(text);
  while (!cursor.done()) {
    const std::size_t at = cursor.at();
    const auto byte = static_cast<std::uint8_t>(text[at]);
    if (byte >= 0x20 && byte < 0x7F) { // the common case, without decoding
      cursor.go_to(at + 1);
      continue;
    }
    const char32_t c = cursor.peek();
    if (c == 0) {
      return fault(at, "a NUL byte", "text", "the file is damaged or not a text file; restore it");
    }
    if (c == detail::not_a_letter) {
      return fault(at, fmt::format("the byte {:02X}, which is not UTF-8", unsigned{byte}),
                   std::string(utf8_wanted),
                   "save the file again with the encoding UTF-8; it may be in Latin-1 or "
                   "Windows-1252");
    }
    const bool control = c < 0x20 && c != U'\t' && c != U'\n' && c != U'\r';
    if (control || c == 0xFFFE || c == 0xFFFF) {
      return fault(at, fmt::format("the control character U+{:04X}", static_cast<unsigned>(c)),
                   "characters that XML allows", "delete the character");
    }
    cursor.advance();
  }
  return true;
}

} // namespace leafwright::reading
