#pragma once

#include "plan/supply/buying.h"
#include "plan/supply/kits.h"

#include <cstddef>
#include <vector>

namespace leafwright::supply {

// What so many kits of each tier take, as their tiers say.
inline Buying buying_for(const Project& project, const std::vector<int>& kits,
                         const cut::Effort& effort = {},
                         cut::Objective objective = cut::Objective::FewestSheets) {
  std::vector<KitKind> kinds;
  for (std::size_t tier = 0; tier < kits.size(); ++tier)
    kinds.push_back(kit_kind(project, static_cast<int>(tier), kits[tier]));
  return buying_for(project, kinds, effort, objective);
}

} // namespace leafwright::supply
