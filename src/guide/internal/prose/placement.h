#pragma once

#include "guide/prose.h"
#include "model/placing.h"

#include <string>
#include <string_view>
#include <vector>

// Where a thing lies, in words: "centered, 3/8 in from the top".

namespace leafwright::guide {

struct Where {
  const Project& project;
  const Card& card;
  Carrier on;
  bool drawn = true; // a drawing stands beside the words
};

// Begins with its comma: ", with 1/8 in of kraft all around", ", centered, 3/8 in from the top".
// `shows` is the surface that is seen around the thing, empty when something else lies between.
std::string where_words(const Where& where, const Gaps& gaps, const Position& position,
                        const std::string& shows);
// Only the way from the top or bottom edge: "3/8 in from the top", "halfway down".
std::string down_words(const Where& where, const Gaps& gaps, const Position& position);
std::string across_words(const Where& where, const Gaps& gaps, const Position& position);
// ", tilted slightly right"; the number stands in the drawing. Empty when not turned.
std::string turned_words(Angle angle);
// "the ribbon", "the rust latch", for a Position's `over`; empty when the id is unknown.
std::string thing_with_the(const Project& project, const Card& card, const std::string& id);

// Where several alike things stand: " at left, middle and right, 1 in from the top", ", one in each
// corner", " in three rows of four", ", where the drawing shows"; where no drawing stands beside
// the words, ", as in the picture of the card" or, of what that does not show, each by its
// distances. One thing stands as where_words says.
std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position);
// Whether those words say how many there are.
bool tells_how_many(const std::vector<Point>& places);

// ASD-STE100 (issue 8, rule 5.1): at most 20 words in a sentence of a procedure.
inline constexpr int longest_sentence = 20;

// The act and its place as one sentence, or, where that is too long, as two: "Tape the note (C) to
// the inside, below the fold. Center it, 3/8 in from the top."
void say_placed(Prose& prose, const Where& where, const Prose& act, const std::string& place,
                std::string_view pronoun);

// What is said, sentence by sentence.
std::vector<Inlines> sentences_of(const Inlines& text);

} // namespace leafwright::guide
