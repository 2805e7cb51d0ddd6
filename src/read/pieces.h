#pragma once

#include "model/card.h"
#include "read/resolver.h"

namespace leafwright::reading {

// A base, panel, band or liner with everything on it; `draft` is its number.
Piece piece_of(Resolver& resolver, int draft);
Carrier carrier_of(const Resolver& resolver, Draft::On on);
// A position as the author said it, with its distances worked out.
Position position_of(Resolver& resolver, const std::optional<Value>& value, int card);
// The adhesive meant by `raised` or `with`, else the first that suits.
Attach attach_of(Resolver& resolver, int draft);
int usual_adhesive(const Project& project, bool raised);

} // namespace leafwright::reading
