#pragma once

#include "guide/prose/prose.h"
#include "guide/prose/telling.h"

#include <string>

// Ribbon, twine and embellishments.

namespace leafwright::guide {

Prose ribbon_words(const Telling& telling, const RibbonUse& use);
std::string ribbon_title(const Project& project, const RibbonUse& use); // "Wrap the ribbon"
std::string ribbon_part(const Project& project, const RibbonUse& use);  // "9 1/2 in of ..."

Prose embellishment_words(const Telling& telling, const EmbellishmentUse& use);
std::string embellishment_title(const Project& project, const EmbellishmentUse& use);
std::string embellishment_part(const Project& project, const EmbellishmentUse& use);

} // namespace leafwright::guide
