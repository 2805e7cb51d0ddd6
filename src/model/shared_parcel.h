#pragma once

#include "model/project.h"

#include <vector>

namespace leafwright {

// Whether anything is sent for it: its kit is one that is posted, and she does not come for it.
bool is_posted(const Project& project, const Order& order);

// For each order the first one that travels in the same parcel, often itself: those of one row, and
// those of one word in Order::parcel. What is not posted travels with nobody.
std::vector<int> shared_parcels(const Project& project);

} // namespace leafwright
