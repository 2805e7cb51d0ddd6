#include "guide/section/tier_cells.h"

#include "guide/prose/naming.h"
#include "guide/prose/prose.h"
#include "guide/section/amounts.h"
#include "guide/words/article.h"
#include "guide/words/list.h"
#include "measure/index.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

bool holds(const Project& project, int pack, int stock) {
  if (pack < 0 || as_index(pack) >= project.packs.size()) return false;
  const auto& lines = project.packs[as_index(pack)].lines;
  return std::any_of(lines.begin(), lines.end(),
                     [&](const Pack::Line& line) { return line.stock == stock; });
}

std::string with_gift(const std::string& words, bool gift) {
  return gift ? words + " (gift)" : words;
}

// Parts of the cards named, or of all: whether they hold every piece of this need.
std::string parts_words(const Tier& tier, const Inclusion& parts, const supply::Need& need) {
  const bool all =
      parts.cards.empty() || std::all_of(need.cards.begin(), need.cards.end(), [&](int card) {
        return std::find(parts.cards.begin(), parts.cards.end(), card) != parts.cards.end();
      });
  const std::string words = tier.parts_cut ? "cut" : "enough, uncut";
  return all ? words : words + ", in part";
}

std::string found_words(const Project& project, const Tier& tier, const supply::Need& need) {
  for (const Inclusion& one : tier.includes)
    if (one.item == need.item)
      return with_gift(included_words(project, need.item, one.amount, &need), one.gift);
  if (need.item.kind != ItemKind::Stock) return {};
  // A share of a pack beside cut parts is told among the gifts; the parts are what counts here.
  for (const Inclusion& one : tier.includes)
    if (one.item.kind == ItemKind::Parts) return with_gift(parts_words(tier, one, need), one.gift);
  for (const Inclusion& one : tier.includes)
    if (one.item.kind == ItemKind::Pack && holds(project, one.item.index, need.item.index))
      return with_gift(included_words(project, one.item, one.amount, nullptr), one.gift);
  return {};
}

// Whether the parts come with the work of this thing done.
bool made_ready(const Tier& tier, const supply::Need& need) {
  const bool all_parts =
      std::any_of(tier.includes.begin(), tier.includes.end(), [](const Inclusion& one) {
        return one.item.kind == ItemKind::Parts && one.cards.empty();
      });
  return all_parts && ((need.item.kind == ItemKind::Die && tier.die_cut) ||
                       (need.item.kind == ItemKind::StampSet && tier.stamped));
}

// The requirement that this item can satisfy, or nullptr.
const Requirement* asked_for(const Tier& tier, ItemRef item) {
  for (const Requirement& one : tier.requires_owned)
    if (std::find(one.any_of.begin(), one.any_of.end(), item) != one.any_of.end()) return &one;
  return nullptr;
}

// The other things that would do instead.
std::string alternatives_words(const Project& project, const Requirement& asked, ItemRef item) {
  std::vector<std::string> names;
  for (const ItemRef other : asked.any_of)
    if (!(other == item)) names.push_back(words::with_the(item_noun(project, other)));
  return words::listed(names, "or");
}

} // namespace

bool is_your_own(const Project& project, const Tier& tier, const supply::Need& need) {
  return found_words(project, tier, need).empty() && !asked_for(tier, need.item);
}

bool holds_some(const Project& project, const Tier& tier, const supply::Need& need) {
  return !found_words(project, tier, need).empty();
}

Inlines tier_cell(const Project& project, const Tier& tier, const supply::Need& need) {
  const std::string found = found_words(project, tier, need);
  if (!found.empty()) return plain(found);
  const Requirement* asked = asked_for(tier, need.item);
  if (!asked && made_ready(tier, need)) return quiet("not\u00A0needed");
  if (!asked) return quiet("your\u00A0own");
  Prose prose;
  prose.strong("must\u00A0own");
  if (const std::string others = alternatives_words(project, *asked, need.item); !others.empty())
    prose.say(" this or " + others);
  return prose.fragment();
}

} // namespace leafwright::guide
