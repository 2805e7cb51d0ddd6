#include "page/poster/lettering.h"

#include <algorithm>

namespace leafwright::poster {

std::vector<std::string> lines_of(std::string_view words, text::Role role, Length size,
                                  Length width, const text::Fonts& fonts) {
  std::vector<std::string> lines;
  const int face = fonts.face(role);
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    const std::string word(words.substr(0, end));
    words.remove_prefix(std::min(end + 1, words.size()));
    if (word.empty()) continue;
    const std::string longer = lines.empty() ? word : lines.back() + " " + word;
    if (!lines.empty() && fonts.width(face, size, longer) <= width)
      lines.back() = longer;
    else
      lines.push_back(word);
  }
  return lines;
}

Length fitting_size(std::string_view words, text::Role role, Length most, Length least,
                    Length width, std::size_t most_lines, const text::Fonts& fonts) {
  for (Length size = most; size > least; size -= most / 20) {
    const std::vector<std::string> lines = lines_of(words, role, size, width, fonts);
    bool fits = lines.size() <= most_lines;
    for (const std::string& line : lines)
      fits = fits && fonts.width(fonts.face(role), size, line) <= width;
    if (fits) return size;
  }
  return least;
}

Length set_words(Drawing& into, std::string_view words, const Lettering& how, Length left,
                 Length width, Length top, const text::Fonts& fonts) {
  const int face = fonts.face(how.role);
  const Length rise = how.size * fonts.metrics(face).ascent / 1000;
  const Length fall = how.size * -fonts.metrics(face).descent / 1000;
  for (const std::string& line : lines_of(words, how.role, how.size, width, fonts)) {
    text::Shaped shaped = fonts.shape(face, how.size, line);
    const Length indent = how.stand == Stand::Left ? Length{} : (width - shaped.width) / 2;
    const Length baseline = top + (how.leading - rise - fall) / 2 + rise;
    into.items.emplace_back(
        TextRun{std::move(shaped), {left + indent, baseline}, how.colour, {}, {}});
    top += how.leading;
  }
  return top;
}

} // namespace leafwright::poster
