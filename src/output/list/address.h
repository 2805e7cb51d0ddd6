#pragma once

#include "guide/figure/drawing.h"

namespace leafwright {

// Whether a link leads to an address outside rather than to an anchor of the document.
inline bool is_address(const Link& link) {
  return link.target.find("://") != std::string::npos || link.target.starts_with("mailto:");
}

} // namespace leafwright
