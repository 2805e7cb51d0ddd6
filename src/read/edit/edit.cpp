#include "read/edit/edit.h"

namespace leafwright::edit {

std::string applied(std::string_view text, const std::vector<Edit>& edits) {
  std::string out;
  std::size_t at = 0;
  for (const Edit& edit : edits) {
    out += text.substr(at, edit.at - at);
    out += edit.bytes;
    at = edit.at + edit.length;
  }
  out += text.substr(at);
  return out;
}

} // namespace leafwright::edit
