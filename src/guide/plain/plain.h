#pragma once

#include "guide/block.h"

#include <string>

// A document as plain text, for a terminal or a letter. It has no pages, and drawings are told by
// their alternative words; a draft says so first.

namespace leafwright::guide {

struct PlainLook {
  enum class Tables {
    Columns,      // side by side, as on paper
    OneCellALine, // cell after cell: nothing slips where letters are of unequal width
  };
  int width = 100; // columns of one character each; at least 40
  Tables tables = Tables::Columns;
  std::string signature; // below "-- ", as letters by mail have it (RFC 3676, 4.3)
};
std::string plain_text(const Document& document, const PlainLook& look = {});

} // namespace leafwright::guide
