#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace leafwright::guide::words {

// "moss", "moss and rust", "moss, rust and plum". When the last part holds an "and" of its own a
// comma stands before the joining word: "moss, rust, and black and white".
std::string listed(const std::vector<std::string>& parts, std::string_view joined_by = "and");

// Names that share their end are said with it once: "left gate panel" and "right gate panel" give
// "left and right gate panels"; three or more are counted: "four leaf panels". "leaf 1" and "leaf
// 2" give "leaves 1 and 2"; equal names give their plural; others are listed.
std::string listed_together(const std::vector<std::string>& names);

} // namespace leafwright::guide::words
