#pragma once

#include "guide/prose/telling.h"
#include "guide/prose/where.h"

#include <string>
#include <vector>

namespace leafwright::guide {

// Where several alike things stand, with its comma: ", in a row, 1 in below the top edge",
// ", in three rows of four", ", where the drawing shows them". One thing stands as where_words
// says.
std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position);

} // namespace leafwright::guide
