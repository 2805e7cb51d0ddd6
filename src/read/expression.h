#pragma once

#include "read/position.h"

#include <optional>
#include <string_view>

namespace leafwright::reading {

// What the evaluator knows about the spelling of expressions, for those who look into them too.

// Letters as an XML name may hold them. Between U+2000 and U+2BFF stand signs: dashes, primes,
// fractions; × and ÷ are signs as well.
bool is_name_start(char32_t c);

// The × or x between the two sides of a size, outside parentheses.
std::optional<Span> side_parting(std::string_view text);

} // namespace leafwright::reading
