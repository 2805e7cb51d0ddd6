#pragma once

#include "read/document.h"
#include "read/journal.h"

namespace leafwright::reading {

inline constexpr std::string_view project_namespace = "urn:leafwright:project";
inline constexpr std::string_view project_version = "1";

// Checks names and counts of elements and attributes throughout the tree, and the namespace and the
// version. False when it is no project of ours at all, so that reading on would only make noise.
bool check_structure(const Document& document, Journal& journal);

} // namespace leafwright::reading
