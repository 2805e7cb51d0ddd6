#pragma once

#include <span>
#include <string_view>

namespace leafwright::reading {

// What may stand where: the same rules as the grammar in templates/grammar, which a test holds
// against each other.
struct ElementRule {
  std::string_view key;        // "project", "stock"; where a name means two things: "card/stamp"
  std::string_view attributes; // blank between them; ! behind one that must be there
  std::string_view children;   // element names, each ! once, ? at most once, + at least once, or *
                               // any number; "stamp=card/stamp" when the key differs from the name
  bool prose = false;          // words may stand in it
  // Groups of which only one member may be given: "size|inset|width,height at|places".
  std::string_view either = {};
};

std::span<const ElementRule> element_rules();
const ElementRule* rule_for(std::string_view key); // nullptr when there is none

} // namespace leafwright::reading
