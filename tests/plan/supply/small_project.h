#pragma once

#include "model/project.h"

// A small project in inches, all of it right: one A2 card with a mat, a scene, a label on foam and
// a ribbon. Tests change one thing and see what is said.

namespace leafwright::testing {

// Where things stand in its lists.
inline constexpr int kraft = 0, cream = 1, dots = 2;                    // stocks
inline constexpr int tape = 0, foam = 1, glue = 2;                      // adhesives
inline constexpr int base = 0, mat = 1, scene = 2, label = 3, note = 4; // pieces
inline constexpr int front = 0, inside = 1;                             // faces of a top fold

Project small_project();

// A trimmed panel of that size at that place.
Piece panel(std::string id, int stock, Carrier on, Size size, Point at);
// Stuck with that adhesive, foam being raised.
Attach stuck_with(int adhesive);
inline Carrier on_face(int index) { return {Carrier::Kind::Face, index}; }
inline Carrier on_piece(int index) { return {Carrier::Kind::Piece, index}; }
// Adds a piece to a card and to its order of making; returns its index.
int add(Card& card, Piece piece);
// Gives a card another form and a base that fits it; its pieces stay as they are.
void refold(Card& card, Form form);

} // namespace leafwright::testing
