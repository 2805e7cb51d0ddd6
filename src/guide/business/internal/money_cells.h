#pragma once

#include "guide/prose.h"
#include "guide/sections.h"

#include <algorithm>
#include <cstdint>
#include <string>
#include <string_view>

// Cells and columns of the tables of money.

namespace leafwright::guide {

inline Inlines cell(const Money& money) { return plain(money_text(money)); }
inline Inlines cell(std::int64_t count) { return plain(std::to_string(count)); }
// Something paid away; nil is a dash.
inline Inlines paid(const Money& money) {
  return plain(money.minor == 0 ? "–" : money_text(money));
}

inline Column words_column(std::string_view head, double share) {
  return {plain(head), Column::Align::Left, share, true};
}
inline Column money_column(std::string_view head) {
  return {plain(head), Column::Align::Right, 1.0, false};
}

// What its buyers get is the PDF and nothing to pack.
inline bool is_tutorial_alone(const Tier& tier) {
  return !tier.includes.empty() && std::ranges::all_of(tier.includes, [](const Inclusion& one) {
    return one.item.kind == ItemKind::Tutorial;
  });
}

} // namespace leafwright::guide
