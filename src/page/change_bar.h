#pragma once

#include "page/context.h"

#include <vector>

namespace leafwright::page {

// The upright bar that stands beside what is new since an earlier edition, in the margin at the
// left of `at` and `height` long: an artefact, with a Mark of kind "change-bar" for tests.
void add_change_bar(std::vector<Op>& ops, Point at, Length height, const Context& context);

// The same items, each with a bar over its whole height. Spaces between them stay open.
void mark_changed(Flow& flow, const Context& context);

} // namespace leafwright::page
