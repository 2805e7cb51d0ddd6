#include "language/english.h"

#include "measure/letters.h"
#include "model/item.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace leafwright::words {
namespace {

constexpr std::array<std::string_view, 6> british_places{"gb", "ie", "au", "nz", "za", "in"};

constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

constexpr Terms american{"centered", "center", "all around", "color",   "gray", "millimeters",
                         "shipping", "ship",   "ships",      "shipped", "spool"};
constexpr Terms british{"centred", "centre",     "all round", "colour", "grey", "millimetres",
                        "postage", "are posted", "is posted", "posted", "reel"};

} // namespace

English english_of(std::string_view language) {
  const std::string tag = small_letters(language);
  if (!tag.starts_with("en-")) return English::American;
  const std::string_view place = std::string_view(tag).substr(3, 2);
  const bool known =
      std::find(british_places.begin(), british_places.end(), place) != british_places.end();
  return known ? English::British : English::American;
}

bool is_written(std::string_view language) {
  const std::string tag = small_letters(language);
  return tag.empty() || tag == "en" || tag.starts_with("en-");
}

const Terms& terms(English english) { return english == English::British ? british : american; }

std::string_view sold_as(std::string_view language, ItemKind kind) {
  return kind == ItemKind::Ribbon ? terms(language).spool : kind_row(kind).whole;
}

std::string day_text(English english, Date date) {
  if (!date.month().ok()) return iso_text(date);
  const auto day = static_cast<unsigned>(date.day());
  const auto year = static_cast<int>(date.year());
  const std::string_view month = months.at(static_cast<unsigned>(date.month()) - 1);
  return english == English::British ? fmt::format("{} {} {}", day, month, year)
                                     : fmt::format("{} {}, {}", month, day, year);
}

std::string long_day_text(English english, Date date) {
  if (!date.ok()) return iso_text(date);
  return fmt::format("{}{} {}", weekday_name(std::chrono::sys_days(date)),
                     english == English::British ? "" : ",", day_text(english, date));
}

std::string duration_text(std::int64_t seconds) {
  const std::int64_t minutes = (seconds + 59) / 60;
  if (minutes < 60) return fmt::format("{}\u00A0min", minutes);
  if (minutes % 60 == 0) return fmt::format("{}\u00A0h", minutes / 60);
  return fmt::format("{}\u00A0h {}\u00A0min", minutes / 60, minutes % 60);
}

int count_of_words(std::string_view sentence) {
  int count = 0, brackets = 0;
  bool inside = false, quoted = false;
  bool whole_number = false, after_whole = false; // "5" of "5 1/2": one number
  const auto begins = [&](std::size_t at, std::string_view mark) {
    return sentence.substr(at).starts_with(mark);
  };
  for (std::size_t i = 0; i < sentence.size(); ++i) {
    const char c = sentence[i];
    const bool no_break = begins(i, "\u00A0");
    if (c == ' ' || c == '\n' || no_break) {
      if (inside && !quoted) {
        after_whole = whole_number;
        inside = false;
      }
      if (no_break) ++i;
      continue;
    }
    if (c == '(') ++brackets;
    if (c == ')') --brackets;
    if (begins(i, "“")) {
      if (!inside && brackets == 0) ++count;
      quoted = inside = true;
      whole_number = after_whole = false;
    }
    if (begins(i, "”")) quoted = false;
    const bool letter = small_letter(c) != c || (c >= 'a' && c <= 'z');
    if (brackets > 0 || quoted || (!letter && !is_digit(c))) {
      if (inside && c != '/') whole_number = false;
      continue;
    }
    if (!inside) {
      inside = true;
      const std::string_view word = sentence.substr(i, sentence.substr(i).find(' '));
      const std::size_t slash = word.find('/');
      const bool fraction = is_digit(c) && slash != std::string_view::npos && slash <= 2;
      if (!(fraction && after_whole)) ++count;
      whole_number = is_digit(c) && !fraction;
      after_whole = false;
    }
    if (letter) whole_number = false;
  }
  return count;
}

} // namespace leafwright::words
