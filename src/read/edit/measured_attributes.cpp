#include "read/edit/measured_attributes.h"

#include <algorithm>
#include <array>

namespace leafwright::edit {
namespace {

using As = TypedAs;
using Names = MeasuredAttribute::Names;
constexpr bool bought = true;

// The thing's own element, or "piece" for base, panel, band and liner.
constexpr std::array table = {
    MeasuredAttribute{"stock", "sheet", As::Size, bought, Names::Sheets},
    MeasuredAttribute{"stock", "caliper", As::Length, bought},
    MeasuredAttribute{"stock", "repeat", As::Length, bought},
    MeasuredAttribute{"sheet", "size", As::Size, bought, Names::Sheets},
    MeasuredAttribute{"image", "size", As::Size, bought},
    MeasuredAttribute{"die", "size", As::Size, bought},
    MeasuredAttribute{"die", "radius", As::Length, bought},
    MeasuredAttribute{"die", "depth", As::Length, bought},
    MeasuredAttribute{"spool", "width", As::Length, bought},
    MeasuredAttribute{"spool", "thickness", As::Length, bought},
    MeasuredAttribute{"spool", "spool", As::Length, bought},
    MeasuredAttribute{"embellishment", "size", As::Size, bought},
    MeasuredAttribute{"embellishment", "height", As::Length, bought},
    MeasuredAttribute{"embellishment", "radius", As::Length, bought},
    MeasuredAttribute{"embellishment", "depth", As::Length, bought},
    MeasuredAttribute{"adhesive", "thickness", As::Length, bought},
    MeasuredAttribute{"adhesive", "width", As::Length, bought},
    MeasuredAttribute{"adhesive", "length", As::Length, bought},
    MeasuredAttribute{"adhesive", "piece", As::Size, bought},
    MeasuredAttribute{"adhesive", "spacing", As::Length},
    MeasuredAttribute{"tool", "cut-length", As::Length, bought},
    MeasuredAttribute{"tool", "smallest-strip", As::Length, bought},
    MeasuredAttribute{"tool", "stack", As::Length, bought},
    MeasuredAttribute{"envelope", "size", As::Size, bought, Names::Envelopes},
    MeasuredAttribute{"in-hand", "offcut", As::Size, bought},
    MeasuredAttribute{"in-hand", "length", As::Length, bought},
    MeasuredAttribute{"labels", "paper", As::Size, bought, Names::Sheets},
    MeasuredAttribute{"labels", "size", As::Size, bought},
    MeasuredAttribute{"labels", "left", As::Length, bought},
    MeasuredAttribute{"labels", "top", As::Length, bought},
    MeasuredAttribute{"labels", "gap-across", As::Length, bought},
    MeasuredAttribute{"labels", "gap-down", As::Length, bought},

    MeasuredAttribute{"card", "size", As::Size, false, Names::Cards},
    MeasuredAttribute{"card", "unfolded", As::Size, false, Names::Cards},
    MeasuredAttribute{"piece", "size", As::Size},
    MeasuredAttribute{"piece", "inset", As::Length},
    MeasuredAttribute{"piece", "width", As::Length},
    MeasuredAttribute{"piece", "height", As::Length},
    MeasuredAttribute{"piece", "at", As::Position},
    MeasuredAttribute{"piece", "places", As::Points},
    MeasuredAttribute{"piece", "cut-from", As::Size},
    MeasuredAttribute{"piece", "tape", As::Length},
    MeasuredAttribute{"piece", "radius", As::Length},
    MeasuredAttribute{"piece", "depth", As::Length},
    MeasuredAttribute{"score", "at", As::Length},
    MeasuredAttribute{"stamp", "at", As::Position},
    MeasuredAttribute{"stamp", "places", As::Points},
    MeasuredAttribute{"window", "size", As::Size},
    MeasuredAttribute{"window", "at", As::Position},
    MeasuredAttribute{"window", "radius", As::Length},
    MeasuredAttribute{"window", "depth", As::Length},
    MeasuredAttribute{"round-corners", "radius", As::Length},
    MeasuredAttribute{"ribbon", "at", As::Position},
    MeasuredAttribute{"ribbon", "extra", As::Length},
    MeasuredAttribute{"ribbon", "length", As::Length},
    MeasuredAttribute{"embellish", "at", As::Position},
    MeasuredAttribute{"embellish", "places", As::Points},
    MeasuredAttribute{"include", "amount", As::Amount},
    MeasuredAttribute{"choice", "amount", As::Amount},
};

std::string_view key_of(std::string_view element, bool in_supplies) {
  if (in_supplies && (element == "ribbon" || element == "twine")) return "spool";
  if (element == "base" || element == "panel" || element == "band" || element == "liner")
    return "piece";
  return element;
}

} // namespace

const MeasuredAttribute* measured(std::string_view element, std::string_view attribute,
                                  bool in_supplies) {
  const std::string_view key = key_of(element, in_supplies);
  const auto found = std::find_if(table.begin(), table.end(), [&](const MeasuredAttribute& one) {
    return one.element == key && one.attribute == attribute;
  });
  return found == table.end() ? nullptr : &*found;
}

} // namespace leafwright::edit
