#include "measure/length_units.h"

#include <algorithm>

namespace leafwright {
namespace {

bool joins_word(char32_t c) {
  return detail::is_ascii_letter(c) || detail::is_digit(c) || c == U'_';
}

// Whether a word of letters goes on at `behind`.
bool goes_on(const detail::TextCursor& behind) {
  if (!joins_word(behind.peek())) return false;
  if (behind.peek() != U'x' && behind.peek() != U'X') return true;
  detail::TextCursor after = behind;
  after.advance();
  return detail::is_ascii_letter(after.peek()) || after.peek() == U'_';
}

} // namespace

const LengthUnit& bare_unit(Unit bare) {
  const auto* found = std::ranges::find(length_units, bare, &LengthUnit::system);
  return found == length_units.end() ? length_units.front() : *found;
}

std::string unit_symbols() {
  std::string text;
  for (std::size_t i = 0; i < length_units.size(); ++i) {
    if (i > 0) text += i + 1 == length_units.size() ? " or " : ", ";
    text += length_units.at(i).spellings.front();
  }
  return text;
}

const LengthUnit* take_length_unit(detail::TextCursor& cursor) {
  const LengthUnit* best = nullptr;
  detail::TextCursor end = cursor;
  for (const LengthUnit& unit : length_units)
    for (const std::string_view spelling : unit.spellings) {
      if (spelling.empty() || !detail::starts_ignoring_case(cursor.rest(), spelling)) continue;
      detail::TextCursor behind = cursor;
      behind.go_to(cursor.at() + spelling.size());
      if (is_letter(spelling.front()) && goes_on(behind)) continue;
      if (best != nullptr && behind.at() <= end.at()) continue; // the longest one is meant
      best = &unit;
      end = behind;
    }
  cursor = end;
  return best;
}

bool is_length_unit(std::string_view word) {
  detail::TextCursor cursor(word);
  return take_length_unit(cursor) != nullptr && cursor.done();
}

} // namespace leafwright
