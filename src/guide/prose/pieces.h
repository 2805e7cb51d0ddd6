#pragma once

#include "guide/prose/prose.h"
#include "guide/prose/telling.h"

#include <string>
#include <vector>

namespace leafwright::guide {

// One piece, or several that are made alike and told together: both panels of a gate.
using Together = std::vector<int>; // indices into the card's pieces, at least one

const Piece& first_of(const Telling& telling, const Together& pieces);
int how_many(const Telling& telling, const Together& pieces); // copies counted
// "left and right gate panels"; "three die-cut tags" with a word for what they are.
std::string together_noun(const Telling& telling, const Together& pieces,
                          std::string_view adjective = {});
// "the dotted mat (C), 4 × 5 1/4 in" with its second comma to come; "the three tags (K), each ...".
void say_pieces(Prose& prose, const Telling& telling, const Together& pieces, bool sized,
                std::string_view adjective = {});
// "it" or "them"; "its" or "their"
std::string_view pronoun(const Telling& telling, const Together& pieces);

// Pieces of the same stock, size, outline and treatment, lying in the same way on their carriers.
bool made_alike(const Telling& telling, const Piece& a, const Piece& b);

} // namespace leafwright::guide
