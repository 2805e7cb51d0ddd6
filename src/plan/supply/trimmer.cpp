#include "plan/supply/trimmer.h"

#include <algorithm>

namespace leafwright::supply {

const Tool* trimmer_of(const Project& project) {
  const auto found = std::find_if(project.tools.begin(), project.tools.end(),
                                  [](const Tool& tool) { return tool.cut_length > Length{}; });
  return found == project.tools.end() ? nullptr : &*found;
}

cut::Rules cutting_rules() { return {}; }

} // namespace leafwright::supply
