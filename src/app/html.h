#pragma once

#include "app/documents.h"
#include "guide/block.h"

#include <string_view>

namespace leafwright::app {

// A document as one page for a browser: <project id>-<name>.html. Colours are those of the page
// template `look`, see typeset.h.
Made web_page(const guide::Document& document, std::string_view name, std::string_view look,
              const Prepared& prepared, const Workshop& workshop);

} // namespace leafwright::app
