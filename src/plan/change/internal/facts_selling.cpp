#include "plan/change/internal/facts_builder.h"

#include "language/english.h"

namespace leafwright::change {
namespace {

std::string card_ids(const Project& project, const std::vector<int>& cards) {
  std::vector<std::string> ids;
  for (const int card : cards) ids.push_back(id_at(project.cards, card));
  return words::series(ids);
}

void write_tier(Writer write, const Project& project, const Tier& tier) {
  write.put("name", tier.name);
  write.put("words", tier.blurb);
  write.put("price", tier.price);
  for (const Inclusion& one : tier.includes) {
    const std::string name = "holds " + write.item(one.item);
    // One item may stand twice (one as a gift): told together.
    std::string text = write.amount(one.amount);
    if (one.gift) text += ", a gift";
    if (!one.cards.empty()) text += ", of " + card_ids(project, one.cards);
    if (one.value) text += ", worth " + money_text(*one.value);
    write.put(name, text);
  }
  for (std::size_t i = 0; i < tier.requires_owned.size(); ++i)
    write.put(fmt::format("must own {}", i + 1), write.items(tier.requires_owned[i].any_of));
  write.put("for", std::string(tier.audience == Tier::Audience::Team ? "team" : "anyone"));
  write.put("open", std::string(tier.open == Tier::Open::Anytime ? "anytime" : "until reply-by"));
  static constexpr const char* shipping[] = {"charged", "included", "none"};
  write.put("postage", word(tier.shipping, shipping));
  write.put("postage charge", tier.shipping_charge);
  write.yes("parts cut", tier.parts_cut);
  write.yes("die-cut", tier.die_cut);
  write.yes("stamped", tier.stamped);
  static constexpr const char* if_owned[] = {"not said", "as it is", "nothing instead", "credit"};
  write.put("if owned", word(tier.if_owned, if_owned));
  const SubstitutionRule& rule = tier.substitution;
  write.yes("swaps", rule.allowed);
  if (!rule.allowed) return;
  write.yes("top up", rule.top_up);
  write.put("swaps over", rule.items_over);
  write.put("most swaps", std::int64_t{rule.most_swaps});
  write.put("credit rounded down to", std::optional<Money>(rule.round_down_to));
  for (std::size_t i = 0; i < rule.choices.size(); ++i) {
    const SwapChoice& choice = rule.choices[i];
    const std::string name = fmt::format("may be taken {}", i + 1);
    write.put(name, write.item(choice.item) + ", " + write.amount(choice.amount));
    write.put(name + " worth", choice.value);
    write.put(name + " most", std::int64_t{choice.most});
  }
}

// Two facts of one name become "holds windfall" and "holds windfall 2".
void number_alike(Thing& thing) {
  for (std::size_t i = 0; i < thing.facts.size(); ++i) {
    int n = 1;
    for (std::size_t j = i + 1; j < thing.facts.size(); ++j)
      if (thing.facts[j].name == thing.facts[i].name)
        thing.facts[j].name = fmt::format("{} {}", thing.facts[i].name, ++n);
  }
}

void write_in_hand(Writer& write, const Project& project) {
  for (std::size_t i = 0; i < project.run.in_hand.size(); ++i) {
    const StockInHand& one = project.run.in_hand[i];
    const std::string name = fmt::format("in hand {}", i + 1);
    write.put(name, write.item(one.item));
    write.put(name + " count", std::int64_t{one.count});
    write.put(name + " offcut", one.offcut);
    if (one.length.nm != 0) write.put(name + " length", one.length);
  }
}

void write_orders(Writer& write, const Project& project) {
  for (std::size_t i = 0; i < project.run.orders.size(); ++i) {
    const Order& order = project.run.orders[i];
    // Paid or not said, it counts alike.
    const bool open = order.status == OrderStatus::Open;
    std::string text = id_at(project.tiers, order.tier) + fmt::format(" × {}", order.quantity);
    if (open) text += ", open";
    if (!order.owned.empty()) text += ", owns " + write.items(order.owned);
    for (const Swap& swap : order.swaps)
      text += ", takes " + write.item(swap.item) +
              (swap.amount_said ? " " + write.amount(swap.amount) : std::string());
    if (order.date) text += ", " + iso_text(*order.date);
    for (const std::string* more : {&order.region, &order.note})
      if (!more->empty()) text += ", " + *more;
    const std::string name = fmt::format("order {}", i + 1);
    write.put(name, text);
    // Who it is stays out of every report.
    write.drawn(name + " buyer", order.name + "\n" + order.address);
    std::string others;
    for (const Order::Other& other : order.others) others += other.column + "=" + other.text + "\n";
    write.drawn(name + " other columns", others);
  }
}

void write_work(Writer& write, const Run& run) {
  const WorkRates& work = run.work;
  const std::pair<const char*, int> rates[] = {
      {"minutes a day", work.minutes_a_day}, {"people", work.people},
      {"seconds to set", work.setting},      {"seconds to cut", work.cut},
      {"seconds for a die", work.die},       {"seconds to stamp", work.stamp},
      {"seconds for a part", work.part},     {"seconds for an item", work.item},
      {"seconds for a parcel", work.parcel}};
  for (const auto& [name, number] : rates) write.put(name, std::int64_t{number});
  std::string days;
  for (const bool works : work.works) days += works ? 'x' : '-';
  write.put("days of work", days);
}

void write_class(Writer& write, const Project& project, const ClassDay& day) {
  static constexpr const char* kinds[] = {"talk", "card", "break"};
  if (day.date) write.put("class date", iso_text(day.date->date));
  write.put("class begins", fmt::format("{}:{:02}", day.start / 60, day.start % 60));
  write.put("class places", std::int64_t{day.places});
  write.put("class tables", std::int64_t{day.tables});
  write.put("class venue", day.venue);
  for (std::size_t i = 0; i < day.slots.size(); ++i) {
    const ClassSlot& slot = day.slots[i];
    write.put(fmt::format("class slot {}", i + 1),
              fmt::format("{} {} {} {}", word(slot.kind, kinds), slot.title,
                          id_at(project.cards, slot.card),
                          words::duration_text(std::int64_t{60} * slot.minutes)));
  }
}

} // namespace

void add_tiers(std::vector<Thing>& things, const Project& project) {
  for (const Tier& tier : project.tiers) {
    Thing& thing = things.emplace_back();
    thing.kind = Kind::Tier;
    thing.key = "tier " + tier.id;
    thing.name = tier.name.empty() ? tier.id : tier.name;
    thing.place = tier.place;
    write_tier(Writer(thing, project), project, tier);
    number_alike(thing);
  }
}

void add_run(std::vector<Thing>& things, const Project& project) {
  const Run& run = project.run;
  Thing& thing = things.emplace_back();
  thing.kind = Kind::Run;
  thing.key = "run";
  thing.name = "the run";
  thing.place = run.place;
  Writer write(thing, project);
  write.put("of each card", std::int64_t{run.of_each});
  write.put("spare of a hundred", std::int64_t{run.spare_percent});
  write.put("spare pieces", std::int64_t{run.spare_pieces});
  if (run.reply_by) write.put("reply by", iso_text(run.reply_by->date));
  if (run.ship_by) write.put("ship by", iso_text(run.ship_by->date));
  for (const TierCount& one : run.planned)
    write.put("kits expected of " + id_at(project.tiers, one.tier), std::int64_t{one.kits});
  write_in_hand(write, project);
  write.put("roster", run.roster);
  write_orders(write, project);
  for (std::size_t i = 0; i < run.suppliers.size(); ++i)
    write.put(fmt::format("supplier {}", i + 1),
              fmt::format("{}, {} days, {}", run.suppliers[i].name, run.suppliers[i].lead_days,
                          write.items(run.suppliers[i].items)));
  for (std::size_t i = 0; i < run.days_off.size(); ++i)
    write.put(fmt::format("days off {}", i + 1),
              fmt::format("{} to {} {}", iso_text(run.days_off[i].first),
                          iso_text(run.days_off[i].last), run.days_off[i].words));
  write_work(write, run);
  write.put("wrapping", run.wrapping);
  write.put("lettered envelope", run.lettered_envelope);
  if (run.labels) {
    write.put("label", run.labels->label);
    write.put("labels on a sheet",
              fmt::format("{} × {} on {} {}", run.labels->columns, run.labels->rows,
                          run.labels->paper_name, exact_text(run.labels->paper)));
    write.put("first label", Point{run.labels->left, run.labels->top});
    write.put("label gaps", Point{run.labels->gap_across, run.labels->gap_down});
    write.put("first free label", std::int64_t{run.labels->first});
  }
  if (run.class_day) write_class(write, project, *run.class_day);
  const Selling& selling = project.selling;
  write.put("fee", fmt::format("{} of a million", selling.fee_ppm));
  write.put("fixed fee", std::optional<Money>(selling.fee_fixed));
  write.put("packing", selling.packing);
  for (std::size_t i = 0; i < selling.postage.size(); ++i)
    write.put(selling.postage[i].up_to ? "postage up to " + mass_text(*selling.postage[i].up_to)
                                       : "postage",
              std::optional<Money>(selling.postage[i].cost));
  for (const Selling::Outlay& one : selling.outlays)
    write.put("outlay " + one.words, std::optional<Money>(one.cost));
  number_alike(thing);
}

} // namespace leafwright::change
