#pragma once

#include "guide/block.h"
#include "page/context.h"

#include <vector>

namespace leafwright::page {

// One frame a sheet, relative to the paper's corner, each label within its box. Type shrinks until
// a label's lines fit, first without turning lines over; what never fits is cut short and told:
// "label-overfull". Styles "label-name" and "label-line". A draft says so on each label, since they
// are peeled off one by one.
std::vector<FramePtr> label_sheets(const guide::Labels& labels, bool draft, Context& context);

} // namespace leafwright::page
