#pragma once

#include "app/documents.h"
#include "guide/block.h"

#include <string_view>

namespace leafwright::app {

// Lays a document out and writes it as PDF: <project id>-<name>.pdf. `look` names the template in
// templates/ that is used unless the user gave one.
Made typeset(const guide::Document& document, std::string_view name, std::string_view look,
             const Prepared& prepared, const Workshop& workshop);

} // namespace leafwright::app
