#include "measure/decimal_text.h"

#include <fmt/format.h>

namespace leafwright::detail {

std::string decimal_text(std::int64_t count, int places) {
  std::int64_t unit = 1;
  for (int i = 0; i < places; ++i) unit *= 10;
  if (count % unit == 0) return fmt::format("{}", count / unit);
  std::string text = fmt::format("{}.{:0{}}", count / unit, count % unit, places);
  while (text.back() == '0') text.pop_back();
  return text;
}

} // namespace leafwright::detail
