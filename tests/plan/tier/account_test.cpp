#include "plan/tier/account.h"

#include "plan/tier/outlook.h"
#include "stall.h"

#include <doctest/doctest.h>

#include <numeric>
#include <random>

using namespace leafwright;
using namespace leafwright::tiers;

namespace {

struct Reckoned {
  std::vector<supply::KitKind> kinds;
  supply::Buying buying;
  Account account;
};

Reckoned reckon(const Project& project, std::vector<int> kits, std::vector<Sale> sales) {
  Reckoned run;
  for (std::size_t i = 0; i < kits.size(); ++i)
    run.kinds.push_back(supply::kit_kind(project, static_cast<int>(i), kits[i]));
  run.buying = supply::buying_for(project, run.kinds);
  run.account = account_of(project, sales, run.kinds, run.buying);
  return run;
}

} // namespace

// By hand. A kit: 12.00 and 3.00 for postage; the fee of 15.00 is 0.45 and 0.20. Two cards of
// 4 1/4 x 5 1/2 in at 216 g/m2 weigh 6.5 g, with the wrapping 26.5 g: postage 1.50. A
// booklet: 4.00, fee 0.12 and 0.20, nothing posted.
TEST_CASE("what one order brings is worked out step by step") {
  const Project project = stall::project();
  const OrderTerms kit = terms_of(project, stall::kit);
  CHECK(kit.price.minor == 1200);
  CHECK(kit.charged.minor == 300);
  CHECK(kit.fees.minor == 65);
  CHECK(kit.mass.mg == 26'514);
  CHECK(kit.postage.minor == 150);
  CHECK(kit.packing.minor == 50);
  CHECK(kit.brought().minor == 1235);
  CHECK(kit.unweighed.size() == 2); // ribbon and domes
  const OrderTerms booklet = terms_of(project, stall::booklet);
  CHECK(booklet.fees.minor == 32);
  CHECK(booklet.brought().minor == 368);
}

TEST_CASE("several kits of one order go in one parcel and are paid at once") {
  // Five kits weigh 32.6 g, with the wrapping 52.6 g: the next step of postage.
  const OrderTerms five = terms_of(stall::project(), stall::kit, 5);
  CHECK(five.price.minor == 6000);
  CHECK(five.charged.minor == 300);
  CHECK(five.postage.minor == 250);
  CHECK(five.fees.minor == 189 + 20); // 3 % of 63.00
}

TEST_CASE("lettered envelopes are missed only where some are posted and their mass is not said") {
  const Project without = stall::project({});
  CHECK(terms_of(without, 0).envelopes_unweighed);
  CHECK_FALSE(terms_of(without, 1).envelopes_unweighed); // the booklet is not posted
  const Project said =
      stall::project({{"wrapping=\"20 g\"", "wrapping=\"20 g\" lettered-envelope=\"1 g\""}});
  CHECK_FALSE(terms_of(said, 0).envelopes_unweighed);
}

TEST_CASE("a parcel heavier than every step has no known postage") {
  const OrderTerms terms = terms_of(
      stall::project(R"(<postage cost="2.50"/>)", R"(<postage up-to="60 g" cost="2.50"/>)"),
      stall::kit, 50);
  CHECK(!terms.postage_known);
  CHECK(terms.postage.minor == 0);
}

TEST_CASE("postage at cost is charged as it is paid") {
  const OrderTerms terms =
      terms_of(stall::project(R"(price="12.00" shipping="3.00")", R"(price="12.00")"), stall::kit);
  CHECK(terms.charged.minor == terms.postage.minor);
}

// Ten kits: 20 cards, four to a sheet, are 5 of 10 sheets: 5.00. Ten ribbons of 25 in, four to a
// spool, are three spools: 12.00. 40 of 50 domes: 5.00. Left: 5 sheets (2.50), 50 in of ribbon
// (2.00), 10 domes (1.00).
TEST_CASE("the account of a run agrees with one made by hand") {
  const Project project = stall::project();
  const Reckoned run = reckon(project, {10, 3, 0}, sales_of(project));
  REQUIRE(run.account.tiers.size() == 2);
  const TierAccount& kit = run.account.tiers[0];
  CHECK(kit.orders == 10);
  CHECK(kit.price.minor == 12'000);
  CHECK(kit.charged.minor == 3'000);
  CHECK(kit.goods.minor == 2'200);
  CHECK(kit.fees.minor == 650);
  CHECK(kit.postage.minor == 1'500);
  CHECK(kit.packing.minor == 500);
  CHECK(kit.margin.minor == 10'150);
  CHECK(run.account.tiers[1].margin.minor == 1'104);
  CHECK(run.account.all.margin.minor == 11'254);
  CHECK(run.account.outlays.minor == 3'000);
  CHECK(run.account.result.minor == 8'254);
  CHECK(run.account.stranded.minor == 550);
}

TEST_CASE("a purchase that two tiers share falls on them as they use it") {
  // 10 kits with 4 domes and 2 full kits with 10 are 60 domes: two packs, 10.00, shared 40 to 20.
  // 667 and 333: the larger remainder gets the odd one.
  const Project project = stall::project();
  const Reckoned run =
      reckon(project, {10, 0, 2}, {{stall::kit, 1, {}, 10}, {stall::full, 1, {}, 2}});
  const auto domes =
      std::find_if(run.buying.purchases.begin(), run.buying.purchases.end(),
                   [](const auto& one) { return one.item.kind == ItemKind::Embellishment; });
  REQUIRE(domes != run.buying.purchases.end());
  CHECK(domes->cost.minor == 1'000);
  // Paper 6 of 10 sheets 5.00: 417 and 83. Ribbon 12 of 25 in: three spools, 10.00 and 2.00.
  CHECK(run.account.tiers[0].goods.minor == 667 + 417 + 1'000);
  CHECK(run.account.tiers[1].goods.minor == 333 + 83 + 200 + 2 * 2'000);
}

TEST_CASE("money is conserved, whatever is sold") {
  std::mt19937 random(20270302);
  for (int round = 0; round < 60; ++round) {
    const Project project = stall::project();
    std::vector<int> kits;
    std::vector<Sale> sales;
    for (int tier = 0; tier < 3; ++tier) {
      int all = 0;
      for (int kind = 0; kind < 2; ++kind) {
        const int each = 1 + static_cast<int>(random() % 4);
        const int orders = static_cast<int>(random() % 30);
        sales.push_back({tier, each, {static_cast<std::int64_t>(random() % 500), {}}, orders});
        all += each * orders;
      }
      kits.push_back(all);
    }
    const Reckoned run = reckon(project, kits, sales);
    Money goods{}, brought{}, gone{}, margin{};
    for (const TierAccount& one : run.account.tiers) {
      goods = goods + one.goods;
      brought = brought + one.price + one.charged;
      gone = gone + one.goods + one.fees + one.postage + one.packing;
      margin = margin + one.margin;
    }
    CHECK(goods == run.buying.total);
    CHECK(margin == brought - gone);
    CHECK(run.account.all.margin == margin);
    CHECK(run.account.result == margin - run.account.outlays);
    CHECK(run.account.stranded.minor >= 0);
    CHECK(run.account.stranded.minor <= run.buying.total.minor);
  }
}

TEST_CASE("without orders the expected kits are sold one by one, with orders as they come") {
  Project project = stall::project();
  CHECK(sales_of(project).size() == 2);
  Order order;
  order.tier = stall::kit;
  order.quantity = 2;
  project.run.orders = {order, order};
  const auto sales = sales_of(project);
  REQUIRE(sales.size() == 1);
  CHECK(sales[0].kits == 2);
  CHECK(sales[0].orders == 2);
}

TEST_CASE("a swap dearer than its credit is paid for where the tier allows it") {
  Project project = stall::project();
  Order order;
  order.tier = stall::full;
  order.owned = {{ItemKind::StampSet, 0}}; // 20.00
  Swap dies{{ItemKind::Die, 0}, {}, true}; // 7.00 each
  dies.amount.kind = Amount::Kind::Whole;
  dies.amount.count = 3;
  order.swaps = {dies};
  project.run.orders = {order};
  CHECK(sales_of(project).at(0).top_up.minor == 100);
  project.tiers[stall::full].substitution.top_up = false;
  CHECK(sales_of(project).at(0).top_up.minor == 0);
}

// She has the stamp set, 80 g, and takes a die of no told mass: 26.5 g go for 1.50 instead of
// 106.5 g for 2.50. Her fee is 3 % of 33.00 and 0.20.
TEST_CASE("postage is paid for the parcel that is posted, not for the kit of the tier") {
  Project project = stall::project();
  Order plain, changed;
  plain.tier = changed.tier = stall::full;
  changed.owned = {{ItemKind::StampSet, 0}};
  Swap die{{ItemKind::Die, 0}, {}, true};
  die.amount.kind = Amount::Kind::Whole;
  changed.swaps = {die};
  project.run.orders = {plain, changed};
  const Account account = reckon(project, {0, 0, 2}, sales_of(project)).account;
  CHECK(account.all.postage.minor == 250 + 150);
  CHECK(account.all.fees.minor == 2 * (99 + 20));
}

// 30 in of silk in hand give one of ten ribbons of 25 in; nine come from three spools and leave
// 75 in, worth 3.00. The 5 in left of what was in hand cost nothing. 5 sheets 2.50, 10 domes 1.00.
TEST_CASE("a rest of what was in hand before the run is not money lying unused") {
  const Project project = stall::project(
      R"(<expect tier="booklet")", R"(<in-hand item="silk" length="30"/><expect tier="booklet")");
  CHECK(reckon(project, {10, 0, 0}, {{stall::kit, 1, {}, 10}}).account.stranded.minor == 650);
}

TEST_CASE("a tier breaks even at two numbers when a further pack brings a loss again") {
  // Each brings 3; a pack of ten for every 4: -7 -4 -1 2 | -5 -2 1 4 | -3 0 3 6 | -1 2 ... | 1
  const auto margin = [](int n) { return std::int64_t{3} * n - 10 * ((n + 3) / 4); };
  const BreakEven found = break_even(margin, 100);
  CHECK(found.first == 4);
  CHECK(found.lasting == 14); // 13 loses 1; 14 to 27 lose nothing
  int last_loss = 0;
  for (int n = 1; n < 2000; ++n)
    if (margin(n) < 0) last_loss = n;
  CHECK(found.lasting == last_loss + 1);
}

TEST_CASE("a tier that only loses breaks even nowhere") {
  const BreakEven found = break_even([](int n) { return std::int64_t{-n}; }, 50);
  CHECK(found.first == 0);
  CHECK(found.lasting == 0);
  CHECK(found.searched == 50);
}

TEST_CASE("the kit of the stall pays from the second on") {
  // One kit: 12.35 less a pack, a spool and a packet of 5.00, 4.00 and 5.00 loses 1.65; two bring
  // 24.70 for the same goods.
  const Project project = stall::project();
  const BreakEven found = break_even_of(project, stall::kit, {});
  CHECK(found.first == 2);
  CHECK(found.lasting == 2);
}

// One kit: 12.35 less a sheet of 3.00, a spool and a packet of 4.00 and 5.00 gains 0.35. The
// reference cuts four times as many sheets as it must, so by its yield a kit would take two sheets.
TEST_CASE("a tier pays from the number that its own cutting plan bears out") {
  const Project project = stall::project(R"(pack="10" price="5.00")", R"(pack="1" price="3.00")");
  supply::CuttingPlan wasteful = supply::sheets_for_run(project, std::vector<int>{10, 0, 0});
  for (supply::StockSheets& stock : wasteful.stocks) stock.sheets *= 4;
  const BreakEven found = break_even_of(project, stall::kit, wasteful);
  CHECK(found.first == 1);
  CHECK(found.lasting == 1);
}

TEST_CASE("a mix keeps to its proportions and meets the planned kits exactly") {
  const std::vector<int> planned{9, 11, 4, 3};
  CHECK(mix_of(planned, 27) == planned);
  CHECK(mix_of(planned, 54) == std::vector<int>{18, 22, 8, 6});
  std::vector<int> before = mix_of(planned, 0);
  for (int all = 1; all <= 60; ++all) {
    const std::vector<int> now = mix_of(planned, all);
    CHECK(std::accumulate(now.begin(), now.end(), 0) == all);
    for (std::size_t i = 0; i < now.size(); ++i) CHECK(now[i] >= before[i]);
    before = now;
  }
}

TEST_CASE(
    "one buyer fewer of a file to read leaves the goods as they are, whatever buyers changed") {
  const Project project = stall::project();
  Reckoned run = reckon(project, {10, 3, 0}, sales_of(project));
  run.buying.total.minor += 700; // what changed kits cost beyond those of their tiers
  const Outlook outlook(project, run.account, run.buying);
  CHECK(outlook.beside(stall::booklet, -1).goods == run.buying.total);
  CHECK(outlook.beside(stall::booklet, 1).goods == run.buying.total);
}

// Buyers who changed their kits may make the run cheaper than its tiers say.
TEST_CASE("the goods of fewer kits never cost more than those of the planned ones") {
  const Project project = stall::project();
  Reckoned run = reckon(project, {10, 3, 0}, sales_of(project));
  run.buying.total.minor -= 500;
  const Outlook outlook(project, run.account, run.buying);
  CHECK(outlook.beside(stall::kit, -1).goods.minor <= run.buying.total.minor);
  for (int kits = 1; kits <= 30; ++kits)
    CHECK(outlook.at(kits - 1).goods.minor <= outlook.at(kits).goods.minor);
}

TEST_CASE("the outlook meets the account at the planned number and knows the next pack") {
  const Project project = stall::project();
  const Reckoned run = reckon(project, {10, 3, 0}, sales_of(project));
  const Outlook outlook(project, run.account, run.buying);
  CHECK(outlook.planned() == 13);
  CHECK(outlook.at(13).result == run.account.result);
  CHECK(outlook.at(13).goods == run.buying.total);
  // Two kits more: 12 ribbons still come from three spools; 48 domes from one packet.
  CHECK(outlook.beside(stall::kit, 2).goods.minor == 2'200);
  // Three more: a fourth spool, and a second packet of domes.
  CHECK(outlook.beside(stall::kit, 3).goods.minor == 2'200 + 400 + 500);
  CHECK(outlook.beside(stall::kit, 3).result.minor == 8'254 + 3 * 1'235 - 900);
  CHECK(outlook.at(0).result.minor == -3'000);
}
