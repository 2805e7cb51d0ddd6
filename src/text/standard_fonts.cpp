#include "text/fonts.h"

#include <array>
#include <fstream>
#include <sstream>
#include <utility>

namespace leafwright::text {

Parsed<Fonts> standard_fonts(const std::string& folder) {
  constexpr std::array<std::pair<Role, const char*>, 6> files{{
      {Role::Text, "Lato-Regular.ttf"},
      {Role::TextBold, "Lato-Bold.ttf"},
      {Role::TextItalic, "Lato-Italic.ttf"},
      {Role::TextBoldItalic, "Lato-BoldItalic.ttf"},
      {Role::Display, "Vollkorn-SemiBold.ttf"},
      {Role::DisplayItalic, "Vollkorn-SemiBoldItalic.ttf"},
  }};
  Fonts fonts;
  for (const auto& [role, name] : files) {
    const std::string path = folder + "/" + name;
    std::ifstream file(path, std::ios::binary);
    std::ostringstream content;
    content << file.rdbuf();
    if (!file.good() || !content.good())
      return Misread{0, 0, path + " cannot be read", "the fonts that ship with the program",
                     "install the fonts folder again, or name where it is"};
    const Parsed<int> face = fonts.add(name, std::move(content).str());
    if (!face) return face.misread();
    fonts.set_role(role, *face);
  }
  return fonts;
}

} // namespace leafwright::text
