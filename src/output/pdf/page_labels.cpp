#include "measure/letters.h"
#include "output/pdf/navigation.h"
#include "output/pdf/syntax.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::pdf {
namespace {

// A label as PDF counts: prefix, then a number in a style (D, r, R) or none (0).
struct Label {
  char style = 0;
  std::string prefix;
  int number = 0;
};

std::string roman(int number) {
  constexpr std::array<std::pair<int, const char*>, 13> parts{{{1000, "m"},
                                                               {900, "cm"},
                                                               {500, "d"},
                                                               {400, "cd"},
                                                               {100, "c"},
                                                               {90, "xc"},
                                                               {50, "l"},
                                                               {40, "xl"},
                                                               {10, "x"},
                                                               {9, "ix"},
                                                               {5, "v"},
                                                               {4, "iv"},
                                                               {1, "i"}}};
  std::string text;
  for (const auto& [value, letters] : parts)
    for (; number >= value; number -= value) text += letters;
  return text;
}

// The number a roman label stands for, 0 when it is none below 500 (a lone "c" or "d" may be a
// letter, but a booklet's front matter is short: "c" is read as 100 and still printed "c").
int roman_value(const std::string& lower) {
  if (lower.empty() || lower.size() > 12 || lower.find_first_not_of("ivxlcd") != std::string::npos)
    return 0;
  for (int number = 1; number < 500; ++number)
    if (roman(number) == lower) return number;
  return 0;
}

Label read_label(const std::string& text) {
  const std::string lower = small_letters(text);
  if (const int value = roman_value(lower); value != 0) {
    if (text == lower) return {'r', "", value};
    const bool upper =
        std::all_of(text.begin(), text.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
    if (upper) return {'R', "", value};
  }
  std::size_t digits = text.size();
  while (digits > 0 && text[digits - 1] >= '0' && text[digits - 1] <= '9') --digits;
  // "07" counts on as "8": only a number without leading noughts is one.
  while (digits < text.size() && text[digits] == '0') ++digits;
  const std::size_t length = text.size() - digits;
  if (length == 0 || length > 8) return {0, text, 0};
  int number = 0;
  for (std::size_t i = digits; i < text.size(); ++i) number = number * 10 + (text[i] - '0');
  return {'D', text.substr(0, digits), number};
}

bool goes_on(const Label& before, const Label& label) {
  return before.style == label.style && before.style != 0 && before.prefix == label.prefix &&
         before.number + 1 == label.number;
}

} // namespace

std::string page_labels(std::span<const page::LaidPage> pages) {
  std::vector<Label> labels;
  for (const page::LaidPage& page : pages) labels.push_back(read_label(page.label));
  bool plain = true;
  for (std::size_t i = 0; i < labels.size(); ++i)
    plain = plain && labels[i].style == 'D' && labels[i].prefix.empty() &&
            labels[i].number == static_cast<int>(i) + 1;
  if (plain) return {};
  std::string out = "/PageLabels<</Nums[";
  for (std::size_t i = 0; i < labels.size(); ++i) {
    if (i > 0 && goes_on(labels[i - 1], labels[i])) continue;
    const Label& label = labels[i];
    out += fmt::format("{}<<", i);
    if (label.style != 0) out += fmt::format("/S/{}", label.style);
    if (!label.prefix.empty()) out += "/P" + text_string(label.prefix);
    if (label.style != 0 && label.number != 1) out += fmt::format("/St {}", label.number);
    out += ">>";
  }
  return out + "]>>";
}

} // namespace leafwright::pdf
