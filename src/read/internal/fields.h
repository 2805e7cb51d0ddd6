#pragma once

#include "language/lists.h"
#include "measure/amounts/amounts.h"
#include "measure/length.h"
#include "measure/parse_length.h"
#include "model/outline.h"
#include "read/document.h"
#include "read/internal/choices.h"
#include "read/read.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Attributes as values. Each of these gives the fallback when the attribute is missing, and also
// when it is wrong, after noting the finding.

namespace leafwright::reading {

// Notes why a piece of `value` starting at byte `offset` could not be read.
void note_misread(Context& context, const Value& value, const ParseError& why,
                  std::string_view code = "read-measure", std::size_t offset = 0);
void note(Context& context, const Value& value, std::string_view code, std::string expected,
          std::string fix);

std::string words_of(const Element& element, std::string_view name, std::string_view fallback = {});
bool yes_no(Context& context, const Element& element, std::string_view name, bool fallback);
int whole_number(Context& context, const Element& element, std::string_view name, int fallback,
                 int least = 1, int most = 1'000'000);
double share_of_one(Context& context, const Element& element, std::string_view name,
                    double fallback);
Length length_of(Context& context, const Element& element, std::string_view name, Length fallback);
// A measured size, or a name from `names`.
Size size_of(Context& context, const Element& element, std::string_view name, Size fallback,
             std::span<const NamedSize> names = {});
Angle angle_of(Context& context, const Element& element, std::string_view name);
Colour colour_of(Context& context, const Element& element, std::string_view name, Colour fallback);
std::optional<Money> money_of(Context& context, const Element& element, std::string_view name);
Mass mass_of(Context& context, const Element& element, std::string_view name);
Grammage grammage_of(Context& context, const Element& element, std::string_view name);

// Words of a list and where each stands in the value.
struct ListedWord {
  std::string_view text;
  std::size_t at;
};
std::vector<ListedWord> listed_words(std::string_view text);

// Kinds of work in their words: those of tools, or those that a step may tell. Nothing when the
// attribute is missing.
enum class WorkOf { Tools, Steps };
std::optional<Works> works_of(Context& context, const Element& element, std::string_view name,
                              WorkOf of);

// One of a few fixed words, most of them tables of choices.h.
template <class Table, class E>
E choice_of(Context& context, const Element& element, std::string_view name, const Table& table,
            E fallback) {
  const auto value = element.attribute(name);
  if (!value) return fallback;
  std::vector<std::string_view> all;
  for (const Named<E>& word : table) {
    if (word.word == value->view()) return word.meaning;
    all.push_back(word.word);
  }
  note(context, *value, "read-word", "one of " + words::series({all.begin(), all.end()}),
       did_you_mean(value->view(), all));
  return fallback;
}

} // namespace leafwright::reading
