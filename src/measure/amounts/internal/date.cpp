#include "measure/amounts/amounts.h"

#include "measure/letters.h"

#include <fmt/format.h>

#include <array>

namespace leafwright {
namespace {

using detail::TextCursor;

constexpr std::string_view a_date = "a date written year-month-day, such as 2027-03-02";

constexpr std::array<std::string_view, 7> weekday_names = {
    "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};

// Full names and their beginnings of three letters or more: Tue, Tues, Thurs.
std::optional<std::chrono::weekday> weekday_called(std::string_view word) {
  if (word.size() < 3) return std::nullopt;
  for (unsigned i = 0; i < weekday_names.size(); ++i) {
    if (detail::starts_ignoring_case(weekday_names.at(i), word)) return std::chrono::weekday(i);
  }
  return std::nullopt;
}

// The next `count` characters as a number, or nothing when one of them is no digit.
std::optional<int> take_digits(TextCursor& cursor, int count) {
  int value = 0;
  for (int i = 0; i < count; ++i) {
    if (!detail::is_digit(cursor.peek())) return std::nullopt;
    value = value * 10 + static_cast<int>(cursor.peek() - U'0');
    cursor.advance();
  }
  return value;
}

} // namespace

Parsed<StatedDate> parse_date(std::string_view text) {
  TextCursor cursor(text);
  StatedDate result;
  cursor.skip_blanks();
  if (detail::is_ascii_letter(cursor.peek())) {
    const std::size_t from = cursor.at();
    while (detail::is_ascii_letter(cursor.peek())) cursor.advance();
    result.stated = weekday_called(text.substr(from, cursor.at() - from));
    if (!result.stated) {
      return detail::parse_error(text, from, cursor.at(), a_date,
                                 "only the name of a weekday may stand before the date");
    }
    if (!cursor.take(U'.')) cursor.take(U',');
    cursor.skip_blanks();
  }

  const std::size_t from = cursor.at();
  const std::size_t to = detail::end_of_word(text, from);
  const auto refuse = [&](std::string fix) {
    return detail::parse_error(text, from, to, a_date, std::move(fix));
  };
  const std::string shape = "write four digits for the year, two for the month, two for the day";
  if (cursor.done()) return detail::parse_error(text, from, from, a_date, shape);
  const auto year = take_digits(cursor, 4);
  if (!year || !cursor.take(U'-')) return refuse(shape);
  const auto month = take_digits(cursor, 2);
  if (!month || !cursor.take(U'-')) return refuse(shape);
  const auto day = take_digits(cursor, 2);
  if (!day) return refuse(shape);
  if (!cursor.done() && !detail::is_blank(cursor.peek())) return refuse(shape);
  cursor.skip_blanks();
  if (!cursor.done()) {
    return detail::misread_word(text, cursor.at(), a_date,
                                "nothing may follow the date; a weekday stands before it");
  }

  if (*year < 1900) return refuse("check the year; this one is long past");
  const std::chrono::year_month ym{std::chrono::year(*year),
                                   std::chrono::month(static_cast<unsigned>(*month))};
  if (!ym.month().ok()) return refuse("months run from 01 to 12");
  result.date = ym / std::chrono::day(static_cast<unsigned>(*day));
  if (!result.date.ok()) {
    const auto last = static_cast<unsigned>((ym / std::chrono::last).day());
    return refuse(fmt::format("{:04}-{:02} has the days 01 to {}", *year, *month, last));
  }
  return result;
}

std::string iso_text(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string_view weekday_name(std::chrono::weekday day) {
  return weekday_names.at(day.c_encoding() % weekday_names.size());
}

} // namespace leafwright
