#pragma once

#include "plan/cut/budget.h"
#include "plan/cut/normal.h"
#include "plan/cut/slice.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace leafwright::cut {

struct SheetSize {
  int width = 0, height = 0;
};

/// A fixed set of sheets to pack everything into.
struct RepackTask {
  std::span<const std::int64_t> demand; ///< per type; small numbers
  std::span<const int> stocks;          ///< one entry a sheet
  std::span<const Slice> start; ///< patterns to begin with, for the first sheets; may be empty
  std::span<const SheetSize> sizes{}; ///< where a sheet is to be used in part; empty: as the stock
  std::uint64_t number = 1;           ///< which walk to take
  std::int64_t steps = 1'000'000;     ///< places looked at before giving up
};

/// Work that one step is counted as.
constexpr std::int64_t step_work = 5;

struct RepackResult {
  std::vector<Slice> slices; ///< one a sheet; empty: did not succeed
  std::int64_t moves = 0;
};

/// Local search: take some pieces out, put them back where they fit best, keep what does not get
/// worse (ruin and recreate, Schrimpf et al. 2000, on elastic slicing trees; late acceptance, Burke
/// and Bykov 2017).
RepackResult repack(const Normal& normal, const RepackTask& task, Budget& budget);

} // namespace leafwright::cut
