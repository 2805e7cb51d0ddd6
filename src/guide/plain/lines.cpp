#include "guide/plain/lines.h"

#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide::plaintext {

std::size_t columns_of(std::string_view text) {
  return as_index(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::string with_common_blanks(std::string text) {
  for (const std::string_view fixed : {"\u00A0", "\u2002"})
    for (std::size_t at = text.find(fixed); at != std::string::npos; at = text.find(fixed, at))
      text.replace(at, fixed.size(), " ");
  return text;
}

std::vector<std::string> lines_of(std::string_view text, std::size_t width) {
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    std::string& line = lines.back();
    if (line.empty())
      line = word;
    else if (columns_of(line) + 1 + columns_of(word) <= width)
      line.append(" ").append(word);
    else
      lines.emplace_back(word);
  }
  for (std::string& line : lines) line = with_common_blanks(std::move(line));
  return lines;
}

std::string wrapped(std::string_view text, std::size_t width, std::string_view first,
                    std::string_view rest) {
  std::string out;
  const std::size_t taken = std::max(columns_of(first), columns_of(rest));
  for (const std::string& line : lines_of(text, width - std::min(taken, width)))
    out.append(out.empty() ? first : rest).append(line).append("\n");
  return out;
}

} // namespace leafwright::guide::plaintext
