#pragma once

#include "guide/prose/pieces.h"

#include <string>
#include <vector>

namespace leafwright::guide {

// What is done to a piece before it is fixed: cut with a die, windows, stamping, edges.
struct Preparation {
  Prose prose;
  std::vector<Notice> notices;
  bool named = false; // its name, letter and size have been said
};
Preparation preparation(const Telling& telling, const Together& pieces, bool sized);

// What the author's own words have told of the making of a piece.
struct Told {
  bool cut = false;     // with a die, a punch, scissors or a knife
  bool rounded = false; // its corners
};
// The sentences of the preparation that cut a piece to its shape, less what has been told.
Prose making(const Telling& telling, const Together& pieces, Told told);

// What a buyer of these parts does not do: it is done when they come.
bool comes_die_cut(const Telling& telling, const Piece& piece);
bool comes_stamped(const Telling& telling, const Piece& piece);

// So much that it deserves a step and a drawing of its own.
bool needs_own_step(const Telling& telling, const Piece& piece);
// The page with the outline to trace, for pieces cut with scissors.
inline constexpr const char* templates_anchor = "templates";
// Whether a piece has a full-size outline: shaped, and cut by neither die nor punch.
bool is_traced(const Piece& piece);

} // namespace leafwright::guide
