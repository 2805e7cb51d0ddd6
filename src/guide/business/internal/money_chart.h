#pragma once

#include "guide/figure/scene.h"
#include "model/project.h"
#include "plan/tier/outlook.h"

#include <vector>

namespace leafwright::guide {

// What is left of the run over the number of kits: a step for each kit, the planned number marked,
// and the kits ringed at which a further pack costs more than they bring.
figure::Scene money_chart(const Project& project, const std::vector<tiers::Scenario>& scenarios,
                          int planned);

// The scenarios of a chart: from no kits to twice the planned, at most some eighty.
std::vector<tiers::Scenario> charted(const tiers::Outlook& outlook);
// Indices of those that leave less than the one before.
std::vector<std::size_t> setbacks(const std::vector<tiers::Scenario>& scenarios);

} // namespace leafwright::guide
