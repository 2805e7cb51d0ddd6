#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/supply/needs.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::guide {

// What each tier holds, with amounts, and its conditions in plain words. Empty when there are no
// tiers.
Section tiers_section(const Project& project, const supply::Needs& needs);

// Which tiers a document shows, and what it calls the tutorial.
struct TierView {
  std::vector<int> tiers; // empty: all
  std::string_view tutorial = "This booklet";
};
// The tiers that anyone may take, or those of the team alone.
std::vector<int> tiers_for(const Project& project, Tier::Audience audience);

// Items down, tiers across; only items that some tier holds or asks for.
Table tiers_table(const Project& project, const supply::Needs& needs, const TierView& view = {});
// The others in one sentence; empty when there are none.
Inlines never_included(const Project& project, const supply::Needs& needs,
                       const TierView& view = {});
// The conditions of one tier, each a sentence; its dates among them unless they are told elsewhere,
// and what its gifts are worth where that is known.
struct TierTelling {
  bool dates = true;
  std::optional<Money> gifts_worth;
};
List tier_conditions(const Project& project, const Tier& tier, const TierTelling& telling = {});
// "$26.00 + $6.50 postage"
std::string tier_price_words(const Tier& tier);

} // namespace leafwright::guide
