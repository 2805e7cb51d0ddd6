#pragma once

#include "model/project.h"
#include "read/order_cells.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

// Words of a roster that mean nothing here. A form offers the same few to everybody, so they are
// told once for all rows, with the mapping that would give them a meaning.

namespace leafwright::detail {

class UnknownWords {
 public:
  // Takes those of one row out of its findings, but for the first of each field, which stays in
  // `findings` of the roster from then on.
  void take(reading::OrderReading& reading, std::size_t told);
  // `findings` of the roster, where take() counted them; `headings` by field.
  void tell(Findings& findings, const Project& project,
            const std::map<OrderField, std::string>& headings) const;

 private:
  struct Told {
    std::size_t finding = 0; // of the roster
    std::vector<std::string> texts;
    std::map<std::string, int> times;
    std::vector<Place> again; // of the rows behind the first
    std::size_t cells = 0;
  };
  std::map<OrderField, Told> told_;
};

} // namespace leafwright::detail
