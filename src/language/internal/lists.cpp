#include "language/lists.h"

#include "language/words.h"

#include <algorithm>

namespace leafwright::words {

std::string series(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& one : parts) {
    if (!out.empty()) out += ", ";
    out += one;
  }
  return out;
}

std::string joint(std::size_t i, std::size_t n, std::string_view joined_by) {
  if (i == 0) return {};
  return i + 1 == n ? " " + std::string(joined_by) + " " : ", ";
}

std::string listed_apart(const std::vector<std::string>& parts) {
  const bool simple = std::ranges::none_of(parts, [](const std::string& part) {
    return part.find(',') != std::string::npos || part.find(" and ") != std::string::npos;
  });
  if (simple) return listed(parts);
  std::string out;
  for (const std::string& part : parts) out += (out.empty() ? "" : "; ") + part;
  return out;
}

} // namespace leafwright::words
