#pragma once

#include "measure/parse_length.h"

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

// Numbers of a project file that are lengths, as they were typed. Inside this room.

namespace leafwright::edit {

struct TypedLength {
  std::size_t at = 0, length = 0; // bytes of the number alone, within the value
  std::size_t end = 0;            // behind its unit; equal to at + length without one
  Length value;
  std::optional<Unit> unit; // as written: cm counts as Millimetre
};

// How the reader takes a value to pieces.
enum class TypedAs {
  Length,     // "1/8", "base.width - 1/4 in"
  Size,       // "4 x 5 1/2", "mat.width - 1 x 3 in"
  Position,   // "centre, 3/8 from top"
  Points,     // "3/8, 1/2; 1 1/4, 2"
  Expression, // between the braces of a sentence; a name alone is no length
  Amount,     // "22 in", "2 of 6 x 12", "4 sheets"
};

// The lengths among a value's numbers, in order: in `flap.width - ring.width * 3 / 5 + 1` only the
// 1. What cannot be taken to pieces has none. A size whose unit stands at its end gives it to both
// sides.
std::vector<TypedLength> typed_lengths(std::string_view text, TypedAs how, Unit bare);

} // namespace leafwright::edit
