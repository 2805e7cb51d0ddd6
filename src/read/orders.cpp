#include "read/orders.h"

#include "read/order_cells.h"

#include <algorithm>
#include <utility>

namespace leafwright::reading {

void read_orders(Context& context, const std::vector<Element>& orders) {
  if (orders.empty()) return;
  const OrderNames names(context.project);
  for (const Element& element : orders) {
    const auto cell = [&](std::string_view name) {
      const auto value = element.attribute(name);
      return value ? OrderCell{value->text(), value->place()} : OrderCell{{}, element.place()};
    };
    OrderCells cells{cell("name"),  cell("address"), cell("tier"),   cell("quantity"),
                     cell("owned"), cell("swaps"),   cell("region"), cell("note"),
                     cell("date"),  element.place()};
    // An attribute has no lines of its own.
    std::replace(cells.address.text.begin(), cells.address.text.end(), '|', '\n');
    OrderReading reading = read_order(cells, context.project, names);
    for (Finding& finding : reading.findings) context.journal.add(std::move(finding));
    if (reading.order) context.project.run.orders.push_back(std::move(*reading.order));
  }
}

} // namespace leafwright::reading
