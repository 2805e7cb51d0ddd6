#pragma once

#include "model/card.h"
#include "read/resolver.h"

namespace leafwright::reading {

// Splits the author's words at {braces} and works out what stands in them; `card` may be -1 for
// text of the whole project.
AuthorText author_text(Resolver& resolver, const Value& value, int card);

} // namespace leafwright::reading
