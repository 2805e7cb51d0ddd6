#pragma once

#include "read/edit/typed_lengths.h"

#include <string_view>

// Which attributes of a project are measures, and who chose them. Inside this room.

namespace leafwright::edit {

struct MeasuredAttribute {
  std::string_view element; // "panel"; "spool" for a ribbon or twine among the supplies
  std::string_view attribute;
  TypedAs as = TypedAs::Length;
  // A die, a sheet, a reel is as it was bought: no ruler chooses it. All else is the maker's
  // choice.
  bool bought = false;
  enum class Names { None, Sheets, Cards, Envelopes } names = Names::None; // that may stand for it
};

// Nothing when the attribute is no measure. `in_supplies`: the element stands there.
const MeasuredAttribute* measured(std::string_view element, std::string_view attribute,
                                  bool in_supplies);

} // namespace leafwright::edit
