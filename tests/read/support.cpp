#include "support.h"

#include <fstream>
#include <sstream>

namespace leafwright::test {

std::string sample_path(std::string_view name) {
  return std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + std::string(name) + "/project.xml";
}

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

} // namespace leafwright::test
