#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace leafwright::guide::words {

// "no", "one" ... "ten", then figures: "11".
std::string count_words(std::int64_t n);
// "three trees", "one tree", "no trees", "12 trees".
std::string counted(std::int64_t n, std::string_view noun);
// The same with figures throughout, for tables: "3 sheets". The number never parts from its noun.
std::string figured(std::int64_t n, std::string_view noun);
// "once", "twice", "three times", "12 times".
std::string times_words(std::int64_t n);
// "first" ... "tenth", then "11th", "22nd".
std::string ordinal_words(std::int64_t n);

} // namespace leafwright::guide::words
