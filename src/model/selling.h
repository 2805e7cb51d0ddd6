#pragma once

#include "measure/mass.h"
#include "measure/money.h"
#include "model/finding.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace leafwright {

// What selling itself costs, beside the things that are sold.
struct Selling {
  // What is kept back from each payment: a share of it, and a fixed amount.
  std::int64_t fee_ppm = 0; // parts in a million: 29 000 is 2.9 %
  Money fee_fixed;
  // Postage of one parcel by its mass, lightest first; without `up_to` for any mass.
  struct Postage {
    std::optional<Mass> up_to;
    Money cost;
    Place place;
  };
  std::vector<Postage> postage;
  std::optional<Money> packing; // box, tissue and label of one parcel
  // Paid once, however many sign up: papers for the samples, a room.
  struct Outlay {
    std::string words;
    Money cost;
    Place place;
  };
  std::vector<Outlay> outlays;
  Place place;
};

} // namespace leafwright
