#pragma once

#include "app/documents/planned_project.h"
#include "guide/block.h"
#include "read/edit/remeasure.h"

#include <cstdint>
#include <string>
#include <vector>

namespace leafwright::app {

// A thing of which the new edition buys more packs.
struct DearerPurchase {
  ItemRef item;
  std::int64_t before = 0, after = 0; // packs
  Money more;
  std::string why;                // a sentence; may be empty
  std::vector<std::string> where; // values that, written as `instead` and not as `now`, avoid it
  std::string now, instead;       // empty: no value alone does
};

// A project and its edition in the other system, both read and checked.
struct TwoSystems {
  const PlannedProject& before;
  const PlannedProject& after;
  const edit::Remeasuring& made;
  std::vector<const Finding*> fresh, gone; // warnings and errors that only one of the two has
  std::vector<DearerPurchase> dearer;
};
TwoSystems two_systems(const PlannedProject& before, const PlannedProject& after,
                       const edit::Remeasuring& made);

// Pieces as cut, measures as written, what was bought, words to look at, findings, sheets and cost.
guide::Document remeasure_report(const TwoSystems& both);
std::string remeasure_json(const TwoSystems& both); // lengths in millimetres

} // namespace leafwright::app
