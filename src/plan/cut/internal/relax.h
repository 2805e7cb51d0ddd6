#pragma once

#include "plan/cut/internal/search.h"

#include <cstdint>
#include <span>
#include <vector>

namespace leafwright::cut {

// What the relaxation is solved for.
enum class Aim {
  Guide,   // prices to go by, for any part of the demand; not priced to the end on large grids
  Bound,   // the job's whole demand, until the bound of the search cannot rise any more
  Optimum, // the same, to the end
};

// Column generation (Gilmore and Gomory 1961, 1965) for any part of the demand.
class Relaxation {
 public:
  explicit Relaxation(Search& search);

  // Solves for `demand` (not negative) with the sheets in `stock_used` gone. False: the budget ran
  // out before the aim was reached.
  bool solve(std::span<const std::int64_t> demand, std::span<const std::int64_t> stock_used,
             Aim aim, int most_rounds);

  double value() const { return value_; }
  double shortage() const { return master_.shortage(); }
  std::vector<int> short_types() const { return master_.short_types(); }
  std::vector<double> amounts() const { return master_.amounts(); }
  std::vector<double> prices() const { return master_.prices(); }
  std::vector<int> basis() const { return master_.basis(); }

  // Adds a pattern to the pool and the programme; its index in the pool.
  int add(Column column);

 private:
  struct Priced {
    bool found = false;
    bool exact = true;
  };
  struct Pricing {
    std::span<const std::int64_t> demand;
    std::span<const double> prices, stock_prices;
    bool whole = false; // the demand is the job's
    int most_points = 0;
  };
  Priced price(const Pricing& pricing);
  // The best patterns above `above` for some values, and what the best of all is worth.
  struct Patterns {
    Value best = 0;
    bool exact = true;
    std::vector<Slice> slices;
  };
  Patterns best_patterns(std::size_t s, const Pricing& pricing, std::span<const Value> values,
                         double above, int count);
  void first_columns();
  bool wants_few(std::span<const std::int64_t> demand) const;

  Search& search_;
  Master master_;
  int known_ = 0; // columns of the pool that the master has
  double value_ = 0;
};

// Values in whole units for one pricing: floor(price x scale), with a scale at which two
// rectangles still add up in 32 bits.
struct ScaledValues {
  std::vector<Value> values;
  double scale = 1;
};
ScaledValues scaled_values(std::span<const double> prices, const Normal& normal);

} // namespace leafwright::cut
