#pragma once

#include "guide/prose/telling.h"

#include <cstddef>
#include <vector>

namespace leafwright::guide {

// What is told in one breath: one entry of the build, or several that are alike and follow each
// other (both panels of a gate; images stamped straight onto one side).
struct Moment {
  Build::Kind kind = Build::Kind::Piece;
  std::vector<std::size_t> builds; // indices into Card::build, in order
};

// Every entry of the build in exactly one moment, in the author's order. Entries of Kind::Step that
// replace the telling of a thing are left out: `author_step_for` finds them.
std::vector<Moment> moments_of(const Telling& telling);

// The author's own telling of the thing with this id, or nullptr.
const AuthorStep* author_step_for(const Card& card, const std::string& id);

} // namespace leafwright::guide
