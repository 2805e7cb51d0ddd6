#pragma once

#include <cstdint>
#include <string>
#include <string_view>

// Nouns, verbs and pronouns that agree with how many things they speak of.

namespace leafwright::words {

// The third person of the present: "stays" of one, "stay" of several. Of "be", "have" and "do":
// "is", "has", "does". A verb in a hiss adds a syllable: "matches", "presses"; "carries".
std::string agreed(std::string_view verb, std::int64_t n);

// "card" of one, "cards" of several or none; the number is said elsewhere.
std::string noun_for(std::int64_t n, std::string_view noun);

// "it" or "them", for what is acted on.
std::string_view it_or_them(std::int64_t n);

} // namespace leafwright::words
