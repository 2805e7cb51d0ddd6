#pragma once

#include "plan/supply/kit_contents.h"
#include "plan/supply/needs.h"

#include <vector>

// The kinds of kit that a run is made of.

namespace leafwright::supply {

// One way a kit is made up: as its tier says, or changed for buyers who own some of it.
struct KitKind {
  int tier = -1;
  std::vector<Inclusion> includes; // the tier's, or what takes their place
  KitContents kit_items;           // of one kit; KitItem::inclusion points into `includes`
  int kits = 0;
};

// `tier` with `includes` in the place of its own.
KitKind kit_kind(const Project& project, int tier, std::vector<Inclusion> includes, int kits);
// As the tier says.
KitKind kit_kind(const Project& project, int tier, int kits);

// What one kit weighs, without its wrapping. Whole things by the mass of one; what has none is
// named. The tutorial weighs nothing: it goes by mail of the other kind.
KitMass mass_of_contents(const Project& project, const KitContents& kit_items);

} // namespace leafwright::supply
