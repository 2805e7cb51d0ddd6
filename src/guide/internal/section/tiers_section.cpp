#include "guide/internal/section/chapters.h"

#include "guide/prose.h"
#include "guide/sections.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/supply/kits.h"

#include <algorithm>
#include <optional>

namespace leafwright::guide {
namespace {

bool holds(const Project& project, int pack, int stock) {
  if (pack < 0 || as_index(pack) >= project.packs.size()) return false;
  const auto& lines = project.packs[as_index(pack)].lines;
  return std::any_of(lines.begin(), lines.end(),
                     [&](const Pack::Line& line) { return line.stock == stock; });
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

// Everything that a tier holds of one thing, each inclusion with the letters of its envelopes.
class Holding {
 public:
  Holding(const Project& project, const Tier& tier, ItemRef item)
      : project_(project), tier_(tier), item_(item), shares_(supply::shares_of(project, tier)) {}

  // `need`: nullptr when no card takes it.
  Inlines told(const supply::Need* need) {
    const bool paper = item_.kind == ItemKind::Stock;
    // The parts first, and a share of a pack beside them.
    if (paper && need != nullptr)
      for (const Inclusion& one : tier_.includes)
        if (one.item.kind == ItemKind::Parts) say(parts_words(tier_, one, *need), -1, one.gift);
    for (std::size_t i = 0; i < tier_.includes.size(); ++i) {
      const Inclusion& one = tier_.includes[i];
      const bool in_pack =
          paper && one.item.kind == ItemKind::Pack && holds(project_, one.item.index, item_.index);
      if (one.item != item_ && !in_pack) continue;
      // A tool, a die or an ink that no card needs is one of its kind.
      const bool unneeded = need == nullptr && one.amount.kind == Amount::Kind::AsNeeded;
      say(unneeded ? "1" : included_words(project_, one.item, one.amount, in_pack ? nullptr : need),
          static_cast<int>(i), one.gift);
    }
    return prose_.fragment();
  }

 private:
  void say(const std::string& words, int inclusion, bool gift) {
    prose_.say((prose_.empty() ? "" : " + ") + words);
    std::string_view before = ", ";
    for (const supply::KitShare& share : shares_) {
      if (share.inclusion != inclusion || share.stock != item_.index) continue;
      prose_.say(before).append(Inlines{PieceLetter{share.letter}});
      before = " ";
    }
    if (gift) prose_.say(" (gift)");
  }

  const Project& project_;
  const Tier& tier_;
  ItemRef item_;
  std::vector<supply::KitShare> shares_;
  Prose prose_;
};

Inlines found_words(const Project& project, const Tier& tier, const supply::Need& need) {
  return Holding(project, tier, need.item).told(&need);
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
  Inlines found = found_words(project, tier, need);
  if (!found.empty()) return found;
  const Requirement* asked = asked_for(tier, need.item);
  if (!asked && made_ready(tier, need)) return quiet("not\u00A0needed");
  if (!asked) return quiet("your\u00A0own");
  Prose prose;
  prose.strong("you\u00A0need");
  if (const std::string others = alternatives_words(project, *asked, need.item); !others.empty())
    prose.say(" this or " + others);
  return prose.fragment();
}

std::vector<ItemRef> items_beside_cards(const Project& project, const supply::Needs& needs,
                                        const std::vector<const Tier*>& tiers) {
  std::vector<ItemRef> items;
  const auto add = [&](ItemRef item) {
    const bool known = supply::find(needs, item) != nullptr ||
                       std::find(items.begin(), items.end(), item) != items.end();
    if (!known) items.push_back(item);
  };
  for (const Tier* tier : tiers)
    for (const Inclusion& one : tier->includes) {
      const ItemKind kind = one.item.kind;
      if (kind == ItemKind::Tutorial || kind == ItemKind::Parts) continue;
      if (one.amount.kind == Amount::Kind::AsNeeded && kind != ItemKind::Die &&
          kind != ItemKind::StampSet && kind != ItemKind::Ink && kind != ItemKind::Tool)
        continue; // the cards take none of it
      const bool opened = kind == ItemKind::Pack && (one.amount.kind == Amount::Kind::Share ||
                                                     one.amount.kind == Amount::Kind::Sheets);
      if (!opened) {
        add(one.item);
        continue;
      }
      for (const Pack::Line& line : project.packs.at(as_index(one.item.index)).lines)
        add({ItemKind::Stock, line.stock});
    }
  return items;
}

Inlines beside_cards_cell(const Project& project, const Tier& tier, ItemRef item) {
  return Holding(project, tier, item).told(nullptr);
}

namespace {

std::string price_words(const Tier& tier) {
  return tier.price ? money_text(*tier.price) : std::string("on request");
}

std::string posting_words(const Tier& tier) {
  switch (tier.shipping) {
  case Tier::Shipping::Included: return "included";
  case Tier::Shipping::None: return "none: by e-mail";
  case Tier::Shipping::Charged: break;
  }
  return tier.shipping_charge ? "+\u00A0" + money_text(*tier.shipping_charge) : "actual cost";
}

std::string open_words(const Project& project, const Tier& tier) {
  if (tier.open == Tier::Open::Anytime) return "anytime";
  return project.run.reply_by ? words::day_text(project.language, project.run.reply_by->date)
                              : "while it lasts";
}

bool includes(const Tier& tier, ItemKind kind) {
  return std::any_of(tier.includes.begin(), tier.includes.end(),
                     [&](const Inclusion& one) { return one.item.kind == kind; });
}

using Shown = std::vector<const Tier*>;

Shown shown(const Project& project, const TierView& view) {
  Shown tiers;
  if (view.tiers.empty())
    for (const Tier& tier : project.tiers) tiers.push_back(&tier);
  for (const int tier : view.tiers) tiers.push_back(&project.tiers.at(as_index(tier)));
  return tiers;
}

// Whether any tier holds the item or asks for it; the others would be rows of nothing.
bool told_by_a_tier(const Project& project, const Shown& tiers, const supply::Need& need) {
  return std::any_of(tiers.begin(), tiers.end(),
                     [&](const Tier* tier) { return !is_your_own(project, *tier, need); });
}

template <class Cell>
Row row_of(const Shown& tiers, std::string_view head, Cell cell) {
  Row row;
  row.cells.push_back(plain(head));
  for (const Tier* tier : tiers) row.cells.push_back(cell(*tier));
  return row;
}

} // namespace

std::vector<int> tiers_for(const Project& project, Tier::Audience audience) {
  std::vector<int> own, open;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    (project.tiers[i].audience == Tier::Audience::Team ? own : open).push_back(static_cast<int>(i));
  return audience == Tier::Audience::Team ? own : open;
}

Table tiers_table(const Project& project, const supply::Needs& needs, const TierView& view) {
  const Shown tiers = shown(project, view);
  Table table;
  table.caption = "What is in each kit";
  table.columns.push_back({plain("For one kit"), Column::Align::Left, 2.0, true});
  for (const Tier* tier : tiers)
    table.columns.push_back({plain(tier->name), Column::Align::Left, 1.0, false});
  table.rows.push_back(
      row_of(tiers, "Price", [](const Tier& tier) { return strong(price_words(tier)); }));
  table.rows.push_back(row_of(tiers, words::sentence_case(words::terms(project.language).shipping),
                              [&](const Tier& tier) { return plain(posting_words(tier)); }));
  table.rows.push_back(row_of(tiers, "Order by",
                              [&](const Tier& tier) { return plain(open_words(project, tier)); }));
  table.rows.push_back(row_of(tiers, view.tutorial, [](const Tier& tier) {
    return includes(tier, ItemKind::Tutorial) ? plain("yes") : quiet("no");
  }));
  std::optional<supply::Group> group;
  for (const supply::Need& need : needs) {
    if (!told_by_a_tier(project, tiers, need)) continue;
    if (need.group != group) {
      group = need.group;
      table.rows.push_back({Row::Kind::Group, {plain(supply::group_words(need.group))}});
    }
    Row row;
    Prose name;
    if (need.item.kind == ItemKind::Ink) name.ink(need.item.index);
    name.say(words::tie_measures(item_name(project, need.item)));
    row.cells.push_back(name.fragment());
    for (const Tier* tier : tiers) row.cells.push_back(tier_cell(project, *tier, need));
    table.rows.push_back(std::move(row));
  }
  const std::vector<ItemRef> more = items_beside_cards(project, needs, tiers);
  if (!more.empty()) table.rows.push_back({Row::Kind::Group, {plain(beside_cards_words)}});
  for (const ItemRef item : more)
    table.rows.push_back(row_of(tiers, item_name(project, item), [&](const Tier& tier) {
      Inlines cell = beside_cards_cell(project, tier, item);
      return cell.empty() ? quiet("no") : cell;
    }));
  return table;
}

namespace {

// What no tier holds and the same tiers' buyers need: who gets parts cut needs no trimmer.
struct NeededBy {
  std::vector<const Tier*> tiers;
  std::vector<std::string> inks, others;
};

std::vector<NeededBy> needed_from_elsewhere(const Project& project, const supply::Needs& needs,
                                            const Shown& tiers) {
  std::vector<supply::Needs> left;
  for (const Tier* tier : tiers) left.push_back(supply::needs_beside_parts(project, *tier));
  std::vector<NeededBy> all{{tiers, {}, {}}}; // what everyone needs comes first
  for (const supply::Need& need : needs) {
    if (told_by_a_tier(project, tiers, need)) continue;
    Shown by;
    for (std::size_t i = 0; i < tiers.size(); ++i)
      if (supply::find(left[i], need.item)) by.push_back(tiers[i]);
    if (by.empty()) continue;
    auto group = std::ranges::find(all, by, &NeededBy::tiers);
    if (group == all.end()) group = all.insert(all.end(), NeededBy{by, {}, {}});
    const bool ink = need.item.kind == ItemKind::Ink;
    (ink ? group->inks : group->others).push_back(item_noun(project, need.item));
  }
  return all;
}

} // namespace

Inlines never_included(const Project& project, const supply::Needs& needs, const TierView& view) {
  const Shown tiers = shown(project, view);
  Prose prose;
  for (NeededBy& group : needed_from_elsewhere(project, needs, tiers)) {
    if (!group.inks.empty())
      group.others.insert(group.others.begin(), words::noun_for(std::ssize(group.inks), "ink") +
                                                    " in " + words::listed(group.inks));
    if (group.others.empty()) continue;
    std::vector<std::string> names;
    for (const Tier* tier : group.tiers) names.push_back(tier->name);
    prose.next().say(group.tiers.size() < tiers.size()
                         ? "You'll also need with " + words::listed(names, "or") + ": "
                         : std::string("You'll also need (not in ") +
                               (tiers.size() == 1 ? "the" : "any") + " kit): ");
    prose.say(words::listed_apart(group.others) + ".");
  }
  return prose.fragment();
}

std::string tier_price_words(const Project& project, const Tier& tier) {
  std::string words = price_words(tier);
  const std::string shipping(words::terms(project.language).shipping);
  if (tier.shipping == Tier::Shipping::Charged)
    words += tier.shipping_charge ? " + " + money_text(*tier.shipping_charge) + " " + shipping
                                  : " + " + shipping;
  if (tier.shipping == Tier::Shipping::Included) words += ", " + shipping + " included";
  return words;
}

std::string offer_line(const Project& project) {
  std::optional<Money> least, most;
  for (const int index : tiers_for(project, Tier::Audience::Anyone)) {
    const std::optional<Money>& price = tier_at(project, index).price;
    if (!price) continue;
    if (!least || price->minor < least->minor) least = price;
    if (!most || price->minor > most->minor) most = price;
  }
  std::string line;
  if (least) line = (least->minor < most->minor ? "From " : "") + money_text(*least);
  if (project.run.reply_by)
    line += (line.empty() ? "" : " · ") +
            ("Order by " + words::day_text(project.language, project.run.reply_by->date));
  return line;
}

} // namespace leafwright::guide
