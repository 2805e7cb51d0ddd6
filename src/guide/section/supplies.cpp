#include "guide/section/supplies.h"

#include "guide/section/amounts.h"
#include "guide/section/blocks.h"
#include "guide/words/count.h"

#include <algorithm>
#include <optional>

namespace leafwright::guide {

Inlines item_cell(const Project& project, ItemRef item) {
  Prose prose;
  if (item.kind == ItemKind::Ink) prose.ink(item.index);
  prose.say(listed_item(project, item));
  return prose.fragment();
}

Table supplies_table(const Project& project, const supply::Needs& needs) {
  const bool several = project.cards.size() > 1;
  Table table;
  table.caption = "What one kit takes";
  table.columns.push_back({plain("Item"), Column::Align::Left, 3.0, true});
  table.columns.push_back({plain("Amount"), Column::Align::Right, 1.0, false});
  if (several) table.columns.push_back({plain("For cards"), Column::Align::Left, 1.0, false});
  std::optional<supply::Group> group;
  for (const supply::Need& need : needs) {
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    Row row;
    row.cells.push_back(item_cell(project, need.item));
    row.cells.push_back(plain(amount_words(project, need)));
    if (several) row.cells.push_back(plain(cards_words(project, need.cards)));
    table.rows.push_back(std::move(row));
  }
  return table;
}

Section supplies_section(const Project& project, const supply::Needs& needs) {
  Section section{"supplies", "What you need", {}};
  add(section, heading(1, "supplies", "What you need"));
  const int each = std::max(1, project.run.of_each);
  const auto designs = static_cast<std::int64_t>(project.cards.size());
  std::string words = "For " + words::counted(designs * each, "card");
  if (designs > 1)
    words += each == 1 ? ", one of each" : ", " + words::count_words(each) + " of each";
  words += ". Stamps, dies, inks and tools are used and kept; all the rest is used up.";
  if (std::any_of(needs.begin(), needs.end(), [](const supply::Need& need) {
        return need.item.kind == ItemKind::Stock && need.sheets > 0;
      }))
    words += " Sheets are counted as the cut diagrams lay them out, so a slip of the blade is not "
             "allowed for: have one more of each at hand.";
  add(section, lead(plain(words)));
  add(section, supplies_table(project, needs));
  return section;
}

} // namespace leafwright::guide
