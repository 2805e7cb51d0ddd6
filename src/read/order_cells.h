#pragma once

#include "model/project.h"

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

// One order from what stands in its cells, whether they are attributes of the project or cells of
// the roster.

namespace leafwright::reading {

struct OrderCell {
  std::string text;
  Place place;                                             // of the cell
  RosterColumn::Days days = RosterColumn::Days::YearFirst; // of a date
};
struct OrderCells {
  std::array<OrderCell, order_fields> cells; // by field
  struct OfTier {
    int tier = -1;
    OrderCell cell; // how many of it
  };
  std::vector<OfTier> of_tiers; // where each tier has a column of its own
  Place place;                  // of the order
  OrderCell& operator[](OrderField field) { return cells.at(static_cast<std::size_t>(field)); }
  const OrderCell& operator[](OrderField field) const {
    return cells.at(static_cast<std::size_t>(field));
  }
};

// Without blanks around, in small letters (ASCII), runs of blanks as one: as words are compared.
std::string folded(std::string_view text);

// Tiers and things by id, by name, and by what the maker's list calls them (`<value>`); case and
// blanks around hardly count.
class OrderNames {
 public:
  explicit OrderNames(const Project& project);
  const int* tier(std::string_view word) const; // nullptr when there is none
  const ItemRef* item(std::string_view word) const;
  // Our word for what stands in a column, by the maker's list; the text itself when it is not
  // there.
  std::string_view meaning(OrderField field, std::string_view text) const;
  std::vector<std::string_view> tier_ids() const;
  std::vector<std::string_view> item_ids() const;

 private:
  void add(OrderField field, const RosterColumn::Value& value);

  const Project& project_;
  std::map<std::string, int> tiers_;
  std::map<std::string, ItemRef> items_;
  std::map<std::pair<OrderField, std::string>, std::string_view> meanings_;
  std::vector<std::string> ids_;
};

// One order for each tier that is named. With an error among the findings they cannot be counted
// and are not given; warnings name what was passed over. Of an order whose status does not count
// only the name is read. Codes "order-...".
struct OrderReading {
  std::vector<Order> orders;
  Findings findings;
  // Words that mean nothing here, each with the finding that tells it.
  struct Unknown {
    std::size_t finding = 0;
    OrderField field = OrderField::Kept;
    std::string text;
  };
  std::vector<Unknown> unknown;
};
// A day as a form writes it, whatever time of day stands behind. ISO 8601 with the year first, else
// with / . or - between; a year of two digits is of this century.
std::optional<Date> day_of(std::string_view text, RosterColumn::Days days);

OrderReading read_order(const OrderCells& cells, const Project& project, const OrderNames& names);

} // namespace leafwright::reading
