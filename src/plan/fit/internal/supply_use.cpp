#include "language/agreement.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/item.h"
#include "plan/fit/internal/rules.h"
#include "plan/supply/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <type_traits>
#include <vector>

namespace leafwright::fit {

namespace {

bool mentioned_by_tier(const Project& project, ItemRef item) {
  return std::any_of(project.tiers.begin(), project.tiers.end(), [&](const Tier& tier) {
    return std::any_of(tier.includes.begin(), tier.includes.end(),
                       [&](const Inclusion& inclusion) { return inclusion.item == item; }) ||
           std::any_of(tier.requires_owned.begin(), tier.requires_owned.end(),
                       [&](const Requirement& need) {
                         return std::find(need.any_of.begin(), need.any_of.end(), item) !=
                                need.any_of.end();
                       });
  });
}

bool pack_is_used(const Pack& pack, const supply::Needs& needs) {
  return std::any_of(pack.lines.begin(), pack.lines.end(), [&](const Pack::Line& line) {
    return supply::find(needs, {ItemKind::Stock, line.stock}) != nullptr;
  });
}

struct Unused {
  std::string name;
  Place place;
};

template <class T>
void check_unused(const Project& project, const supply::Needs& needs, const std::vector<T>& list,
                  ItemKind kind, std::vector<Unused>& unused) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const ItemRef item{kind, static_cast<int>(i)};
    if (supply::find(needs, item) || mentioned_by_tier(project, item)) continue;
    if constexpr (std::is_same_v<T, Pack>)
      if (pack_is_used(list[i], needs)) continue;
    unused.push_back({item_name(project, item), list[i].place});
  }
}

} // namespace

void supply_unused(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  const supply::Needs needs = supply::needs_of_set(project);
  std::vector<Unused> unused;
  for_each_list(project, [&](ItemKind kind, const auto& list) {
    check_unused(project, needs, list, kind, unused);
  });
  if (unused.empty()) return;
  // Half written, a project has many; they are one line to read.
  std::vector<std::string> names;
  for (const Unused& one : unused) names.push_back(one.name);
  const bool many = unused.size() > 1;
  Finding& finding = report(unused.front().place,
                            fmt::format("{} {} not used by any card", words::listed(names),
                                        words::agreed("be", std::ssize(names))),
                            "only what a card uses or a kit holds",
                            many ? "use them, or leave them out" : "use it, or leave it out");
  for (std::size_t i = 1; i < unused.size(); ++i)
    finding.trace.push_back({unused[i].place, unused[i].name});
}

void tool_without_work(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  for (const supply::Need& need : supply::needs_of_set(project)) {
    if (need.item.kind != ItemKind::Tool || !need.cards.empty()) continue;
    const Tool& tool = project.tools.at(as_index(need.item.index));
    report(tool.place, fmt::format("nothing says what {} is for", tool.name),
           "the work it does, or a step that uses it",
           "write for=\"…\" (such as fold, stamp, powder), or uses=\"" + tool.id +
               "\" on the <step>");
  }
}

void stamps_not_offered(const Project& project, const supply::CuttingPlan*, Reporter& report) {
  if (project.tiers.empty()) return;
  for (const supply::Need& need : supply::needs_of_set(project)) {
    if (need.item.kind != ItemKind::StampSet || mentioned_by_tier(project, need.item)) continue;
    const StampSet& set = project.stamp_sets.at(as_index(need.item.index));
    report(set.place, fmt::format("no kit holds {}, and none asks the buyer to own it", set.name),
           "stamps that every buyer has or gets", "include it in a tier, or list it under <own>");
  }
}

} // namespace leafwright::fit
