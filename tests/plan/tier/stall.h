#pragma once

#include "model/project.h"

#include <string>
#include <string_view>

// A small stall: one flat card of kraft, made twice for a kit, and three tiers. Its numbers are
// round, so that sums can be made by hand.

namespace stall {

enum TierIndex { kit, booklet, full };

// The project, with text of its file replaced first. Must read without a fault.
leafwright::Project project(std::string_view from = {}, std::string_view to = {});
leafwright::Project
project(std::initializer_list<std::pair<std::string_view, std::string_view>> replaced);

} // namespace stall
