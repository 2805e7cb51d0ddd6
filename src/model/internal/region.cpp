#include "model/region.h"

#include "measure/letters.h"

#include <string_view>

namespace leafwright {

bool in_united_states(const Project& project) {
  if (project.currency != Currency{}) return false;
  // BCP 47: a subtag of two letters behind the first is a country.
  const std::string_view language = project.language;
  for (std::size_t at = language.find('-'); at != std::string_view::npos;) {
    const std::size_t end = language.find('-', at + 1);
    const std::string_view subtag =
        language.substr(at + 1, end == std::string_view::npos ? end : end - at - 1);
    if (subtag.size() == 2) return detail::same_ignoring_case(subtag, "US");
    at = end;
  }
  return true;
}

} // namespace leafwright
