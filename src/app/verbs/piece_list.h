#pragma once

#include "measure/parse_length.h"
#include "model/finding.h"
#include "plan/cut/cut.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Planning without a project: a list of pieces and a list of sheets, as CSV, become a cutting plan
// as JSON.
//
//   pieces  id, width, height, copies, and optionally rotation (yes or no; yes when left out)
//   sheets  width, height, and optionally id, rotation, limit (empty: as many as needed), price
//
// The first row names the columns, in any order. Lengths are whole numbers in a unit of the user's
// own, or measures ("4 1/4 in", "108 mm"). Prices are decimals with at most four places; a sheet
// without a price costs 1.

namespace leafwright::app {

struct PartsOptions {
  // Cells are measures, bare ones in this unit; without it they are whole numbers in a unit whose
  // name, such as "1/16 in", is `unit_name`.
  std::optional<Unit> measures;
  std::string unit_name;
  // In the same terms as the cells; empty = 0.
  std::string blade, smallest_strip;
  std::string trim; // from each edge
  int stages = 0;   // cutting directions in turn; 0: free
  cut::Effort effort;
};

struct PartsJob {
  cut::Job job;
  bool in_nanometres = false;
  std::string unit_name;        // of the answer: "mm", or as the user says
  std::int64_t price_scale = 1; // prices of the job are the user's times this
  // Place::file is 0 for the pieces, 1 for the sheets, -1 for options; line and column from 1.
  Findings findings;
};
PartsJob read_parts(std::string_view pieces_csv, std::string_view sheets_csv,
                    const PartsOptions& options);

// Plans it and answers in JSON (schema parts-plan/1): sheets, bound, whether proven, seconds,
// words, and each pattern with its count and placed pieces; x to the right and y upwards from the
// lower left corner. What cannot be cut is added to `findings`, and nothing is planned.
std::string plan_parts(PartsJob& parts, const cut::Effort& effort);

} // namespace leafwright::app
