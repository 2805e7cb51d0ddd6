#include "measure/amounts/amounts.h"

#include "measure/letters.h"
#include "measure/parse_length.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>

namespace leafwright {
namespace {

using detail::TextCursor;

constexpr std::string_view a_mass = "a mass such as 12 g, 0.5 kg or 1.5 oz";
constexpr std::string_view a_grammage = "a paper weight such as 216 gsm or 80 lb cover";
constexpr std::int64_t heaviest_mg = 10'000'000'000; // 10 t
constexpr std::int64_t heaviest_paper = 10'000'000;  // 10 000 g/m², thicker than any board
// The international avoirdupois pound of 1959 is 453.592 37 g, an ounce a sixteenth of it.
constexpr std::int64_t mg_per_100_lb = 45'359'237;

struct MassUnit {
  std::string_view text;
  std::int64_t mg; // per `parts` of the unit
  std::int64_t parts;
};
constexpr std::array mass_units = {
    MassUnit{"g", 1'000, 1},
    MassUnit{"gram", 1'000, 1},
    MassUnit{"grams", 1'000, 1},
    MassUnit{"kg", 1'000'000, 1},
    MassUnit{"mg", 1, 1},
    MassUnit{"oz", mg_per_100_lb, 1'600},
    MassUnit{"ounce", mg_per_100_lb, 1'600},
    MassUnit{"ounces", mg_per_100_lb, 1'600},
    MassUnit{"lb", mg_per_100_lb, 100},
    MassUnit{"lbs", mg_per_100_lb, 100},
    MassUnit{"pound", mg_per_100_lb, 100},
    MassUnit{"pounds", mg_per_100_lb, 100},
};

// The letters at the cursor, which moves behind them.
std::string_view take_word(TextCursor& cursor) {
  const std::size_t from = cursor.at();
  while (detail::is_ascii_letter(cursor.peek())) cursor.advance();
  return cursor.text().substr(from, cursor.at() - from);
}

std::optional<ParseError> refuse_sign(const TextCursor& cursor, std::string_view expected) {
  if (!detail::is_minus(cursor.peek())) return std::nullopt;
  return detail::misread_word(cursor.text(), cursor.at(), expected,
                              "a weight cannot be negative; leave the minus sign away");
}

bool is_pound(std::string_view word) {
  for (const std::string_view one : {"lb", "lbs", "pound", "pounds"}) {
    if (detail::same_ignoring_case(word, one)) return true;
  }
  return false;
}

std::optional<Grade> grade_called(std::string_view word) {
  struct Name {
    std::string_view text;
    Grade grade;
  };
  // Book and offset papers share the basic size of text, writing paper that of bond.
  constexpr std::array names = {Name{"cover", Grade::Cover}, Name{"text", Grade::Text},
                                Name{"book", Grade::Text},   Name{"offset", Grade::Text},
                                Name{"bond", Grade::Bond},   Name{"writing", Grade::Bond},
                                Name{"index", Grade::Index}};
  for (const Name& name : names) {
    if (detail::same_ignoring_case(name.text, word)) return name.grade;
  }
  return std::nullopt;
}

// Square micrometres of 500 basic sheets; exact, for each grade is a whole number of them.
std::int64_t ream_area(Grade grade) { return area(basic_size(grade)).um2 * 500; }
constexpr std::int64_t um2_per_m2 = 1'000'000'000'000;

// `g/m²`, `g/m2`, `g/m^2`, `gsm`.
bool take_per_area(TextCursor& cursor) {
  for (const std::string_view spelling : {"gsm", "g/m²", "g/m2", "g/m^2"}) {
    if (!detail::starts_ignoring_case(cursor.rest(), spelling)) continue;
    cursor.go_to(cursor.at() + spelling.size());
    return true;
  }
  return false;
}

std::int64_t rounded_to(std::int64_t value, std::int64_t unit) {
  return (value / unit + (value % unit >= unit - value % unit ? 1 : 0)) * unit;
}

} // namespace

Parsed<Mass> parse_mass(std::string_view text) {
  TextCursor cursor(text);
  cursor.skip_blanks();
  if (auto wrong = refuse_sign(cursor, a_mass)) return *wrong;
  const auto number = detail::read_number(cursor, a_mass);
  if (!number) return number.parse_error();
  const std::size_t number_end = cursor.at();
  cursor.skip_blanks();
  const std::size_t unit_at = cursor.at();
  if (cursor.done()) {
    return detail::parse_error(text, number.value().at, number_end, a_mass,
                               "say which unit: g, kg, oz or lb");
  }
  const std::string_view word = take_word(cursor);
  const MassUnit* unit = nullptr;
  for (const MassUnit& one : mass_units) {
    if (detail::same_ignoring_case(one.text, word)) unit = &one;
  }
  if (unit == nullptr) {
    return detail::misread_word(text, unit_at, a_mass, "the unit may be g, kg, mg, oz or lb");
  }
  cursor.skip_blanks();
  if (!cursor.done()) {
    return detail::parse_error(text, cursor.at(), text.size(), a_mass, "give one mass in one unit");
  }
  const auto mg = detail::times_nearest(*number, unit->mg, unit->parts);
  if (!mg || *mg > heaviest_mg) {
    return detail::parse_error(
        text, number.value().at, number_end, a_mass,
        "masses up to 10 000 kg can be given; check the number and its unit");
  }
  return Mass{*mg};
}

std::string mass_text(Mass mass) {
  const bool negative = mass.mg < 0;
  const std::int64_t mg = negative ? -mass.mg : mass.mg;
  std::string number;
  std::string_view unit = "g";
  if (rounded_to(mg, 1'000) >= 1'000'000) {
    number = detail::decimal_text(rounded_to(mg, 10'000) / 10'000, 2);
    unit = "kg";
  } else if (rounded_to(mg, 100) >= 10'000) {
    number = detail::decimal_text(rounded_to(mg, 1'000) / 1'000, 0);
  } else if (rounded_to(mg, 10) >= 1'000) {
    number = detail::decimal_text(rounded_to(mg, 100) / 100, 1);
  } else {
    number = detail::decimal_text(rounded_to(mg, 10) / 10, 2);
  }
  return fmt::format("{}{}\u00A0{}", negative ? "−" : "", number, unit);
}

Size basic_size(Grade grade) {
  switch (grade) {
  case Grade::Cover: return {inches(20), inches(26)};
  case Grade::Text: return {inches(25), inches(38)};
  case Grade::Bond: return {inches(17), inches(22)};
  case Grade::Index: return {inches(25, 1, 2), inches(30, 1, 2)};
  }
  return {inches(20), inches(26)};
}

Parsed<Grammage> parse_grammage(std::string_view text) {
  TextCursor cursor(text);
  cursor.skip_blanks();
  if (auto wrong = refuse_sign(cursor, a_grammage)) return *wrong;
  const auto number = detail::read_number(cursor, a_grammage);
  if (!number) return number.parse_error();
  const std::size_t number_at = number.value().at;
  const std::size_t number_end = cursor.at();
  cursor.skip_blanks();
  const std::size_t unit_at = cursor.at();
  if (cursor.done()) {
    return detail::parse_error(
        text, number_at, number_end, a_grammage,
        "say which weight: gsm, or lb with the grade (cover, text, bond, index)");
  }

  std::optional<std::int64_t> mg_per_m2;
  if (take_per_area(cursor)) {
    mg_per_m2 = detail::times_nearest(*number, 1'000);
  } else if (cursor.take(U'#') || is_pound(take_word(cursor))) {
    cursor.take(U'.');
    cursor.skip_blanks();
    const std::size_t grade_at = cursor.at();
    const std::string_view word = take_word(cursor);
    const auto grade = grade_called(word);
    if (!grade) {
      const std::string fix = "name the grade, for pounds mean another weight in each: cover, "
                              "text, bond or index";
      if (word.empty() && cursor.done()) {
        return detail::parse_error(text, number_at, text.size(), a_grammage, fix);
      }
      return detail::misread_word(text, grade_at, a_grammage, fix);
    }
    // number * (mg_per_100_lb / 100) / (ream_area / um2_per_m2), in whole numbers
    mg_per_m2 = detail::times_nearest(*number, mg_per_100_lb * (um2_per_m2 / 100'000'000),
                                      ream_area(*grade) / 1'000'000);
  } else {
    return detail::misread_word(text, unit_at, a_grammage,
                                "write gsm or g/m², or lb with the grade, such as 80 lb cover");
  }
  cursor.skip_blanks();
  if (!cursor.done()) {
    return detail::parse_error(text, cursor.at(), text.size(), a_grammage,
                               "nothing may follow the weight");
  }
  if (!mg_per_m2 || *mg_per_m2 > heaviest_paper || *mg_per_m2 <= 0) {
    return detail::parse_error(text, number_at, number_end, a_grammage,
                               "a paper weighs more than 0 and at most 10 000 g/m²");
  }
  return Grammage{*mg_per_m2};
}

std::string grammage_text(Grammage grammage) {
  const std::int64_t mg = grammage.mg_per_m2 < 0 ? 0 : grammage.mg_per_m2;
  const std::string number = mg < 10'000 ? detail::decimal_text(rounded_to(mg, 100) / 100, 1)
                                         : detail::decimal_text(rounded_to(mg, 1'000) / 1'000, 0);
  return number + "\u00A0g/m²";
}

Mass mass_of(Area area, Grammage grammage) {
  const detail::Wide product = static_cast<detail::Wide>(area.um2) * grammage.mg_per_m2;
  const detail::Wide half = um2_per_m2 / 2;
  return {static_cast<std::int64_t>((product + (product < 0 ? -half : half)) / um2_per_m2)};
}

} // namespace leafwright
