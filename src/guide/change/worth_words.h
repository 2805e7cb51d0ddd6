#pragma once

#include "guide/block.h"
#include "measure/print_length.h"
#include "plan/change/compare.h"

#include <optional>
#include <string>

namespace leafwright::guide {

// A fact as a report prints it: lengths as the project prints them where that is exact, else
// without rounding; "–" for none.
std::string worth_words(const std::optional<change::Worth>& worth, const Printing& how);

// What a person calls it: "Under the trees", "tree panel (C)".
std::string thing_words(const change::Thing& thing);

// What is to be done to a piece: "as it is", "cut 1/4 in off the right and the bottom",
// "1/8 in too narrow".
std::string refit_words(const change::Refit& refit, const Printing& how);

} // namespace leafwright::guide
