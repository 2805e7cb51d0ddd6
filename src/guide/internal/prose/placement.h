#pragma once

#include "guide/prose.h"

#include <string>
#include <string_view>
#include <vector>

// Where a thing lies, in words: "centred from side to side, 3/8 in below the top edge".

namespace leafwright::guide {

// Distances from the edges of what carries it to the thing's own edges; negative when it stands
// over.
struct Gaps {
  Length left, top, right, bottom;
};
// Of the box that holds the thing turned about its own centre.
Gaps gaps_in(Size carrier, Point at, Size size, Angle turned = {});
// Alike to the eye: within 0.05 mm.
bool alike(Length a, Length b);

struct Where {
  const Project& project;
  const Card& card;
  Carrier on;
  // "its" when the sentence is about the carrier itself: "below its top edge".
  bool its = false;
  bool drawn = true; // a drawing stands beside the words
};

// Begins with its comma: ", centred: 1/8 in of kraft shows on every side". `shows` is the surface
// that is seen around the thing, empty when something else lies between. Around a `round`
// thing it shows "all round". ", edge to edge" when it fills the carrier.
std::string where_words(const Where& where, const Gaps& gaps, const Position& position,
                        const std::string& shows, bool round = false);
// Only the way from the top or bottom edge: "3/8 in below the top edge", "halfway down".
std::string down_words(const Where& where, const Gaps& gaps, const Position& position);
std::string across_words(const Where& where, const Gaps& gaps, const Position& position);
// ", turned 8° clockwise"; empty when it is not turned.
std::string turned_words(Angle angle, std::string_view turned = ", turned ");
// "the ribbon", "the rust latch", for a Position's `over`; empty when the id is unknown.
std::string thing_with_the(const Project& project, const Card& card, const std::string& id);

// Where several alike things stand, with its comma: ", in a row, 1 in below the top edge",
// ", in three rows of four", ", where the drawing shows them"; where no drawing stands beside the
// words, ", as in the picture of the card" or, of what that does not show, each by its distances.
// One thing stands as where_words says.
std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position);

} // namespace leafwright::guide
