#include "text/xml_text.h"

namespace leafwright::text {

std::string xml_text(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const std::string_view here = text.substr(i, 3);
    if (here == "\uFFFE" || here == "\uFFFF") {
      i += 2;
      continue;
    }
    switch (c) {
    case '&': out += "&amp;"; break;
    case '<': out += "&lt;"; break;
    case '>': out += "&gt;"; break;
    case '"': out += "&quot;"; break;
    default:
      if (static_cast<unsigned char>(c) >= 0x20 || c == '\t' || c == '\n') out.push_back(c);
    }
  }
  return out;
}

} // namespace leafwright::text
