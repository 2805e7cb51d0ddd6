#include "model/item.h"

#include <array>

namespace leafwright {

namespace {

constexpr std::array kind_table = [] {
  using Counted = KindRow::Counted;
  return std::array{
      // Sheets of adhesive follow the tapes.
      KindRow{ItemKind::Stock, "a stock", Counted::Sheets, "pack", Group::Cardstock, 7, false,
              false},
      KindRow{ItemKind::Pack, "a pack", Counted::Packs, "pack", Group::Patterned, 0, false, false},
      KindRow{ItemKind::Die, "a die", Counted::Things, "", Group::StampsDiesInks, 2, true, true},
      KindRow{ItemKind::StampSet, "a stamp set", Counted::Things, "set", Group::StampsDiesInks, 1,
              true, true},
      KindRow{ItemKind::Ink, "an ink", Counted::Things, "pad", Group::StampsDiesInks, 3, false,
              false},
      KindRow{ItemKind::Ribbon, "a ribbon or a twine", Counted::Length, "spool",
              Group::RibbonAndEmbellishments, 4, true, false},
      KindRow{ItemKind::Embellishment, "an embellishment", Counted::Pieces, "pack",
              Group::RibbonAndEmbellishments, 5, true, true},
      KindRow{ItemKind::Adhesive, "an adhesive", Counted::Adhesive, "pack",
              Group::AdhesivesAndTools, 6, false, false},
      KindRow{ItemKind::Tool, "a tool", Counted::Things, "", Group::AdhesivesAndTools, 8, false,
              false},
      KindRow{ItemKind::Envelope, "an envelope", Counted::Pieces, "pack", Group::Envelopes, 9, true,
              true},
      KindRow{ItemKind::Tutorial, "the tutorial", Counted::Nothing, "", Group::Cardstock, 10, false,
              false},
      KindRow{ItemKind::Parts, "the cut parts", Counted::Nothing, "", Group::Cardstock, 10, false,
              false},
  };
}();

constexpr bool in_order_of_kind() {
  for (std::size_t i = 0; i < kind_table.size(); ++i)
    if (kind_table[i].kind != static_cast<ItemKind>(i)) return false;
  return true;
}
static_assert(in_order_of_kind());

} // namespace

std::span<const KindRow> kind_rows() { return kind_table; }
const KindRow& kind_row(ItemKind kind) { return kind_table.at(static_cast<std::size_t>(kind)); }

Group group_of(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Stock)
    if (const Stock* stock = find_at(project.stocks, item.index)) {
      if (stock->kind == Stock::Kind::Patterned) return Group::Patterned;
      if (stock->kind == Stock::Kind::AdhesiveSheet) return Group::AdhesivesAndTools;
    }
  return kind_row(item.kind).group;
}

int count_of(const Project& project, ItemKind kind) {
  std::size_t count = 0;
  for_each_list(project, [&](ItemKind of, const auto& list) {
    if (of == kind) count = list.size();
  });
  return static_cast<int>(count);
}

std::string item_name(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Tutorial) return "tutorial";
  if (item.kind == ItemKind::Parts) return "cut parts";
  std::string name;
  with_item(project, item,
            [&](const auto& thing) { name = thing.name.empty() ? thing.id : thing.name; });
  return name;
}

std::string item_id(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Tutorial) return "tutorial";
  if (item.kind == ItemKind::Parts) return "parts";
  std::string id;
  with_item(project, item, [&](const auto& thing) { id = thing.id; });
  return id;
}

const Sold* sold_of(const Project& project, ItemRef item) {
  const Sold* sold = nullptr;
  with_item(project, item, [&](const auto& thing) {
    if constexpr (requires { thing.sold; }) sold = &thing.sold;
  });
  return sold;
}

} // namespace leafwright
