#pragma once

#include "guide/block.h"
#include "model/project.h"

namespace leafwright::guide {

Section cover_section(const Project& project);
Section contents_section();

// "Edition 3 · 2 March 2027"
std::string edition_words(const Project& project);
// "About 2 h 40 min · confident beginner"; empty when neither is known.
std::string effort_words(const Project& project);
// "2 h 40 min", "35 min"
std::string time_words(int minutes);

} // namespace leafwright::guide
