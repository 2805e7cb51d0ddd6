#pragma once

#include "model/project.h"
#include "plan/supply/needs.h"

#include <string>
#include <vector>

// Amounts and items as a list names them.

namespace leafwright::guide {

// What a need comes to: "4 sheets", "22 1/4 in", "about 134 in", "16", "1".
std::string amount_words(const Project& project, const supply::Need& need);
// What a tier includes of an item: "whole spool", "24 in", "a quarter of the pack".
std::string included_words(const Project& project, ItemRef item, const Amount& amount,
                           const supply::Need* need);
// An item with what tells it apart in a shop: "Kraft, 80 lb cover, letter"; "Rust grosgrain ribbon,
// 3/8 in wide". Not repeated when the name says it already.
std::string listed_item(const Project& project, ItemRef item);
// "letter", "A4", "12 × 12 in"
std::string sheet_words(const Project& project, const SheetOffer& offer);
// "all" or "1, 3": numbers of the cards; empty when there is one card only.
std::string cards_words(const Project& project, const std::vector<int>& cards);

} // namespace leafwright::guide
