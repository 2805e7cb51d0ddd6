#include "language/lists.h"

namespace leafwright::words {

std::string series(const std::vector<std::string>& parts) {
  std::string out;
  for (const std::string& one : parts) {
    if (!out.empty()) out += ", ";
    out += one;
  }
  return out;
}

} // namespace leafwright::words
