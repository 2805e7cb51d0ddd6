#pragma once

#include <string>

namespace leafwright::guide::words {

// A share of one thing: "half", "a quarter", "three quarters", "two thirds", "3/16". Reduced first.
// One or more of the whole is "all" or a mixed number: "1 1/2". A nil or negative divisor is "no".
std::string share_words(int numerator, int denominator);

} // namespace leafwright::guide::words
