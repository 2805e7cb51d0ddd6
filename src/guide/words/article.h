#pragma once

#include <string>
#include <string_view>

namespace leafwright::guide::words {

// "a" or "an" before `phrase`, by its sound: "an hour", "a one-inch strip", "an 8-inch square",
// "an 11 in strip", "a 1/8 in border" (read "one eighth"), "an A2 card", "a uniform edge".
std::string_view article(std::string_view phrase);

// "a cream panel"
std::string with_article(std::string_view phrase);

// "the cream panel"; a phrase that brings its own article or owner keeps it.
std::string with_the(std::string_view phrase);

// The phrase without a leading "a", "an" or "the".
std::string_view without_article(std::string_view phrase);

} // namespace leafwright::guide::words
