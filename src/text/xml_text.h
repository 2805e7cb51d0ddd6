#pragma once

#include <string>
#include <string_view>

namespace leafwright::text {

// A text as it stands in XML, between tags or in double quotes (XML 1.0, 2.4). Control characters
// and U+FFFE and U+FFFF, which XML does not have (2.2), are left out.
std::string xml_text(std::string_view text);

} // namespace leafwright::text
