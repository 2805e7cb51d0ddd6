#include "basics/mail_address.h"

#include <algorithm>
#include <cstddef>

namespace leafwright {

bool is_mail_address(std::string_view text) {
  constexpr std::string_view signs = "!#$%&'*+-/=?^_`{|}~.";
  const std::size_t at = text.find('@');
  if (at == std::string_view::npos || at == 0 || at + 1 == text.size()) return false;
  const auto fits = [&](std::string_view part) {
    return !part.starts_with('.') && !part.ends_with('.') &&
           part.find("..") == std::string_view::npos && std::ranges::all_of(part, [&](char c) {
             return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                    signs.find(c) != std::string_view::npos;
           });
  };
  constexpr std::size_t most = 254;
  return text.size() <= most && fits(text.substr(0, at)) && fits(text.substr(at + 1));
}

std::string mail_address_in(std::string_view text) {
  constexpr std::string_view ends = " \t\r\n,;:<>()\"";
  while (!text.empty()) {
    const std::string_view word = text.substr(0, text.find_first_of(ends));
    if (is_mail_address(word)) return std::string(word);
    text.remove_prefix(std::min(word.size() + 1, text.size()));
  }
  return {};
}

} // namespace leafwright
