#include "read/internal/choices.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"
#include "read/order_cells.h"

#include <string_view>
#include <utility>
#include <vector>

namespace leafwright::reading {

namespace {

class ColumnReader {
 public:
  explicit ColumnReader(Context& context) : context_(context), names_(context.project) {}

  RosterColumn read(const Element& element) {
    RosterColumn column;
    column.place = element.place();
    column.heading = words_of(element, "heading");
    column.field = choice_of(context_, element, "means", order_field_words, OrderField::Kept);
    column.days = choice_of(context_, element, "days", days_words, RosterColumn::Days::YearFirst);
    if (const auto tier = element.attribute("tier")) {
      if (const int* known = tier_of(*tier)) column.tier = *known;
      if (column.field != OrderField::Quantity)
        note(context_, *tier, "read-wrong-kind", "a tier where the column means quantity",
             "write means=\"quantity\", or take tier away");
    }
    for (const Element& child : element.children("value"))
      column.values.push_back(value_of(child, column.field));
    return column;
  }

 private:
  const int* tier_of(const Value& value) {
    const int* tier = names_.tier(value.view());
    if (!tier)
      note(context_, value, "read-unknown-name", "the id of a tier",
           did_you_mean(value.view(), names_.tier_ids()));
    return tier;
  }

  RosterColumn::Value value_of(const Element& element, OrderField field) {
    RosterColumn::Value value{words_of(element, "text"), words_of(element, "means")};
    const auto means = element.attribute("means");
    if (!means) return value;
    if (field == OrderField::Tier) tier_of(*means);
    const bool thing = field == OrderField::Owned || field == OrderField::Swaps;
    if (thing && !names_.item(means->view()))
      note(context_, *means, "read-unknown-name", "the id of a thing",
           did_you_mean(means->view(), names_.item_ids()));
    return value;
  }

  Context& context_;
  const OrderNames names_; // without what the columns add
};

} // namespace

void read_columns(Context& context, const std::vector<Element>& columns) {
  if (columns.empty()) return;
  ColumnReader reader(context);
  std::vector<RosterColumn> read;
  for (const Element& element : columns) read.push_back(reader.read(element));
  context.project.run.columns = std::move(read);
}

} // namespace leafwright::reading
