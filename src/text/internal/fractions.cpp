#include "text/fractions.h"

#include "measure/letters.h"

namespace leafwright::text {
namespace {

constexpr std::string_view fraction_slash = "\u2044";

// Length in bytes of the slash at `at`, 0 when there is none.
std::size_t slash_at(std::string_view text, std::size_t at) {
  if (at >= text.size()) return 0;
  if (text[at] == '/') return 1;
  return text.substr(at).starts_with(fraction_slash) ? fraction_slash.size() : 0;
}

std::size_t digits_end(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(text[at])) ++at;
  return at;
}

// A number goes on before `begin`: 12/25/26, 0.1/2, A1/2.
bool joined_before(std::string_view text, std::size_t begin) {
  if (begin == 0) return false;
  const char before = text[begin - 1];
  if (before == '/' || is_letter(before) || text.substr(0, begin).ends_with(fraction_slash))
    return true;
  return (before == '.' || before == ',') && begin >= 2 && is_digit(text[begin - 2]);
}

// A number goes on from `end`. A full stop or comma with no digit after it only ends a sentence.
bool joined_after(std::string_view text, std::size_t end) {
  if (end == text.size()) return false;
  if (slash_at(text, end) != 0) return true;
  return (text[end] == '.' || text[end] == ',') && end + 1 < text.size() && is_digit(text[end + 1]);
}

} // namespace

std::vector<ByteRange> fractions_in(std::string_view text) {
  std::vector<ByteRange> found;
  std::size_t at = 0;
  while (at < text.size()) {
    if (!is_digit(text[at])) {
      ++at;
      continue;
    }
    const std::size_t begin = at;
    at = digits_end(text, begin);
    const std::size_t slash = slash_at(text, at);
    const std::size_t end = slash == 0 ? at : digits_end(text, at + slash);
    if (slash == 0 || end == at + slash) continue;
    if (!joined_before(text, begin) && !joined_after(text, end)) {
      found.push_back({begin, end});
      at = end;
    } else {
      // Step over the whole chain, so that the 25/26 of 12/25/26 is not taken for a fraction.
      at += slash;
    }
  }
  return found;
}

} // namespace leafwright::text
