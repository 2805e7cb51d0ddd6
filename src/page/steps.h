#pragma once

#include "guide/block.h"
#include "page/context.h"

#include <vector>

namespace leafwright::page {

// The ways worth trying to set these steps in a column of that width: in rows and in two columns,
// each with figures from the largest that fit down to the smallest that the template allows.
std::vector<Trial> step_trials(const guide::Steps& steps, const Context& context);

} // namespace leafwright::page
