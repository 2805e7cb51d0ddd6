#pragma once

#include "model/project.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// One order from what stands in its cells, whether they are attributes of the project or cells of
// the roster.

namespace leafwright::reading {

struct OrderCell {
  std::string text;
  Place place; // of the cell
};
struct OrderCells {
  OrderCell name, address, tier, quantity, owned, swaps, region, note, date, status;
  Place place; // of the order
};

// Tiers and things by id and by name; case and blanks around hardly count.
class OrderNames {
 public:
  explicit OrderNames(const Project& project);
  const int* tier(std::string_view word) const; // nullptr when there is none
  const ItemRef* item(std::string_view word) const;
  std::vector<std::string_view> tier_ids() const;
  std::vector<std::string_view> item_ids() const;

 private:
  const Project& project_;
  std::map<std::string, int> tiers_;
  std::map<std::string, ItemRef> items_;
  std::vector<std::string> ids_;
};

// With an error among the findings the order cannot be counted and is not given; warnings name what
// was passed over. Of an order whose status does not count only the name is read. Codes
// "order-...".
struct OrderReading {
  std::optional<Order> order;
  Findings findings;
};
OrderReading read_order(const OrderCells& cells, const Project& project, const OrderNames& names);

} // namespace leafwright::reading
