#pragma once

#include "measure/path.h"

#include <string>

namespace leafwright::pdf {

// Appends the construction operators of a path on a page of that height; y is turned up. A
// rectangle whose first side is level becomes `re`, which starts and runs as the path does. False,
// and nothing appended, when there is nothing to draw.
bool append_path(std::string& out, const Path& path, Length page_height);

} // namespace leafwright::pdf
