#pragma once

#include <string>
#include <string_view>

namespace leafwright::guide::words {

// More than one of a noun phrase: "leaf" -> "leaves", "sheet of kraft" -> "sheets of kraft",
// "foam square, 1.5 mm" -> "foam squares, 1.5 mm". What has no singular stays: "scissors", "twine".
// A phrase that is plural already is left alone: "clear domes", "leaves".
std::string plural(std::string_view noun_phrase);

// Whether the phrase names several things: "clear domes", "scissors"; not "glass", "canvas".
bool is_plural(std::string_view noun_phrase);

// The other way, for names that a maker writes in the plural: "clear domes" -> "clear dome".
std::string singular(std::string_view noun_phrase);

} // namespace leafwright::guide::words
