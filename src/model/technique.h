#pragma once

#include "model/card.h"

#include <span>
#include <string_view>

// What is done to a piece beside cutting and stamping: one row for each technique. Reader, steps,
// drawings, rules and times ask here.
//
//   technique_row(Finish::Kind::Washed).dry      // 10 minutes
//   drying_minutes(card)                         // until the slowest of its pieces is dry

namespace leafwright {

struct TechniqueRow {
  Finish::Kind kind;
  std::string_view element;   // in the project file: "wash"
  std::string_view words;     // in a list of skills: "watercolor wash"
  std::string_view british{}; // where it is spelled otherwise there
  Work work;
  // Minutes until it may be touched (common practice); 0 where one goes on at once.
  int dry = 0;
  // Told where it stands among the images of its piece; else after all of them.
  bool as_written = false;
  bool own_tool_alone = false; // with a tool in words it takes no other
  bool wets = false;           // paper that is not made for it buckles
  bool named_skill = false;    // stands among the skills of a card
};

// One row for each, in the order of the enumeration.
std::span<const TechniqueRow> technique_rows();
const TechniqueRow& technique_row(Finish::Kind kind);

int drying_minutes(const Finish& finish);
// One technique after the other on each piece; pieces dry side by side.
int drying_minutes(const Card& card);

} // namespace leafwright
