#pragma once

#include "page/context.h"
#include "page/paginate.h"

#include <span>

namespace leafwright::page {

// The blocks of a section made into flow, its steps set in the way that fills pages of `height`
// best.
Flow section_flow(std::span<const guide::Block> blocks, Length width, Length height,
                  Context& context);

// How well a flow sits on pages, beside pagination's own cost: space left empty within items counts
// too.
double layout_cost(const Flow& flow, Length height);

} // namespace leafwright::page
