#pragma once

#include "measure/parse_length.h"
#include "read/edit/measured_attributes.h"

#include <optional>
#include <string>
#include <string_view>

// Named sizes and what is bought in their place in the other system. Inside this room.

namespace leafwright::edit {

// Nothing when the name is unknown, has no counterpart or belongs to that system already.
std::optional<std::string_view> usual_counterpart(MeasuredAttribute::Names among,
                                                  std::string_view name, Unit to);
std::optional<Size> named_size(MeasuredAttribute::Names among, std::string_view name);

} // namespace leafwright::edit
