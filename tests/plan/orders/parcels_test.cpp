#include "plan/orders/contents.h"
#include "plan/orders/parcels.h"
#include "plan/supply/buying.h"
#include "plan/tier/substitution.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <map>
#include <string>

using namespace leafwright;
using namespace leafwright::orders;

namespace {

const Project& orchard_gate() {
  static const Project project =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/orchard-gate/project.xml")
          .project;
  return project;
}

std::int64_t kits_in(const Parcels& parcels) {
  std::int64_t all = 0;
  for (const Parcel& parcel : parcels.parcels) all += parcel.kits;
  return all;
}

int tier_called(const Project& project, std::string_view id) {
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    if (project.tiers[i].id == id) return static_cast<int>(i);
  return -1;
}

Order order(const Project& project, std::string name, std::string_view tier, int quantity = 1) {
  Order order;
  order.name = std::move(name);
  order.tier = tier_called(project, tier);
  order.quantity = quantity;
  return order;
}

std::string codes(const Findings& findings) {
  std::string all;
  for (const Finding& finding : findings) all += finding.code + " ";
  return all;
}

// Same numbers on every machine (Marsaglia's xorshift, 2003).
class Dice {
 public:
  explicit Dice(std::uint64_t start) : state_(start * 2654435761U + 88172645463325252U) {}
  int below(int limit) {
    state_ ^= state_ << 13U;
    state_ ^= state_ >> 7U;
    state_ ^= state_ << 17U;
    return static_cast<int>(state_ % static_cast<std::uint64_t>(limit));
  }

 private:
  std::uint64_t state_;
};

// Orders of all tiers, some with swaps, some for several kits.
Project with_random_orders(std::uint64_t start) {
  Project project = orchard_gate();
  project.run.orders.clear();
  for (Tier& tier : project.tiers) tier.substitution.allowed = true;
  Dice dice(start);
  const int count = 1 + dice.below(40);
  for (int i = 0; i < count; ++i) {
    Order one;
    one.name = "buyer " + std::to_string(i);
    one.tier = dice.below(static_cast<int>(project.tiers.size()));
    one.quantity = 1 + dice.below(3);
    if (dice.below(3) == 0) {
      one.owned = {{ItemKind::StampSet, 0}, {ItemKind::Ribbon, 0}};
      Swap swap;
      swap.item = dice.below(2) == 0 ? ItemRef{ItemKind::Pack, 0} : ItemRef{ItemKind::Ribbon, 1};
      swap.amount.kind = dice.below(2) == 0 ? Amount::Kind::Whole : Amount::Kind::Share;
      swap.amount.denominator = 2;
      one.swaps = {swap};
    }
    project.run.orders.push_back(std::move(one));
  }
  return project;
}

} // namespace

TEST_CASE("orders outdo the kits that were expected") {
  Project project = orchard_gate();
  project.run.orders = {order(project, "Ada", "full", 2), order(project, "Bo", "paper")};
  const std::vector<int> kits = supply::planned_kits(project);
  CHECK(kits[static_cast<std::size_t>(tier_called(project, "full"))] == 2);
  CHECK(kits[static_cast<std::size_t>(tier_called(project, "paper"))] == 1);
  CHECK(kits[static_cast<std::size_t>(tier_called(project, "cut-parts"))] == 0);
}

TEST_CASE("orders alike share one kind of kit; what is not posted has no parcel") {
  Project project = orchard_gate();
  project.run.orders = {order(project, "Ada", "full"), order(project, "Bo", "booklet"),
                        order(project, "Cy", "full", 3)};
  const Parcels parcels = parcels_of(project);
  REQUIRE(parcels.parcels.size() == 2);
  CHECK(parcels.parcels[0].kind == parcels.parcels[1].kind);
  CHECK(parcels.kinds[static_cast<std::size_t>(parcels.parcels[0].kind)].kits == 4);
  CHECK(kits_in(parcels) == 4);
  REQUIRE(parcels.unposted.size() == 1);
  CHECK(parcels.unposted[0].order == 1);
}

TEST_CASE("a swap leaves out what is owned and puts in what was chosen") {
  Project project = orchard_gate();
  Order one = order(project, "Ada", "full");
  one.owned = {{ItemKind::StampSet, 0}};
  Swap swap;
  swap.item = {ItemKind::Pack, 0};
  swap.amount.kind = Amount::Kind::Whole;
  swap.amount_said = true;
  one.swaps = {swap};
  project.run.orders = {one};
  const Parcels parcels = parcels_of(project);
  const Contents contents = contents_of(project, parcels, pieces_of(project, parcels)).at(0);
  const auto holds = [&](ItemRef item) {
    return std::any_of(contents.supplies.begin(), contents.supplies.end(),
                       [&](const SupplyLine& line) { return line.taking.item == item; });
  };
  CHECK_FALSE(holds({ItemKind::StampSet, 0}));
  CHECK(holds({ItemKind::Pack, 0}));
}

TEST_CASE("owning a thing without choosing another changes nothing") {
  Project project = orchard_gate();
  Order one = order(project, "Ada", "full");
  one.owned = {{ItemKind::StampSet, 0}};
  project.run.orders = {one};
  const Parcels parcels = parcels_of(project);
  CHECK(parcels.changes.at(0).empty());
}

TEST_CASE("wishes that a tier does not grant are told, and the kit is as the tier says") {
  Project project = orchard_gate();
  Swap swap;
  swap.item = {ItemKind::Pack, 0};
  Order no_rule = order(project, "Ada", "paper");
  no_rule.swaps = {swap};
  no_rule.owned = {{ItemKind::StampSet, 0}};
  Order nothing_owned = order(project, "Bo", "full");
  nothing_owned.swaps = {swap};
  project.run.orders = {no_rule, nothing_owned};
  const Parcels parcels = parcels_of(project);
  CHECK(codes(parcels.findings).starts_with("order-no-swaps order-no-credit "));
  for (const Change& change : parcels.changes) CHECK(change.empty());
}

TEST_CASE("swaps beyond the credit are told at their own cell, by the maker's rule") {
  Project project = orchard_gate();
  const auto full = static_cast<std::size_t>(tier_called(project, "full"));
  Order one = order(project, "Ada", "full");
  one.place = {1, 7, 1, 1};
  one.swaps_place = {1, 7, 30, 5};
  one.quantity = 2;
  one.owned = {{ItemKind::StampSet, 0}};  // 28.00
  Swap die{{ItemKind::Die, 1}, {}, true}; // 6.00 each, as the other is
  die.amount.kind = Amount::Kind::Whole;
  die.amount.count = 3;
  one.swaps = {die, {{ItemKind::Die, 2}, die.amount, true}};
  project.run.orders = {one};
  project.tiers[full].substitution.choices.clear();
  tiers::TierValues values(project);
  const Money credit = tiers::credit_for(values, one.tier, one.owned).credit;
  const Parcels paid = parcels_of(project);
  CHECK(codes(paid.findings) == "order-top-up ");
  CHECK(paid.findings.at(0).severity == Severity::Note);
  CHECK(paid.findings[0].place == one.swaps_place);
  const Change& change = paid.changes.at(0);
  CHECK(change.credit == credit);
  CHECK(change.to_pay.minor == change.worth.minor - credit.minor);
  CHECK(paid.findings[0].expected.starts_with(money_text(change.to_pay * 2)));

  project.tiers[full].substitution.top_up = false;
  const Parcels kept = parcels_of(project);
  CHECK(codes(kept.findings) == "order-over-credit ");
  CHECK(kept.findings.at(0).severity == Severity::Warning);
  CHECK(kept.changes.at(0).taken.size() == 1); // 18.00 and 18.00 are too much
  CHECK(kept.changes[0].worth.minor <= credit.minor);
}

TEST_CASE("late and repeated orders are flagged and still count") {
  Project project = orchard_gate();
  Order late = order(project, "Ada", "full");
  late.date = Date{std::chrono::year{2027}, std::chrono::month{3}, std::chrono::day{17}};
  Order in_time = order(project, "Bo", "full");
  in_time.date = Date{std::chrono::year{2027}, std::chrono::month{3}, std::chrono::day{16}};
  Order always = order(project, "Cy", "booklet");
  always.date = late.date;
  Order again = order(project, " bO ", "full");
  Order other_tier = order(project, "Bo", "paper");
  project.run.orders = {late, in_time, always, again, other_tier};
  const Parcels parcels = parcels_of(project);
  CHECK(codes(parcels.findings) == "order-late order-twice ");
  CHECK(parcels.parcels[0].late);
  CHECK_FALSE(parcels.parcels[1].late);
  CHECK(parcels.parcels[2].repeated);
  CHECK(kits_in(parcels) == 4);
}

TEST_CASE(
    "orders that do not say what the tier asks to be owned are listed, if anybody was asked") {
  Project project = orchard_gate();
  project.run.orders = {order(project, "Ada", "paper"), order(project, "Bo", "full"),
                        order(project, "Cy", "cut-parts"), order(project, "Dee", "paper")};
  for (int i = 0; i < 4; ++i) project.run.orders[static_cast<std::size_t>(i)].place.line = i + 2;
  CHECK(codes(parcels_of(project).findings).empty());
  CHECK(parcels_of(project).parcels.at(0).not_owned.empty());

  project.run.orders[3].owned = {{ItemKind::StampSet, 0}};
  const Parcels parcels = parcels_of(project);
  REQUIRE(codes(parcels.findings) == "order-must-own ");
  const Finding& finding = parcels.findings[0];
  CHECK(finding.found.starts_with("2 of 3 orders"));
  CHECK(finding.found.ends_with("lines 2, 4"));
  REQUIRE(finding.trace.size() == 2);
  CHECK(finding.trace[1].text.starts_with("Cy, Parts kit: "));
  CHECK(parcels.parcels.at(0).not_owned.size() == 1);
  CHECK(parcels.parcels.at(1).not_owned.empty()); // the full kit asks for nothing
  CHECK(parcels.parcels.at(2).not_owned.size() == 1);
  CHECK(parcels.parcels.at(3).not_owned.empty());
}

TEST_CASE("the slips' parts add up to what the run cuts, and their supplies to what it needs") {
  for (std::uint64_t start = 1; start <= 60; ++start) {
    CAPTURE(start);
    const Project project = with_random_orders(start);
    const Parcels parcels = parcels_of(project);
    // The list itself, with a plan of no effort: counts do not hang on it.
    cut::Effort effort;
    effort.seconds = 0.001;
    const bool few = start <= 6;
    const supply::CuttingPlan pieces = pieces_of(project, parcels);
    const std::vector<Contents> contents = contents_of(project, parcels, pieces);

    std::vector<std::int64_t> parts(pieces.lines.size(), 0);
    std::map<std::pair<ItemKind, int>, std::int64_t> things;
    std::map<int, Length> ribbon;
    std::vector<Parcel> all = parcels.parcels;
    all.insert(all.end(), parcels.unposted.begin(), parcels.unposted.end());
    for (const Parcel& parcel : all) {
      const Contents& in_one = contents.at(static_cast<std::size_t>(parcel.kind));
      for (const PartLine& part : in_one.parts) {
        REQUIRE(part.line >= 0);
        CHECK(part.letter == pieces.lines[static_cast<std::size_t>(part.line)].letter);
        parts[static_cast<std::size_t>(part.line)] += part.count * parcel.kits;
      }
      for (const SupplyLine& line : in_one.supplies) {
        things[{line.taking.item.kind, line.taking.item.index}] += line.taking.pieces * parcel.kits;
        if (line.taking.item.kind == ItemKind::Ribbon)
          ribbon[line.taking.item.index] += line.taking.length * parcel.kits;
      }
    }
    CHECK(parts == pieces.wanted);
    if (!few) continue;
    const supply::Buying buying = supply::buying_for(project, parcels.kinds, effort);
    CHECK(buying.sheets.wanted == pieces.wanted);
    for (const supply::BuyingLine& line : buying.lines) {
      const std::pair<ItemKind, int> key{line.item.kind, line.item.index};
      if (line.item.kind == ItemKind::StampSet || line.item.kind == ItemKind::Die ||
          line.item.kind == ItemKind::Embellishment || line.item.kind == ItemKind::Envelope)
        CHECK(line.needed == things[key]);
      if (line.item.kind == ItemKind::Ribbon) CHECK(line.length == ribbon[line.item.index]);
    }
  }
}

TEST_CASE("a mass is told in whole grams, the one that is begun counted") {
  CHECK(grams_of({536'200}) == 537);
  CHECK(grams_of({537'000}) == 537);
  CHECK(grams_of({0}) == 0);
}

TEST_CASE("a kit weighs its paper by area and grammage and its things one by one") {
  Project project;
  project.stocks.resize(1);
  project.stocks[0].id = "kraft";
  project.stocks[0].grammage = {200'000}; // 200 g/m²
  project.stocks[0].sheets.resize(1);
  project.stocks[0].sheets[0].size = {millimetres(200), millimetres(300)};
  project.stamp_sets.resize(1);
  project.stamp_sets[0].sold.each = {85'000};
  project.dies.resize(1);
  project.tiers.resize(1);
  Inclusion paper, stamps, die;
  paper.item = {ItemKind::Stock, 0};
  paper.amount.kind = Amount::Kind::Sheets;
  paper.amount.count = 5;
  stamps.item = {ItemKind::StampSet, 0};
  stamps.amount.kind = Amount::Kind::Whole;
  die.item = {ItemKind::Die, 0};
  die.amount.kind = Amount::Kind::Whole;
  project.tiers[0].includes = {paper, stamps, die};
  project.run.wrapping = {60'000};
  Order one;
  one.name = "Ada";
  one.tier = 0;
  one.quantity = 2;
  project.run.orders = {one};
  const Parcels parcels = parcels_of(project);
  const Contents contents = contents_of(project, parcels, pieces_of(project, parcels)).at(0);
  // 5 x 0.06 m² x 200 g/m² = 60 g, and 85 g of stamps; the die's mass is not known.
  CHECK(contents.mass.known.mg == 145'000);
  CHECK(contents.mass.unknown == std::vector<ItemRef>{{ItemKind::Die, 0}});
  CHECK(mass_of(project, contents, 2).mg == 350'000);
}

TEST_CASE("each letter of a kit lies in an envelope that weighs something") {
  Project project = orchard_gate();
  const auto masses = [&](Mass envelope) {
    project.run.lettered_envelope = envelope;
    const Parcels parcels = parcels_of(project);
    return contents_of(project, parcels, pieces_of(project, parcels));
  };
  const std::vector<Contents> without = masses({}), with = masses({1'200});
  REQUIRE_FALSE(with.empty());
  for (std::size_t i = 0; i < with.size(); ++i) {
    const auto envelopes = static_cast<std::int64_t>(with[i].parts.size());
    CHECK(with[i].mass.known.mg - without[i].mass.known.mg == 1'200 * envelopes);
    CHECK_FALSE(with[i].mass.envelopes_unknown);
    CHECK(without[i].mass.envelopes_unknown == (envelopes > 0));
  }
}
