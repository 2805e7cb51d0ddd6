#include "read/run.h"

#include "measure/text_cursor.h"
#include "read/fields.h"
#include "read/orders.h"
#include "read/workdays.h"

#include <fmt/format.h>

#include <array>
#include <map>

namespace leafwright::reading {

std::optional<StatedDate> date_of(Context& context, const Element& element, std::string_view name) {
  const auto value = element.attribute(name);
  if (!value) return std::nullopt;
  const auto date = parse_date(value->view());
  if (date) return *date;
  note_misread(context, *value, date.misread(), "read-date");
  return std::nullopt;
}

namespace {

std::optional<StockInHand> in_hand_of(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  const auto value = element.attribute("item");
  if (!value) return std::nullopt;
  const auto item = resolver.catalogue().item_of(context, *value, value->view(), 0, false);
  if (!item) return std::nullopt;
  StockInHand line;
  line.item = *item;
  line.place = value->place();
  line.count = whole_number(context, element, "count", element.has("offcut") ? 1 : 0);
  if (element.has("sheets")) line.count = whole_number(context, element, "sheets", 0);
  line.offcut = size_of(context, element, "offcut", {});
  line.length = length_of(context, element, "length", {});
  const bool stock = item->kind == ItemKind::Stock, ribbon = item->kind == ItemKind::Ribbon;
  const bool said = element.has("count") || element.has("sheets") || element.has("offcut") ||
                    element.has("length");
  if (!said) {
    context.journal.error("read-missing-attribute", element.place(), "<in-hand> without an amount",
                          "sheets, count, offcut or length", "say how much there is");
  }
  for (const auto& [name, fits] : {std::pair<std::string_view, bool>{"sheets", stock},
                                   std::pair<std::string_view, bool>{"offcut", stock},
                                   std::pair<std::string_view, bool>{"length", ribbon}}) {
    if (!element.has(name) || fits) continue;
    context.journal.error("read-wrong-kind", element.attribute_place(name),
                          fmt::format("{} of {}", name, kind_words(item->kind)),
                          name == "length" ? "length of a ribbon"
                                           : fmt::format("{} of a stock", name),
                          "write count for other things");
  }
  return line;
}

} // namespace

void read_run(Resolver& resolver, const Element& element) {
  Context& context = resolver.context();
  Run& run = context.project.run;
  run.place = element.place();
  run.of_each = whole_number(context, element, "of-each", run.of_each, 1, 10'000);
  run.spare_percent = whole_number(context, element, "spare", 0, 0, 100);
  run.spare_pieces = whole_number(context, element, "spare-pieces", 0, 0, 1'000);
  run.reply_by = date_of(context, element, "reply-by");
  run.ship_by = date_of(context, element, "ship-by");
  if (const auto value = element.attribute("reply-by")) run.reply_by_place = value->place();
  if (const auto value = element.attribute("ship-by")) run.ship_by_place = value->place();
  if (const auto roster = element.attribute("roster")) {
    const std::string fault = name_fault(roster->view());
    if (fault.empty()) {
      run.roster = roster->text();
      run.roster_place = roster->place();
    } else {
      context.journal.error("read-outside", roster->place(),
                            fmt::format("{}: {}", detail::shown(roster->view()), fault),
                            "a file in the project's folder", "put the roster beside the project");
    }
  }
  std::map<std::string_view, int> tiers;
  for (std::size_t i = 0; i < context.project.tiers.size(); ++i)
    tiers.emplace(context.project.tiers[i].id, static_cast<int>(i));
  for (const Element& child : element.children("expect")) {
    TierCount line;
    line.place = child.place();
    line.kits = whole_number(context, child, "kits", 0, 0, 1'000'000);
    const auto value = child.attribute("tier");
    if (!value) continue;
    line.place = value->place();
    if (const auto tier = tiers.find(value->view()); tier != tiers.end()) {
      line.tier = tier->second;
      run.planned.push_back(line);
      continue;
    }
    note(context, *value, "read-unknown-name", "the id of a tier",
         context.journal.suggestion(value->view(), [&] {
           std::vector<std::string_view> known;
           for (const Tier& tier : context.project.tiers)
             if (known.size() < 2000) known.emplace_back(tier.id);
           return known;
         }));
  }
  for (const Element& child : element.children("in-hand"))
    if (auto line = in_hand_of(resolver, child)) run.in_hand.push_back(*line);
  run.wrapping = mass_of(context, element, "wrapping");
  read_orders(context, element.children("order"));
  read_workdays(resolver, element);
}

} // namespace leafwright::reading
