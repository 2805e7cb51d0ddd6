#include "read/internal/fields.h"

#include "language/lists.h"
#include "measure/letters.h"
#include "model/work.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace leafwright::reading {
namespace {

std::optional<unsigned> hex_pair(std::string_view text) {
  unsigned value = 0;
  const auto [stop, fault] = std::from_chars(text.data(), text.data() + text.size(), value, 16);
  if (fault != std::errc{} || stop != text.data() + text.size()) return std::nullopt;
  return value;
}

// Parses an attribute with one of the measure room's parsers.
template <class T, class Parser>
std::optional<T> parsed(Context& context, const Element& element, std::string_view name,
                        Parser parse, std::string_view code = "read-measure") {
  const auto value = element.attribute(name);
  if (!value) return std::nullopt;
  const Parsed<T> result = parse(value->view());
  if (result) return *result;
  note_misread(context, *value, result.parse_error(), code);
  return std::nullopt;
}

} // namespace

void note_misread(Context& context, const Value& value, const ParseError& why,
                  std::string_view code, std::size_t offset) {
  context.journal.error(code, value.place(why.at + offset, why.length), why.found, why.expected,
                        why.fix);
}

void note(Context& context, const Value& value, std::string_view code, std::string expected,
          std::string fix) {
  context.journal.error(code, value.place(), detail::shown(value.view()), std::move(expected),
                        std::move(fix));
}

std::string words_of(const Element& element, std::string_view name, std::string_view fallback) {
  const auto value = element.attribute(name);
  const std::string_view text = value ? trimmed(value->view()) : std::string_view{};
  return std::string(text.empty() ? fallback : text);
}

bool yes_no(Context& context, const Element& element, std::string_view name, bool fallback) {
  return choice_of(context, element, name, yes_no_words, fallback);
}

int whole_number(Context& context, const Element& element, std::string_view name, int fallback,
                 int least, int most) {
  const auto value = element.attribute(name);
  if (!value) return fallback;
  const std::string_view text = trimmed(value->view());
  int number = 0;
  const auto [stop, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool whole = fault == std::errc{} && stop == text.data() + text.size() && !text.empty();
  if (whole && number >= least && number <= most) return number;
  note(context, *value, "read-number", fmt::format("a whole number from {} to {}", least, most),
       "write digits only");
  return fallback;
}

double share_of_one(Context& context, const Element& element, std::string_view name,
                    double fallback) {
  const auto value = element.attribute(name);
  if (!value) return fallback;
  const std::string_view text = trimmed(value->view());
  double number = 0;
  const auto [stop, fault] =
      std::from_chars(text.data(), text.data() + text.size(), number, std::chars_format::fixed);
  const bool good = fault == std::errc{} && stop == text.data() + text.size() && !text.empty();
  if (good && number >= 0 && number <= 1) return number;
  note(context, *value, "read-number", "a number from 0 to 1, such as 0.6", "write a share of one");
  return fallback;
}

Length length_of(Context& context, const Element& element, std::string_view name, Length fallback) {
  const auto parse = [&](std::string_view text) { return parse_length(text, context.unit); };
  return parsed<Length>(context, element, name, parse).value_or(fallback);
}

Size size_of(Context& context, const Element& element, std::string_view name, Size fallback,
             std::span<const NamedSize> names) {
  const auto value = element.attribute(name);
  if (!value) return fallback;
  if (const auto named = find_size(names, trimmed(value->view()))) return *named;
  const Parsed<Size> size = parse_size(value->view(), context.unit);
  const bool nothing = size && ((*size).width.nm <= 0 || (*size).height.nm <= 0);
  if (size && !nothing) return *size;
  if (nothing) {
    note(context, *value, "read-measure", "a size of more than nothing", "give both sides");
    return fallback;
  }
  const char first = trimmed(value->view()).empty() ? '1' : trimmed(value->view()).front();
  if (!names.empty() && detail::is_ascii_letter(static_cast<unsigned char>(first))) {
    const auto known = [&] {
      std::vector<std::string_view> list;
      for (const NamedSize& one : names) list.push_back(one.name);
      return list;
    };
    note(context, *value, "read-size-name", "a known size, or width x height",
         context.journal.suggestion(trimmed(value->view()), known));
    return fallback;
  }
  note_misread(context, *value, size.parse_error());
  return fallback;
}

Angle angle_of(Context& context, const Element& element, std::string_view name) {
  return parsed<Angle>(context, element, name, parse_angle).value_or(Angle{});
}

Colour colour_of(Context& context, const Element& element, std::string_view name, Colour fallback) {
  const auto value = element.attribute(name);
  if (!value) return fallback;
  const std::string_view text = trimmed(value->view());
  if (text.size() == 7 && text.front() == '#') {
    const auto red = hex_pair(text.substr(1, 2));
    const auto green = hex_pair(text.substr(3, 2));
    const auto blue = hex_pair(text.substr(5, 2));
    if (red && green && blue)
      return {static_cast<std::uint8_t>(*red), static_cast<std::uint8_t>(*green),
              static_cast<std::uint8_t>(*blue)};
  }
  note(context, *value, "read-colour", "a colour such as #3d5e49",
       "write # and six digits 0-9 a-f: two each for red, green and blue");
  return fallback;
}

std::optional<Money> money_of(Context& context, const Element& element, std::string_view name) {
  const auto parse = [&](std::string_view text) {
    return parse_money(text, context.project.currency);
  };
  return parsed<Money>(context, element, name, parse, "read-money");
}

Mass mass_of(Context& context, const Element& element, std::string_view name) {
  return parsed<Mass>(context, element, name, parse_mass).value_or(Mass{});
}

Grammage grammage_of(Context& context, const Element& element, std::string_view name) {
  return parsed<Grammage>(context, element, name, parse_grammage).value_or(Grammage{});
}

std::vector<ListedWord> listed_words(std::string_view text) {
  std::vector<ListedWord> words;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t from = text.find_first_not_of(" \t\n", i);
    if (from == std::string_view::npos) break;
    const std::size_t end = std::min(text.find_first_of(" \t\n", from), text.size());
    words.push_back({text.substr(from, end - from), from});
    i = end;
  }
  return words;
}

std::optional<Works> works_of(Context& context, const Element& element, std::string_view name,
                              WorkOf of) {
  const auto value = element.attribute(name);
  if (!value) return std::nullopt;
  const auto meant = [of](const WorkRow& row) {
    return of == WorkOf::Tools ? row.of_tools : row.of_steps;
  };
  Works works;
  for (const ListedWord& word : listed_words(value->view())) {
    const auto rows = work_rows();
    const auto row = std::ranges::find_if(
        rows, [&](const WorkRow& one) { return meant(one) && one.word == word.text; });
    if (row != rows.end()) {
      works.add(row->work);
      continue;
    }
    std::vector<std::string_view> known;
    for (const WorkRow& one : rows)
      if (meant(one)) known.push_back(one.word);
    context.journal.error("read-word", value->place(word.at, word.text.size()),
                          detail::shown(word.text),
                          "kinds of work: " + words::series({known.begin(), known.end()}),
                          did_you_mean(word.text, known));
  }
  return works;
}

} // namespace leafwright::reading
