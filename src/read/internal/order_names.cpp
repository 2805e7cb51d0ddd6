#include "measure/letters.h"
#include "model/item.h"
#include "read/order_cells.h"

#include <string>
#include <utility>

namespace leafwright::reading {

std::string folded(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  std::string out;
  for (const char c : trimmed(text)) {
    const bool blank = blanks.find(c) != std::string_view::npos;
    if (blank && out.back() == ' ') continue;
    out += blank ? ' ' : small_letter(c);
  }
  return out;
}

OrderNames::OrderNames(const Project& project) : project_(project) {
  // Ids come first: a name that is another thing's id means that thing.
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    tiers_.emplace(folded(project.tiers[i].id), static_cast<int>(i));
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    tiers_.emplace(folded(project.tiers[i].name), static_cast<int>(i));
  std::vector<ItemRef> all;
  for_each_list(project, [&](ItemKind kind, const auto& list) {
    for (std::size_t i = 0; i < list.size(); ++i) all.push_back({kind, static_cast<int>(i)});
  });
  for (const ItemRef item : all) {
    ids_.push_back(item_id(project, item));
    items_.emplace(folded(ids_.back()), item);
  }
  for (const ItemRef item : all) items_.emplace(folded(item_name(project, item)), item);
  for (const RosterColumn& column : project.run.columns)
    for (const RosterColumn::Value& value : column.values) add(column.field, value);
}

// By then every id and name is known: a word that is one keeps its own meaning.
void OrderNames::add(OrderField field, const RosterColumn::Value& value) {
  const std::string text = folded(value.text);
  if (const int* known = tier(value.meaning); known && field == OrderField::Tier)
    tiers_.emplace(text, *known);
  if (const ItemRef* known = item(value.meaning);
      known && (field == OrderField::Owned || field == OrderField::Swaps))
    items_.emplace(text, *known);
  meanings_.emplace(std::pair(field, text), value.meaning);
}

std::string_view OrderNames::meaning(OrderField field, std::string_view text) const {
  const auto found = meanings_.find(std::pair(field, folded(text)));
  return found == meanings_.end() ? text : found->second;
}

const int* OrderNames::tier(std::string_view word) const {
  const auto found = tiers_.find(folded(word));
  return found == tiers_.end() ? nullptr : &found->second;
}

const ItemRef* OrderNames::item(std::string_view word) const {
  const auto found = items_.find(folded(word));
  return found == items_.end() ? nullptr : &found->second;
}

std::vector<std::string_view> OrderNames::tier_ids() const {
  std::vector<std::string_view> ids;
  for (const Tier& tier : project_.tiers) ids.emplace_back(tier.id);
  return ids;
}

std::vector<std::string_view> OrderNames::item_ids() const { return {ids_.begin(), ids_.end()}; }

} // namespace leafwright::reading
