#include "records/numbers.h"

#include <fmt/format.h>

namespace leafwright::records {

std::string millimetre_text(Length length) {
  const bool negative = length.nm < 0;
  const std::int64_t nm = negative ? -length.nm : length.nm;
  std::string out = std::to_string(nm / nm_per_mm);
  if (nm % nm_per_mm != 0) {
    out += fmt::format(".{:06d}", nm % nm_per_mm);
    while (out.back() == '0') out.pop_back();
  }
  return negative ? "-" + out : out;
}

std::string amount_text(const Money& money) {
  const bool negative = money.minor < 0;
  std::int64_t unit = 1;
  for (int i = 0; i < money.currency.exponent; ++i) unit *= 10;
  const std::int64_t minor = negative ? -money.minor : money.minor;
  std::string out = fmt::format("{}{}", negative ? "-" : "", minor / unit);
  if (money.currency.exponent > 0)
    out += fmt::format(".{:0{}d}", minor % unit, money.currency.exponent);
  return out;
}

} // namespace leafwright::records
