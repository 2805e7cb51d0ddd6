#pragma once

#include "measure/shape.h"

#include <optional>
#include <span>
#include <string_view>

namespace leafwright {

// A named trimmed sheet, card or envelope size with the place where the figure is published.
struct NamedSize {
  std::string_view name; // as a project writes it: "letter", "a4", "A2", "C6"
  Size size;             // portrait
  std::string_view source;
};

// Sheets: ISO 216 A and B, US letter/legal/tabloid (ASME Y14.1), 12 x 12, 6 x 6, 8 x 8, 6 x 12 in.
std::span<const NamedSize> sheet_sizes();
// Folded cards: announcement sizes A2, A6, A7, A8, A9, A10 (common practice), C6/C5/DL cards that
// suit ISO 269 envelopes, square sizes, 5 x 7.
std::span<const NamedSize> card_sizes();
// Envelopes: US announcement (common practice), ISO 269 C and DL.
std::span<const NamedSize> envelope_sizes();
// Case is ignored; "A2" means the card of announcement size among cards and envelopes and the ISO
// sheet among sheets.
std::optional<Size> find_size(std::span<const NamedSize> table, std::string_view name);

} // namespace leafwright
