#pragma once

#include "guide/block.h"
#include "model/project.h"

#include <optional>
#include <string>
#include <vector>

// What is said to those who may buy, wherever it is said: on the offer, in a talk, in a letter.
// `tiers` are those that are told of.

namespace leafwright::guide {

// "Nine cards in all."
std::string made_words(const Project& project);

// The finished card for a buyer, who is told what it is, not how it is cut.
Figure front_figure(const Project& project, const Card& card);

// Until when, and when it comes.
List offer_dates(const Project& project, const std::vector<int>& tiers);
// How it comes, and whom to write to.
List offer_ordering(const Project& project, const std::vector<int>& tiers);

// Nothing where a gift has no price: a part of the worth would say too little.
std::optional<Money> gifts_worth(const Project& project, int tier);

} // namespace leafwright::guide
