#include "guide/words/list.h"

#include "guide/words/count.h"
#include "guide/words/plural.h"

#include <algorithm>

namespace leafwright::guide::words {
namespace {

std::vector<std::string> words_of(std::string_view phrase) {
  std::vector<std::string> out;
  while (!phrase.empty()) {
    const std::size_t end = std::min(phrase.find(' '), phrase.size());
    if (end > 0) out.emplace_back(phrase.substr(0, end));
    phrase.remove_prefix(std::min(end + 1, phrase.size()));
  }
  return out;
}

std::string joined(const std::vector<std::string>& words, std::size_t from, std::size_t to) {
  std::string out;
  for (std::size_t i = from; i < to; ++i) out += (i == from ? "" : " ") + words.at(i);
  return out;
}

// How many words all names end with alike, leaving at least one word of each before them.
std::size_t shared_end(const std::vector<std::vector<std::string>>& names) {
  std::size_t shortest = names.front().size();
  for (const auto& name : names) shortest = std::min(shortest, name.size());
  std::size_t same = 0;
  const auto alike = [&](std::size_t from_end) {
    const std::string& word = names.front().at(names.front().size() - from_end);
    return std::all_of(names.begin(), names.end(),
                       [&](const auto& name) { return name.at(name.size() - from_end) == word; });
  };
  while (same + 1 < shortest && alike(same + 1)) ++same;
  return same;
}

bool is_number(const std::string& word) {
  return !word.empty() &&
         std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// "leaf 1" and "leaf 2" give "leaves 1 and 2"; empty when the names are not of that kind.
std::string listed_by_number(const std::vector<std::vector<std::string>>& names) {
  std::vector<std::string> numbers;
  const std::size_t length = names.front().size();
  if (length < 2) return {};
  const std::string beginning = joined(names.front(), 0, length - 1);
  for (const auto& name : names) {
    if (name.size() != length || !is_number(name.back()) ||
        joined(name, 0, length - 1) != beginning)
      return {};
    numbers.push_back(name.back());
  }
  return plural(beginning) + " " + listed(numbers);
}

} // namespace

std::string listed(const std::vector<std::string>& parts, std::string_view joined_by) {
  if (parts.empty()) return {};
  std::string out = parts.front();
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const bool last = i + 1 == parts.size();
    const bool holds_and = parts.at(i).find(" and ") != std::string::npos;
    if (!last || (parts.size() > 2 && holds_and)) out += ",";
    out += " ";
    if (last) out += std::string(joined_by) + " ";
    out += parts.at(i);
  }
  return out;
}

std::string listed_together(const std::vector<std::string>& names) {
  if (names.size() < 2) return names.empty() ? std::string() : names.front();
  const bool equal = std::all_of(names.begin(), names.end(),
                                 [&](const std::string& name) { return name == names.front(); });
  if (equal) return plural(names.front());
  std::vector<std::vector<std::string>> split;
  split.reserve(names.size());
  for (const std::string& name : names) split.push_back(words_of(name));
  if (std::any_of(split.begin(), split.end(), [](const auto& name) { return name.empty(); }))
    return listed(names);
  if (std::string numbered = listed_by_number(split); !numbered.empty()) return numbered;
  const std::size_t same = shared_end(split);
  if (same == 0) return listed(names);
  const auto& first = split.front();
  const std::string end = joined(first, first.size() - same, first.size());
  if (names.size() > 2) return counted(static_cast<std::int64_t>(names.size()), end);
  std::vector<std::string> beginnings;
  beginnings.reserve(split.size());
  for (const auto& name : split) beginnings.push_back(joined(name, 0, name.size() - same));
  return listed(beginnings) + " " + plural(end);
}

} // namespace leafwright::guide::words
