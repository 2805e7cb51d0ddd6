#pragma once

#include "read/resolver.h"

namespace leafwright::reading {

// What <run> says of time and place: <supplier>, <day-off>, <work>, <labels> and <class>.
void read_workdays(Resolver& resolver, const Element& run);

} // namespace leafwright::reading
