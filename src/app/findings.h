#pragma once

#include "model/finding.h"

#include <iterator>
#include <utility>

namespace leafwright::app {

inline void append(Findings& to, Findings from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}

} // namespace leafwright::app
