#pragma once

#include "read/resolver.h"

namespace leafwright::reading {

// <tier>
void read_tiers(Resolver& resolver, const std::vector<Element>& tiers);
// `as needed`, `whole`, `2 whole`, `1/4 of a pack`, `22 in`, `20`, `4 sheets`, `2 of 6 x 12`.
Parsed<Amount> parse_amount(std::string_view text, Unit bare);

} // namespace leafwright::reading
