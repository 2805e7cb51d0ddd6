#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::words {

// "a cream panel", with "a" or "an" by the sound: "an hour", "a one-inch strip", "an 8-inch
// square", "an 11 in strip", "a 1/8 in border" (read "one eighth"), "an A2 card", "a uniform edge".
std::string with_article(std::string_view phrase);

// "the cream panel"; a phrase that brings its own article or owner keeps it.
std::string with_the(std::string_view phrase);

// The phrase without a leading "a", "an" or "the".
std::string_view without_article(std::string_view phrase);

// "no", "one" ... "ten", then figures: "11".
std::string count_words(std::int64_t n);
// "three trees", "one tree", "no trees", "12 trees".
std::string counted(std::int64_t n, std::string_view noun);
// The same with figures throughout, for tables: "3 sheets". The number never parts from its noun.
std::string figured(std::int64_t n, std::string_view noun);
// "once", "twice", "three times", "12 times".
std::string times_words(std::int64_t n);

// A share of one thing: "half", "a quarter", "three quarters", "two thirds", "3/16". Reduced first.
// One or more of the whole is "all" or a mixed number: "1 1/2". A nil or negative divisor is "no".
std::string share_words(int numerator, int denominator);

// The first letter in capitals, looking past opening quotes and brackets; Latin letters of
// Unicode's first two blocks are known, all else stays: "étoile" -> "Étoile", "3 in" -> "3 in".
std::string sentence_case(std::string_view text);

// "moss", "moss and rust", "moss, rust and plum". When the last part holds an "and" of its own a
// comma stands before the joining word: "moss, rust, and black and white".
std::string listed(const std::vector<std::string>& parts, std::string_view joined_by = "and");

// Names that share their end are said with it once: "left gate panel" and "right gate panel" give
// "left and right gate panels"; three or more are counted: "four leaf panels". "leaf 1" and "leaf
// 2" give "leaves 1 and 2"; equal names give their plural; others are listed.
std::string listed_together(const std::vector<std::string>& names);

// More than one of a noun phrase: "leaf" -> "leaves", "sheet of kraft" -> "sheets of kraft",
// "foam square, 1.5 mm" -> "foam squares, 1.5 mm". What has no singular stays: "scissors", "twine".
// A phrase that is plural already is left alone: "clear domes", "leaves".
std::string plural(std::string_view noun_phrase);

// Whether the phrase names several things: "clear domes", "scissors"; not "glass", "canvas".
bool is_plural(std::string_view noun_phrase);

// The other way, for names that a maker writes in the plural: "clear domes" -> "clear dome".
std::string singular(std::string_view noun_phrase);

// Puts no-break spaces where a measure would fall apart at the end of a line: inside "2 3/4 in",
// "12 × 12 in", "80 lb", "35 min"; written by an author with plain blanks.
std::string tie_measures(std::string_view text);

} // namespace leafwright::words
