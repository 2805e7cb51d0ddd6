#include "read/near.h"

#include "measure/letters.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace leafwright::reading {
namespace {

constexpr std::size_t longest = 40; // names beyond are not compared: nobody means them by mistake

std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == '-' || c == '_') continue;
    out += small_letter(c);
  }
  return out;
}

// Optimal string alignment; three rows are enough because a swap looks back two.
std::size_t distance(std::string_view a, std::string_view b) {
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};
  const auto row = [&](std::size_t i) -> auto& { return rows.at(i % 3); };
  for (std::size_t j = 0; j <= b.size(); ++j) row(0).at(j) = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row(i).at(0) = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = row(i - 1).at(j - 1) + (a[i - 1] == b[j - 1] ? 0 : 1);
      std::size_t best = std::min({replaced, row(i - 1).at(j) + 1, row(i).at(j - 1) + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) best = std::min(best, row(i - 2).at(j - 2) + 1);
      row(i).at(j) = best;
    }
  }
  return row(a.size()).at(b.size());
}

} // namespace

std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string wanted = plain(word);
  if (wanted.empty() || wanted.size() > longest) return {};
  std::size_t best = std::max<std::size_t>(1, (wanted.size() + 1) / 3) + 1;
  std::string_view nearest;
  for (const std::string_view candidate : candidates) {
    const std::string other = plain(candidate);
    if (other.empty() || other.size() > longest) continue;
    const std::size_t apart =
        other.size() > wanted.size() ? other.size() - wanted.size() : wanted.size() - other.size();
    if (apart >= best) continue;
    const std::size_t d = distance(wanted, other);
    if (d < best && d < wanted.size()) {
      best = d;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string_view near = nearest_name(word, candidates);
  if (!near.empty()) return fmt::format("did you mean {}?", near);
  if (candidates.empty()) return "there is none to choose from";
  constexpr std::size_t most = 8;
  std::string list;
  for (std::size_t i = 0; i < candidates.size() && i < most; ++i)
    list += fmt::format("{}{}", i == 0 ? "" : ", ", candidates[i]);
  return fmt::format("choose one of: {}{}", list, candidates.size() > most ? " …" : "");
}

} // namespace leafwright::reading
