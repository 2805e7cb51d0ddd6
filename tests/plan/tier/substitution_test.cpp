#include "plan/tier/substitution.h"

#include "stall.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <random>

using namespace leafwright;
using namespace leafwright::tiers;

namespace {

int pieces(const Selection& one) {
  return std::accumulate(one.counts.begin(), one.counts.end(), 0);
}

bool ranks_before(const Selection& a, const Selection& b) {
  if (pieces(a) != pieces(b)) return pieces(a) < pieces(b);
  return a.counts > b.counts;
}

// Every selection there is.
std::vector<Selection> all_selections(const std::vector<Offered>& offered) {
  std::vector<Selection> all{{std::vector<int>(offered.size(), 0), 0}};
  for (std::size_t i = 0; i < offered.size(); ++i) {
    if (offered[i].value <= 0) continue;
    const std::vector<Selection> before = all;
    for (const Selection& base : before)
      for (int times = 1; times <= offered[i].most; ++times) {
        Selection more = base;
        more.counts[i] = times;
        more.value += offered[i].value * times;
        all.push_back(std::move(more));
      }
  }
  return all;
}

bool nothing_can_go(const Selection& one, const std::vector<Offered>& offered,
                    std::int64_t credit) {
  for (std::size_t i = 0; i < offered.size(); ++i)
    if (one.counts[i] > 0 && one.value - offered[i].value > credit) return false;
  return true;
}

std::vector<Offered> random_list(std::mt19937& random) {
  std::vector<Offered> offered;
  const std::size_t n = 1 + random() % 6;
  for (std::size_t i = 0; i < n; ++i)
    offered.push_back(
        {static_cast<std::int64_t>(random() % 12), 1 + static_cast<int>(random() % 3)});
  return offered;
}

} // namespace

TEST_CASE("the best uses of a credit are those of every selection tried") {
  std::mt19937 random(7);
  for (int round = 0; round < 400; ++round) {
    const std::vector<Offered> offered = random_list(random);
    const auto credit = static_cast<std::int64_t>(random() % 30);
    std::vector<Selection> wanted;
    for (const Selection& one : all_selections(offered))
      if (one.value > 0 && one.value <= credit) wanted.push_back(one);
    std::sort(wanted.begin(), wanted.end(), [](const Selection& a, const Selection& b) {
      return a.value != b.value ? a.value > b.value : ranks_before(a, b);
    });
    if (wanted.size() > 4) wanted.resize(4);
    CHECK(best_within(offered, credit, 4) == wanted);
  }
}

TEST_CASE("the cheapest selections above a credit are those of every selection tried") {
  std::mt19937 random(11);
  for (int round = 0; round < 400; ++round) {
    const std::vector<Offered> offered = random_list(random);
    const auto credit = static_cast<std::int64_t>(random() % 30);
    std::vector<Selection> wanted;
    for (const Selection& one : all_selections(offered))
      if (one.value > credit && nothing_can_go(one, offered, credit)) wanted.push_back(one);
    std::sort(wanted.begin(), wanted.end(), [](const Selection& a, const Selection& b) {
      return a.value != b.value ? a.value < b.value : ranks_before(a, b);
    });
    if (wanted.size() > 4) wanted.resize(4);
    CHECK(best_above(offered, credit, 4) == wanted);
  }
}

namespace {

constexpr std::string_view even_rule = R"(<swap top-up="yes"/>)";
const std::vector<ItemRef> owns_set{{ItemKind::StampSet, 0}};

Credit credit_of(const Project& project, const std::vector<ItemRef>& owned) {
  TierValues values(project);
  return credit_for(values, stall::full, owned);
}

} // namespace

TEST_CASE("a buyer who owns the stamps is told what their price comes to") {
  // 20.00 of credit. A die is 7.00, fifty domes 5.00, a spool 4.00, two of each at most: 7 + 5 + 4
  // + 4, the best there is, leaves nothing; 7 + 7 + 5 leaves 1.00 and is third behind 5 + 7 + 4
  // + 4.
  const Project project = stall::project(
      even_rule, R"(<swap><choice item="oval" most="2"/><choice item="dome" most="2"/>)"
                 R"(<choice item="silk" most="2"/></swap>)");
  const SwapAnswers answers = swap_answers(project, stall::full, owns_set);
  CHECK(answers.credit.credit.minor == 2000);
  REQUIRE(answers.worth.size() == 3);
  CHECK(answers.worth[0]->minor == 700);
  REQUIRE(!answers.within.empty());
  CHECK(answers.within[0].counts == std::vector<int>{1, 1, 2});
  CHECK(answers.within[0].remainder.minor == 0);
  CHECK(answers.within[1].counts == std::vector<int>{2, 1, 0});
  CHECK(answers.within[1].remainder.minor == 100);
  CHECK(answers.above.empty()); // no top-up is allowed
}

TEST_CASE("with a top-up the difference is said") {
  const Project project =
      stall::project(even_rule, R"(<swap top-up="yes"><choice item="oval" most="3"/></swap>)");
  const SwapAnswers answers = swap_answers(project, stall::full, owns_set);
  CHECK(answers.within.at(0).value.minor == 1400);
  CHECK(answers.within[0].remainder.minor == 600);
  REQUIRE(answers.above.size() == 1);
  CHECK(answers.above[0].counts == std::vector<int>{3});
  CHECK(answers.above[0].to_pay.minor == 100);
}

TEST_CASE("the maker's rule says what gives credit and how it is rounded") {
  const std::vector<ItemRef> owns{{ItemKind::Ribbon, 0}, {ItemKind::StampSet, 0}};
  const auto credit = [&](std::string_view rule) {
    const Project project = stall::project(even_rule, rule);
    return credit_of(project, owns);
  };
  CHECK(credit(R"(<swap/>)").credit.minor == 2100); // 25 in of ribbon are 1.00
  CHECK(credit(R"(<swap over="1.00"/>)").credit.minor == 2000);
  CHECK(credit(R"(<swap most="1"/>)").credit.minor == 2000); // the dearest counts
  CHECK(credit(R"(<swap round-down="5.00"/>)").credit.minor == 2000);
  CHECK(credit(R"(<swap round-down="5.00"/>)").value.minor == 2100);
  CHECK(credit(R"(<swap allowed="no"/>)").credit.minor == 0);
}

TEST_CASE("a gift gives no credit, nor does what the tier does not hold") {
  const Project project = stall::project(R"(<include item="set" amount="whole"/>)",
                                         R"(<include item="set" amount="whole" gift="yes"/>)");
  CHECK(credit_of(project, owns_set).credit.minor == 0);
  const std::vector<ItemRef> owns_die{{ItemKind::Die, 0}};
  CHECK(credit_of(project, owns_die).credit.minor == 0);
}

TEST_CASE("the credit is never exceeded, whatever the rule and whatever is owned") {
  std::mt19937 random(20270316);
  Project project = stall::project(
      even_rule, R"(<swap><choice item="oval"/><choice item="dome"/><choice item="silk"/>)"
                 R"(<choice item="pair"/><choice item="kraft"/></swap>)");
  Tier& tier = project.tiers[stall::full];
  const std::vector<ItemRef> held{{ItemKind::StampSet, 0},
                                  {ItemKind::Ribbon, 0},
                                  {ItemKind::Embellishment, 0},
                                  {ItemKind::Die, 0}};
  for (int round = 0; round < 200; ++round) {
    SubstitutionRule& rule = tier.substitution;
    rule.top_up = random() % 2 == 0;
    rule.most_swaps = static_cast<int>(random() % 3);
    rule.round_down_to = {static_cast<std::int64_t>(random() % 4) * 75, {}};
    rule.items_over.reset();
    if (random() % 2 == 0) rule.items_over = Money{static_cast<std::int64_t>(random() % 900), {}};
    for (SwapChoice& choice : rule.choices) {
      choice.value = Money{1 + static_cast<std::int64_t>(random() % 900), {}};
      choice.most = 1 + static_cast<int>(random() % 3);
    }
    std::vector<ItemRef> owned;
    for (const ItemRef item : held)
      if (random() % 2 == 0) owned.push_back(item);
    const SwapAnswers answers = swap_answers(project, stall::full, owned);
    const Credit& credit = answers.credit;
    CHECK(credit.credit.minor <= credit.value.minor);
    if (rule.round_down_to.minor > 0) CHECK(credit.credit.minor % rule.round_down_to.minor == 0);
    if (rule.most_swaps > 0)
      CHECK(credit.items.size() <= static_cast<std::size_t>(rule.most_swaps));
    for (const SwapAnswer& one : answers.within) {
      CHECK(one.value.minor + one.remainder.minor == credit.credit.minor);
      CHECK(one.to_pay.minor == 0);
    }
    if (!rule.top_up) CHECK(answers.above.empty());
    for (const SwapAnswer& one : answers.above) {
      CHECK(one.to_pay.minor > 0);
      CHECK(one.value.minor - one.to_pay.minor == credit.credit.minor);
    }
  }
}
