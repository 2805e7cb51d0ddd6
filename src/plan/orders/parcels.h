#pragma once

#include "model/project.h"
#include "plan/supply/kits.h"
#include "plan/supply/needs.h"
#include "plan/tier/value.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

// From orders to parcels: which kinds of kit there are, and which parcel takes how many of which.

namespace leafwright::orders {

// A buyer who owns something of her tier and takes something else instead, or whose tier leaves out
// what she owns, gets a kit of her own kind: what she owns is left out of it, what she chose is in
// it. All orders alike share one kind.
struct Change {
  std::vector<ItemRef> left_out;
  std::vector<Swap> taken; // amounts settled
  // Of one kit: what is left out is worth to her, what she takes is worth, and the difference: it
  // lapses, comes off the price, or is to be paid.
  Money credit, worth, remainder, off, to_pay;
  bool empty() const { return left_out.empty() && taken.empty(); }
};

struct Parcel {
  int order = -1; // index into Run::orders
  int kind = -1;  // index into Parcels::kinds
  int kits = 1;   // all in one parcel
  int box = -1;   // index into Parcels::boxes; -1: nothing is packed
  bool late = false;
  bool repeated = false;              // the same name and tier stand further up
  std::vector<std::size_t> not_owned; // of Tier::requires_owned: not said to be owned, if anybody
                                      // was asked
};

struct Parcels {
  std::vector<supply::KitKind> kinds;  // tier after tier, the unchanged one first
  std::vector<Change> changes;         // by kind
  std::vector<Parcel> parcels;         // what is packed, in the order of Run::orders
  std::vector<std::vector<int>> boxes; // parcels that are packed into one, the first leads
  std::vector<Parcel> unposted;        // tiers of which nothing is posted
  Findings findings;                   // of the orders; codes "order-..."
};

// Without orders: the kinds that the run expects, and no parcels.
Parcels parcels_of(const Project& project);

// What one order changes in its tier, with a finding for each wish that the tier does not grant.
Change change_of(tiers::TierValues& values, const Order& order, Findings& findings);

// Late, repeated, and what a tier asks a buyer to own.
void check_orders(const Project& project, Parcels& parcels);
// One for each order that is set aside: "order-not-counted".
void tell_set_aside(const Project& project, Findings& findings);

} // namespace leafwright::orders
