#pragma once

#include "model/finding.h"

#include <string>
#include <vector>

// What the maker has seen and leaves as it is: <accept finding="fit-mail-uneven" why="…"/> within
// an element accepts that finding there. An error is never accepted.

namespace leafwright {

struct Project;

struct Acceptance {
  std::string finding; // the code
  std::string why;
  Place place;       // of the <accept>
  Place from, until; // what it holds for; until: the first place past it, no line when to the end
};

bool accepts(const Acceptance& one, const Finding& finding);
// The first that accepts it, or nothing.
const Acceptance* acceptance_of(const Project& project, const Finding& finding);
void leave_out_accepted(const Project& project, Findings& findings);

} // namespace leafwright
