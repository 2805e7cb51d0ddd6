#pragma once

#include "plan/fit/check.h"

#include <span>

namespace leafwright::orders {

// What is said of orders, labels and dates; `check --rules` lists it. The dates are worked out by
// plan/calendar.
std::span<const fit::Rule> rules();

} // namespace leafwright::orders
