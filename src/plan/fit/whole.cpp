#include "measure/index.h"
#include "plan/fit/rules.h"

#include "plan/supply/needs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <optional>
#include <type_traits>
#include <vector>

namespace leafwright::fit {

namespace {

const char* day_name(std::chrono::weekday day) {
  static constexpr std::array names{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                    "Thursday", "Friday", "Saturday"};
  return names.at(day.c_encoding() % 7);
}

// The nearest date that falls on `day`.
Date nearest_on(Date date, std::chrono::weekday day) {
  const std::chrono::sys_days from{date};
  for (int off = 0; off <= 3; ++off)
    for (const int sign : {1, -1}) {
      const std::chrono::sys_days there = from + std::chrono::days{off * sign};
      if (std::chrono::weekday{there} == day) return Date{there};
    }
  return date;
}

void check_weekday(const std::optional<StatedDate>& stated, Place place, const char* what,
                   Speaker& say) {
  if (!stated || !stated->stated || !stated->date.ok()) return;
  const std::chrono::weekday real{std::chrono::sys_days{stated->date}};
  if (real == *stated->stated) return;
  say(place,
      fmt::format("{} says {}, but {} is a {}", what, day_name(*stated->stated),
                  date_text(stated->date), day_name(real)),
      "a weekday that agrees with its date",
      fmt::format("write {}, or {}", date_long_text(stated->date),
                  date_long_text(nearest_on(stated->date, *stated->stated))));
}

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

template <class T>
void check_unused(const Project& project, const supply::Needs& needs, const std::vector<T>& list,
                  ItemKind kind, Speaker& say) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    const ItemRef item{kind, static_cast<int>(i)};
    if (supply::find(needs, item) || mentioned_by_tier(project, item)) continue;
    if constexpr (std::is_same_v<T, Pack>)
      if (pack_is_used(list[i], needs)) continue;
    say(list[i].place, fmt::format("{} is used by no card", item_name(project, item)),
        "supplies that some card takes", "leave it out, or use it");
  }
}

} // namespace

void weekday_contradicts(const Project& project, const supply::KitSheets*, Speaker& say) {
  const Run& run = project.run;
  check_weekday(run.reply_by, known(run.reply_by_place, run.place), "reply-by", say);
  check_weekday(run.ship_by, known(run.ship_by_place, run.place), "ship-by", say);
}

void reply_after_ship(const Project& project, const supply::KitSheets*, Speaker& say) {
  const Run& run = project.run;
  if (!run.reply_by || !run.ship_by || run.reply_by->date <= run.ship_by->date) return;
  Finding& finding = say(known(run.reply_by_place, run.place),
                         fmt::format("replies are due on {}, after kits are sent on {}",
                                     date_text(run.reply_by->date), date_text(run.ship_by->date)),
                         "a reply-by before the ship-by",
                         fmt::format("reply by {} at the latest, or send on {} or later",
                                     date_text(run.ship_by->date), date_text(run.reply_by->date)));
  finding.trace.push_back({known(run.ship_by_place, run.place), "ship-by is written here"});
}

void supply_unused(const Project& project, const supply::KitSheets*, Speaker& say) {
  const supply::Needs needs = supply::needs_of_set(project);
  check_unused(project, needs, project.stocks, ItemKind::Stock, say);
  check_unused(project, needs, project.packs, ItemKind::Pack, say);
  check_unused(project, needs, project.stamp_sets, ItemKind::StampSet, say);
  check_unused(project, needs, project.dies, ItemKind::Die, say);
  check_unused(project, needs, project.inks, ItemKind::Ink, say);
  check_unused(project, needs, project.ribbons, ItemKind::Ribbon, say);
  check_unused(project, needs, project.embellishments, ItemKind::Embellishment, say);
  check_unused(project, needs, project.adhesives, ItemKind::Adhesive, say);
  check_unused(project, needs, project.envelopes, ItemKind::Envelope, say);
}

void stamps_not_offered(const Project& project, const supply::KitSheets*, Speaker& say) {
  if (project.tiers.empty()) return;
  for (const supply::Need& need : supply::needs_of_set(project)) {
    if (need.item.kind != ItemKind::StampSet || mentioned_by_tier(project, need.item)) continue;
    const StampSet& set = project.stamp_sets.at(as_index(need.item.index));
    say(set.place, fmt::format("no tier holds {} or asks the buyer to own it", set.name),
        "stamps that a buyer can come by", "include it in a tier, or write what must be owned");
  }
}

} // namespace leafwright::fit
