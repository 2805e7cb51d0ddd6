#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::ua {

// What a page's content is marked as (ISO 32000-1, 14.6).
struct Scan {
  std::set<int> ids;               // marked-content ids, each once
  std::vector<std::string> faults; // painting outside of marks, marks within marks, ...
};
Scan scan_content(std::string_view content);

} // namespace leafwright::ua
