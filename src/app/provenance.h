#pragma once

#include "app/documents.h"
#include "output/provenance.h"

#include <string_view>

namespace leafwright::app {

// What a document was made from: the project file, its pictures, the page template, what the
// command line changed; the roster only where the document shows orders. `name` is the document's
// verb.
provenance::Provenance provenance_of(const Prepared& prepared, const Workshop& workshop,
                                     std::string_view name, std::string_view template_name,
                                     std::string_view template_bytes);

} // namespace leafwright::app
