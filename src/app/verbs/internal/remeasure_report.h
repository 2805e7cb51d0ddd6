#pragma once

#include "app/documents/planned_project.h"
#include "guide/block.h"
#include "read/edit/remeasure.h"

#include <string>
#include <vector>

namespace leafwright::app {

// A project and its edition in the other system, both read and checked.
struct TwoSystems {
  const PlannedProject& before;
  const PlannedProject& after;
  const edit::Remeasuring& made;
  std::vector<const Finding*> fresh, gone; // warnings and errors that only one of the two has
};
TwoSystems two_systems(const PlannedProject& before, const PlannedProject& after,
                       const edit::Remeasuring& made);

// Pieces as cut, measures as written, what was bought, words to look at, findings, sheets and cost.
guide::Document remeasure_report(const TwoSystems& both);
std::string remeasure_json(const TwoSystems& both); // lengths in millimetres

} // namespace leafwright::app
