#pragma once

#include "guide/block.h"
#include "model/project.h"

namespace leafwright::guide {

// Edition, maker, terms, how the booklet was made, and what the check has to say that is no error.
Section colophon_section(const Project& project, const Findings& warnings,
                         const std::string& edition);

} // namespace leafwright::guide
