#pragma once

#include "measure/date.h"
#include "read/resolver.h"

#include <optional>
#include <string_view>

namespace leafwright::reading {

// <run>
void read_run(Resolver& resolver, const Element& run);
// A date with or without its weekday; nothing, after a finding, when it is none.
std::optional<StatedDate> date_of(Context& context, const Element& element, std::string_view name);

} // namespace leafwright::reading
