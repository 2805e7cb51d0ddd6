#pragma once

#include "guide/block.h"
#include "model/project.h"

namespace leafwright::guide {

// The project's own date, midnight UTC, in seconds since 1970: a document made twice from one
// project is the same document.
std::optional<std::int64_t> epoch_of(const Project& project);
Section cover_section(const Project& project, const std::string& edition);
Section contents_section();

// "Edition 3 · 2 March 2027"
std::string edition_words(const Project& project);
// "About 2 h 40 min · confident beginner"; empty when neither is known.
std::string effort_words(const Project& project);
// "2 h 40 min", "35 min"
std::string time_words(int minutes);

} // namespace leafwright::guide
