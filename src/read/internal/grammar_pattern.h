#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

// Patterns of RELAX NG (ISO/IEC 19757-2), written in its two forms.

namespace leafwright::reading::grammar {

struct Pattern {
  enum class Kind { Text, Empty, Ref, Value, Data, List, Attribute, Element, Group, Choice, Mixed };
  Kind kind = Kind::Empty;
  std::string name; // of a reference, an attribute or an element; a value; a datatype
  std::vector<std::pair<std::string, std::string>> params; // of a datatype
  std::vector<Pattern> inside;
  char count = '!'; // ! once, ? + *
};

// In XML, that many steps in, added to `out`.
void write_xml(std::string& out, const Pattern& one, std::size_t depth);
// In the compact syntax. Names with two spellings are written with both, here and there.
std::string compact(const Pattern& one);

} // namespace leafwright::reading::grammar
