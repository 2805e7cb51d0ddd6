#pragma once

#include "guide/block.h"
#include "guide/parcels/parcel_documents.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// How parcels and what lies in them are called.

namespace leafwright::guide {

// "dotted mat", "share of Windfall dots, 6 × 12 in"
std::string part_name(const Project& project, const supply::CuttingPlan& pieces,
                      const orders::PartLine& part);
// Number of the card a part goes to; empty for shares, and where there is one card only.
std::string part_card(const Project& project, const supply::CuttingPlan& pieces,
                      const orders::PartLine& part);

// What is handed over of a thing, for so many kits: "3", "24 in", "3 × 24 in", "2 packs of 80".
std::string taking_amount(const Project& project, const supply::KitItem& taking, std::int64_t kits);

// "2 cream A2 envelopes", "24 in plain linen twine gift": an item of a list to tick off.
Inlines supply_item(const Project& project, const orders::SupplyLine& line, int kits);

// "Full kit", "Full kit without the Orchard Gate stamp set, with …"
std::string kind_name(const Project& project, const PackingList& list, std::size_t kind);
// The change alone; empty when there is none.
std::string change_words(const Project& project, const orders::Change& change);

// "the Orchard Gate stamp set and the cream A2 envelope": what her tier asks for and she did not
// say she owns; empty when there is nothing.
std::string not_owned_words(const Project& project, const orders::Parcel& parcel);

// "Credit $24.00, picked $22.50, $1.50 left over." or "… $3.00 to pay.", for so many kits. Where
// nothing is picked: "$24.00 comes off the price." or "The price stays the same."
std::string credit_words(const orders::Change& change, int kits);

// The lines of her address; one that is her name, as most begin, is left out.
std::vector<std::string_view> address_lines(const Order& order);

// What the buyer wrote, with room to turn a line in endless words.
std::string breakable(std::string_view text);

// The parcels that travel in one box with it, the one that leads first, and what the box weighs.
const std::vector<int>& together(const PackingList& list, const orders::Parcel& parcel);
Mass box_mass(const Project& project, const PackingList& list, const orders::Parcel& parcel);

// "Order 3 of 27"
std::string parcel_number(const PackingList& list, std::size_t parcel);

} // namespace leafwright::guide
