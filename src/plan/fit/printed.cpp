#include "plan/fit/printed.h"

#include <fmt/format.h>

namespace leafwright::fit {

namespace {

std::int64_t begun(std::int64_t whole, std::int64_t part) {
  return whole <= 0 ? 0 : (whole + part - 1) / part;
}

} // namespace

std::string thickness_text(Length thickness) {
  const std::int64_t tenths = begun(thickness.nm, nm_per_mm / 10);
  const std::int64_t hundredths = begun(thickness.nm, nm_per_inch / 100);
  return fmt::format("{}.{} mm ({}.{:02} in)", tenths / 10, tenths % 10, hundredths / 100,
                     hundredths % 100);
}

Length up_to_step(Length length, Length step) {
  return step > Length{} ? step * begun(length.nm, step.nm) : length;
}

Length down_to_step(Length length, Length step) {
  return step > Length{} ? step * (length.nm / step.nm) : length;
}

Size up_to_step(Size size, Length step) {
  return {up_to_step(size.width, step), up_to_step(size.height, step)};
}

} // namespace leafwright::fit
