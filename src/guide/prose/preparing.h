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

// So much that it deserves a step and a drawing of its own.
bool needs_own_step(const Piece& piece);
// The page with the outline to trace, for pieces cut with scissors.
inline constexpr const char* templates_anchor = "templates";
// Whether a piece has a full-size outline: shaped, and cut by neither die nor punch.
bool is_traced(const Piece& piece);

} // namespace leafwright::guide
