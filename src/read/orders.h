#pragma once

#include "read/context.h"
#include "read/document.h"

#include <vector>

namespace leafwright::reading {

// <order> elements of the run.
void read_orders(Context& context, const std::vector<Element>& orders);

} // namespace leafwright::reading
