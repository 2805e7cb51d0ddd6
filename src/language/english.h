#pragma once

#include "measure/amounts/amounts.h"
#include "model/supply.h"

#include <cstdint>
#include <string>
#include <string_view>

// The two Englishes that the program writes, and the words in which they differ. A project chooses
// with its `language`; what its maker wrote is never changed.

namespace leafwright::words {

enum class English { American, British };

// By the tag of RFC 5646: "en-GB", and "en" of Ireland, Australia, New Zealand, South Africa and
// India, are British; all else is American.
English english_of(std::string_view language);

// Whether our own sentences are in this language: "en", "en-US", "en-GB" and the like.
bool is_written(std::string_view language);

// Common practice of the trade on either side of the Atlantic.
struct Terms {
  std::string_view centered, center;         // "centered, 3/8 in from the top"; "center it"
  std::string_view all_around;               // a mat shows "all around"
  std::string_view color, gray, millimeters; // as parts of words, too: "colors"
  std::string_view shipping;                 // what a buyer pays to have it sent
  std::string_view ship, ships, shipped;     // what is done with a parcel
  std::string_view spool;                    // what ribbon is wound on
};
const Terms& terms(English english);
inline const Terms& terms(std::string_view language) { return terms(english_of(language)); }

// What a kind of thing is sold as: "pack", "set", of ribbon "spool" or "reel"; "" for single
// things.
std::string_view sold_as(std::string_view language, ItemKind kind);

// "March 16, 2027" and "Tuesday, March 16, 2027"; "16 March 2027" and "Tuesday 16 March 2027".
std::string day_text(English english, Date date);
std::string long_day_text(English english, Date date);
inline std::string day_text(std::string_view language, Date date) {
  return day_text(english_of(language), date);
}
inline std::string long_day_text(std::string_view language, Date date) {
  return long_day_text(english_of(language), date);
}

// "11 h 20 min", "35 min": rounded up to whole minutes.
std::string duration_text(std::int64_t seconds);

// How many words a reader counts, as ASD-STE100 counts them: a number, a unit and a quoted text are
// one word each, and what stands in brackets is no part of the sentence.
int count_of_words(std::string_view sentence);

} // namespace leafwright::words
