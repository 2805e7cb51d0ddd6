#pragma once

#include "guide/figure/label_candidates.h"

#include <vector>

namespace leafwright::figure {

// The width that columns of upright dimension lines keep between them: of the widest of their words
// that stand in a gap of their line. Printed mm.
double widest_upright_dimension(const std::vector<Dimension>& dimensions,
                                const Lettering& lettering);

// A dimension line beside the object in several tiers on each allowed side, or in the gap that it
// measures; its words in a gap of the line, with arrows, with ticks when it is short, or beside it
// when they do not fit. Words are always upright. `column` as above.
std::vector<Candidate> dimension_candidates(const Dimension& dimension, const Ground& ground,
                                            const Lettering& lettering, double column);

} // namespace leafwright::figure
