#pragma once

#include "app/documents.h"
#include "guide/block.h"

#include <string_view>

namespace leafwright::app {

// Handouts on pages of half the project's paper, each page twice on a sheet with a line to cut
// along: <project id>-<name>.pdf. The sheets are for print: they carry no tags.
Made two_alike(const guide::Document& document, std::string_view name, const Prepared& prepared,
               const Workshop& workshop);

} // namespace leafwright::app
