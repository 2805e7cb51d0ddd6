#pragma once

#include "guide/block.h"
#include "model/project.h"
#include "plan/calendar/day_plan.h"
#include "plan/orders/contents.h"
#include "plan/orders/parcels.h"

#include <cstddef>
#include <string>
#include <vector>

// The documents from the order list to the post, and the run sheet of a class in a room. Names of
// buyers stand in slips, labels and the table of parcels, and nowhere else.

namespace leafwright::guide {

// What all of them are made from.
struct PackingList {
  orders::Parcels parcels;
  supply::CuttingPlan pieces;             // letters, not laid on sheets
  std::vector<orders::Contents> contents; // by kind
  std::size_t rows_left_out = 0;          // of the roster
};
PackingList packing_list(const Project& project, orders::Parcels parcels,
                         std::size_t rows_left_out = 0);

struct ParcelOptions {
  bool draft = false;
};

// One slip an order, half a page where it fits; without orders one for each tier that is expected.
// Sections: slips, slips-unposted.
Document packing_slips(const Project& project, const PackingList& list,
                       const ParcelOptions& options = {});
// One row an order (RFC 4180): number of its parcel, name, tier, kits, region, grams of the parcel,
// what its swaps come to, what is due, came in and is owed in the currency of the project, remarks;
// then the roster's own columns.
std::string parcels_csv(const Project& project, const PackingList& list);

// One row a parcel that is still to be sent, for a carrier: name, address line by line, country and
// its code (ISO 3166-1), grams, what is in it and its price.
std::string carrier_csv(const Project& project, const PackingList& list);

// Name and address of each parcel that is still to be sent, or the tier where there is no order
// yet. Section: labels.
Document parcel_labels(const Project& project, const PackingList& list,
                       const ParcelOptions& options = {});

// Parts by envelope and supplies by the kit, for assembling in batches. No names. Sections:
// totals-parts, totals-supplies, totals-kits.
Document totals(const Project& project, const PackingList& list, const ParcelOptions& options = {});
std::string totals_csv(const Project& project, const PackingList& list); // one row a kind of part

// The plan of days on one page. Section: calendar.
Document calendar_page(const Project& project, const calendar::DayPlan& plan,
                       const ParcelOptions& options = {});

// Timetable, what lies on each table, the order of what is shown. Sections: run-sheet, run-tables,
// run-demo.
Document run_sheet(const Project& project, const ParcelOptions& options = {});

} // namespace leafwright::guide
