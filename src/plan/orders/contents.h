#pragma once

#include "plan/orders/parcels.h"
#include "plan/supply/sheets.h"

#include <cstdint>
#include <string>
#include <vector>

// What lies in one kit, counted out: lettered envelopes of parts, and supplies.

namespace leafwright::orders {

// One envelope: the parts of one letter.
struct PartLine {
  int line = -1; // of CuttingPlan::lines; a share of a sheet has no piece
  std::string letter;
  int stock = -1;
  Size size{};
  std::int64_t count = 0; // in one kit
  bool gift = false;
};
// Everything else that is handed over; paper given as whole sheets among it.
struct SupplyLine {
  supply::KitItem taking; // without cuts
};
struct Contents {
  std::vector<PartLine> parts;      // by letter, in the order of the cut list; shares last
  std::vector<SupplyLine> supplies; // gifts last
  bool tutorial = false;
  supply::KitMass mass; // of one kit, without wrapping
};

// The pieces of the run, not laid on sheets: the same lines and letters as in the cutting plan.
supply::CuttingPlan pieces_of(const Project& project, const Parcels& parcels);

// By kind. `pieces` is pieces_of() of the same.
std::vector<Contents> contents_of(const Project& project, const Parcels& parcels,
                                  const supply::CuttingPlan& pieces);

// What a parcel weighs with its wrapping.
Mass mass_of(const Project& project, const Contents& contents, int kits);
// As it is told everywhere: the next whole gram, for carriers count what is begun.
std::int64_t grams_of(Mass mass);

} // namespace leafwright::orders
