#include "plan/tier/difference.h"

#include "measure/index.h"
#include "plan/tier/value.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace leafwright::tiers {

namespace {

struct Side {
  const Tier& tier;
  TierValue value;
  supply::TierTakings takings;

  Side(const Project& project, int index)
      : tier(project.tiers.at(as_index(index))), value(value_of(project, tier)),
        takings(supply::takings_of(project, tier)) {}

  // The first inclusion of the item.
  const Inclusion* find(ItemRef item) const {
    const auto found = std::find_if(tier.includes.begin(), tier.includes.end(),
                                    [&](const Inclusion& one) { return one.item == item; });
    return found == tier.includes.end() ? nullptr : &*found;
  }
  std::int64_t quantity(const Project& project, ItemRef item) const {
    std::int64_t sum = 0;
    for (const supply::Taking& taking : takings.takings) {
      const auto& of = tier.includes.at(as_index(taking.inclusion));
      if (of.item == item) sum += quantity_of(project, taking);
    }
    return sum;
  }
  std::optional<Money> worth(ItemRef item) const {
    std::optional<Money> sum;
    for (std::size_t i = 0; i < tier.includes.size(); ++i) {
      if (tier.includes[i].item != item) continue;
      if (!value.lines.at(i).known) return std::nullopt;
      sum = sum ? *sum + value.lines[i].value : value.lines[i].value;
    }
    return sum;
  }
};

bool same_requirement(const Requirement& a, const Requirement& b) { return a.any_of == b.any_of; }

std::vector<const Requirement*> only_in(const Tier& one, const Tier& other) {
  std::vector<const Requirement*> found;
  for (const Requirement& wanted : one.requires_owned)
    if (std::none_of(other.requires_owned.begin(), other.requires_owned.end(),
                     [&](const Requirement& also) { return same_requirement(wanted, also); }))
      found.push_back(&wanted);
  return found;
}

} // namespace

TierDifference difference_of(const Project& project, int from, int to) {
  const Side less(project, from), more(project, to);
  TierDifference found;
  found.from = from;
  found.to = to;
  found.value = {0, project.currency};
  if (less.tier.price && more.tier.price) found.price = *more.tier.price - *less.tier.price;

  std::vector<ItemRef> items;
  const auto note = [&](const Tier& tier) {
    for (const Inclusion& one : tier.includes)
      if (std::find(items.begin(), items.end(), one.item) == items.end()) items.push_back(one.item);
  };
  note(more.tier);
  note(less.tier);
  for (const ItemRef item : items) {
    Difference line;
    line.item = item;
    line.from = less.find(item);
    line.to = more.find(item);
    const std::optional<Money> before = less.worth(item), after = more.worth(item);
    if (!line.from) {
      line.value = after;
    } else if (!line.to) {
      line.kind = Difference::Kind::Missing;
      if (before) line.value = Money{-before->minor, project.currency};
    } else {
      const bool other_way =
          item.kind == ItemKind::Parts && less.tier.parts_cut != more.tier.parts_cut;
      const std::int64_t a = less.quantity(project, item), b = more.quantity(project, item);
      if (a == b && !other_way) continue;
      line.kind = other_way ? Difference::Kind::Otherwise
                  : b > a   ? Difference::Kind::More
                            : Difference::Kind::Less;
      if (before && after) line.value = *after - *before;
    }
    if (line.value) found.value = found.value + *line.value;
    found.lines.push_back(line);
  }
  std::stable_sort(found.lines.begin(), found.lines.end(),
                   [](const Difference& a, const Difference& b) { return a.kind < b.kind; });
  found.freed = only_in(less.tier, more.tier);
  found.asked = only_in(more.tier, less.tier);
  return found;
}

std::vector<TierDifference> ladder_of(const Project& project) {
  std::vector<int> open;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    if (project.tiers[i].audience == Tier::Audience::Anyone && project.tiers[i].price)
      open.push_back(static_cast<int>(i));
  std::stable_sort(open.begin(), open.end(), [&](int a, int b) {
    return project.tiers[as_index(a)].price->minor < project.tiers[as_index(b)].price->minor;
  });
  std::vector<TierDifference> ladder;
  for (std::size_t i = 1; i < open.size(); ++i)
    ladder.push_back(difference_of(project, open[i - 1], open[i]));
  return ladder;
}

} // namespace leafwright::tiers
