#include "plan/tier/substitution.h"

#include "plan/tier/account.h"
#include "stall.h"

#include <doctest/doctest.h>

#include <random>

// The stall's full kit holds a set of stamps at 20.00 and 25 in of ribbon, a quarter of a spool at
// 4.00; a die is 7.00, fifty domes 5.00, a pack of paper 6.00. Sums are made by hand.

using namespace leafwright;
using namespace leafwright::tiers;

namespace {

constexpr std::string_view plain_rule = R"(<swap top-up="yes"/>)";
constexpr ItemRef stamps{ItemKind::StampSet, 0}, die{ItemKind::Die, 0}, silk{ItemKind::Ribbon, 0},
    domes{ItemKind::Embellishment, 0}, ink{ItemKind::Ink, 0};

Order order_of(std::vector<ItemRef> wishes, std::vector<ItemRef> owned = {stamps}) {
  Order order;
  order.tier = stall::full;
  order.owned = std::move(owned);
  for (const ItemRef item : wishes) {
    Swap swap;
    swap.item = item;
    swap.amount.kind = Amount::Kind::Whole;
    order.swaps.push_back(swap);
  }
  return order;
}

OrderSwaps swaps_in(const Project& project, const Order& order) {
  TierValues values(project);
  return swaps_of(values, order);
}

} // namespace

TEST_CASE("swaps within the credit leave a remainder") {
  const Project project = stall::project(plain_rule, "<swap/>");
  const OrderSwaps swaps = swaps_in(project, order_of({die, die, silk}));
  CHECK(swaps.credit.credit.minor == 2000);
  CHECK(swaps.worth.minor == 1800); // 7 + 7 + 4
  CHECK(swaps.remainder.minor == 200);
  CHECK(swaps.to_pay.minor == 0);
}

TEST_CASE("without a top-up what no longer fits into the credit is not taken") {
  const Project project = stall::project(plain_rule, "<swap/>");
  // 7 + 7 + 5 are 19.00; a further die would make 26.00, and a spool 23.00.
  const OrderSwaps swaps = swaps_in(project, order_of({die, die, domes, die, silk}));
  CHECK(swaps.worth.minor == 1900);
  CHECK(swaps.remainder.minor == 100);
  REQUIRE(swaps.wishes.size() == 5);
  CHECK(swaps.wishes[2].answer == SwapRequest::Answer::Taken);
  CHECK(swaps.wishes[3].answer == SwapRequest::Answer::TooDear);
  CHECK(swaps.wishes[4].answer == SwapRequest::Answer::TooDear);
}

TEST_CASE("with a top-up all is taken and the difference is to be paid, once for each kit") {
  Project project = stall::project();
  Order order = order_of({die, die, die}); // 21.00 for 20.00
  CHECK(swaps_in(project, order).to_pay.minor == 100);
  order.quantity = 3;
  project.run.orders = {order};
  CHECK(sales_of(project).at(0).top_up.minor == 300);
}

TEST_CASE("the tier's list settles how much is taken and what it is worth") {
  const Project project = stall::project(
      plain_rule, R"(<swap><choice item="silk" amount="50 in"/><choice item="oval" value="6.50"/>)"
                  R"(</swap>)");
  const OrderSwaps listed = swaps_in(project, order_of({silk, die}));
  CHECK(listed.wishes.at(0).worth->minor == 200); // half a spool
  CHECK(listed.wishes.at(1).worth->minor == 650); // as the maker values it
  Order said = order_of({die});
  said.swaps[0].amount.count = 2; // not the amount of the list: two at the price of a shop
  said.swaps[0].amount_said = true;
  CHECK(swaps_in(project, said).worth.minor == 1400);
}

TEST_CASE("what the list allows once is not taken twice") {
  const Project project = stall::project(plain_rule, R"(<swap><choice item="oval"/></swap>)");
  const OrderSwaps swaps = swaps_in(project, order_of({die, die}));
  CHECK(swaps.wishes.at(1).answer == SwapRequest::Answer::TooOften);
  CHECK(swaps.worth.minor == 700);
}

TEST_CASE("a thing without a price is taken and counts as nil") {
  const Project project = stall::project(plain_rule, "<swap/>");
  const OrderSwaps swaps = swaps_in(project, order_of({ink}));
  CHECK_FALSE(swaps.wishes.at(0).worth.has_value());
  CHECK(swaps.remainder.minor == 2000);
}

TEST_CASE("who owns nothing of the tier has no credit, and no wish is met") {
  const Project project = stall::project();
  CHECK(swaps_in(project, order_of({die}, {})).wishes.empty());
  CHECK(swaps_in(project, order_of({die}, {die})).credit.items.empty());
}

TEST_CASE("whatever is wished, the credit is kept to, or exactly the excess is paid") {
  std::mt19937 random(20270416);
  Project project = stall::project(
      plain_rule,
      R"(<swap><choice item="oval"/><choice item="dome"/><choice item="silk"/></swap>)");
  Tier& tier = project.tiers[stall::full];
  const std::vector<ItemRef> things{stamps, die, silk, domes, ink};
  for (int round = 0; round < 500; ++round) {
    SubstitutionRule& rule = tier.substitution;
    rule.top_up = random() % 2 == 0;
    rule.most_swaps = static_cast<int>(random() % 3);
    rule.round_down_to = {static_cast<std::int64_t>(random() % 4) * 75, {}};
    for (SwapChoice& choice : rule.choices) {
      choice.most = 1 + static_cast<int>(random() % 3);
      choice.value.reset();
      if (random() % 2 == 0) choice.value = Money{static_cast<std::int64_t>(random() % 1500), {}};
    }
    std::vector<ItemRef> wishes, owned;
    for (std::size_t i = 0; i < random() % 6; ++i) wishes.push_back(things[random() % 5]);
    for (const ItemRef item : things)
      if (random() % 2 == 0) owned.push_back(item);
    const OrderSwaps swaps = swaps_in(project, order_of(wishes, owned));
    std::int64_t taken = 0;
    for (const SwapRequest& wish : swaps.wishes)
      if (wish.answer == SwapRequest::Answer::Taken && wish.worth) taken += wish.worth->minor;
    CHECK(swaps.worth.minor == taken);
    CHECK(swaps.credit.credit.minor + swaps.to_pay.minor ==
          swaps.worth.minor + swaps.remainder.minor);
    CHECK((swaps.remainder.minor == 0 || swaps.to_pay.minor == 0));
    if (!rule.top_up) CHECK(swaps.to_pay.minor == 0);
  }
}

// What an owner gets who takes nothing instead.

namespace {

Project with_if_owned(std::string_view if_owned, std::string_view swap = "") {
  const std::string tier = std::string(R"(id="full" if-owned=")") + std::string(if_owned) + '"';
  return stall::project({{R"(id="full")", tier}, {plain_rule, swap}});
}

} // namespace

TEST_CASE("as long as the tier is silent, an owner gets the thing again and it is named") {
  const Project project = stall::project();
  const OrderSwaps swaps = swaps_in(project, order_of({}, {stamps, die}));
  CHECK(swaps.twice == std::vector<ItemRef>{stamps}); // the kit holds no die
  CHECK(swaps.left_out.empty());
  CHECK(swaps.off.minor == 0);
}

TEST_CASE("as it is: an owner gets the thing again and nobody is asked") {
  const OrderSwaps swaps = swaps_in(with_if_owned("as-it-is"), order_of({}));
  CHECK(swaps.twice.empty());
  CHECK(swaps.left_out.empty());
}

TEST_CASE("nothing instead: what is owned is left out, cheap things too, and the price stays") {
  const Project project = with_if_owned("nothing-instead", R"(<swap over="5.00" most="1"/>)");
  const OrderSwaps swaps = swaps_in(project, order_of({}, {stamps, silk, domes}));
  CHECK(swaps.left_out == std::vector<ItemRef>{silk, domes, stamps});
  CHECK(swaps.off.minor == 0);
  CHECK(swaps.twice.empty());
}

TEST_CASE("credit: what is owned is left out and its worth comes off the price") {
  Project project = with_if_owned("credit");
  Order order = order_of({}, {stamps, silk});
  const OrderSwaps swaps = swaps_in(project, order);
  CHECK(swaps.off.minor == 2100); // 20.00 and a quarter of 4.00
  order.quantity = 2;
  project.run.orders = {order};
  const std::vector<Sale> sales = sales_of(project);
  CHECK(terms_of(project, sales.at(0)).price.minor == 2 * (3000 - 2100));
}

TEST_CASE("credit keeps to the limits of the rule, even of one that allows no swaps") {
  const Project project =
      with_if_owned("credit", R"(<swap allowed="no" over="5.00" round-down="3.00"/>)");
  const OrderSwaps swaps = swaps_in(project, order_of({}, {stamps, silk}));
  CHECK(swaps.left_out == std::vector<ItemRef>{stamps});
  CHECK(swaps.off.minor == 1800);
}

TEST_CASE("credit: what swaps leave of it comes off the price, and no price falls below nil") {
  const OrderSwaps swaps = swaps_in(with_if_owned("credit", "<swap/>"), order_of({die}));
  CHECK(swaps.off.minor == 1300); // 20 less 7
  CHECK(swaps.remainder.minor == 0);
  const Project cheap = stall::project({{R"(id="full" name="Full kit" price="30.00")",
                                         R"(id="full" price="15" if-owned="credit")"}});
  const OrderSwaps all = swaps_in(cheap, order_of({}));
  CHECK(all.off.minor == 1500);
  CHECK(all.remainder.minor == 500);
}

TEST_CASE("a gift, the tutorial and the parts are never taken for owned") {
  const Project project = stall::project(
      {{R"(id="full")", R"(id="full" if-owned="nothing-instead")"},
       {R"(<include item="set" amount="whole"/>)", R"(<include item="set" gift="yes"/>)"}});
  CHECK(swaps_in(project, order_of({}, {stamps})).left_out.empty());
}

TEST_CASE("a kit without what its buyer owns weighs less in the till") {
  Project project = with_if_owned("nothing-instead");
  project.run.orders = {order_of({}, {stamps})};
  const Mass without = terms_of(project, sales_of(project).at(0)).mass;
  CHECK(terms_of(project, stall::full).mass == without + Mass{80'000});
}
