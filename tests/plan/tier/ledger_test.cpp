#include "plan/tier/ledger.h"

#include "plan/tier/account.h"
#include "stall.h"

#include <doctest/doctest.h>

#include <cstdint>
#include <random>
#include <string>
#include <utility>

using namespace leafwright;
using namespace leafwright::tiers;

namespace {

Order order(int tier, int quantity = 1) {
  Order one;
  one.name = "Ada";
  one.tier = tier;
  one.quantity = quantity;
  return one;
}
Money dollars(std::int64_t minor) { return {minor, Currency{}}; }

Order random_order(std::mt19937& random, int line) {
  Order one = order(static_cast<int>(random() % 3), 1 + static_cast<int>(random() % 4));
  one.place.line = line;
  constexpr OrderStatus all[] = {OrderStatus::Unsaid, OrderStatus::Open, OrderStatus::Paid};
  one.status = all[random() % 3];
  if (random() % 2 == 0) one.paid = dollars(static_cast<std::int64_t>(random() % 20'000));
  if (random() % 3 == 0) one.refunded = dollars(static_cast<std::int64_t>(random() % 9'000));
  one.picked_up = random() % 4 == 0;
  if (random() % 3 == 0) one.parcel = std::string(1, static_cast<char>('a' + random() % 3));
  return one;
}

} // namespace

// By hand: a kit is 12.00 and 3.00 for postage; of 15.00 the fee is 0.45 and 0.20.
TEST_CASE("what is owed and booked follows from what came in") {
  Project project = stall::project();
  for (int i = 0; i < 5; ++i) project.run.orders.push_back(order(stall::kit));
  project.run.orders[0].status = OrderStatus::Paid;
  project.run.orders[1].status = OrderStatus::Open;
  project.run.orders[2].paid = dollars(1000);
  project.run.orders[3].paid = dollars(2000);
  project.run.orders[3].refunded = dollars(200);
  const Ledger ledger = ledger_of(project);
  REQUIRE(ledger.lines.size() == 5);
  CHECK(ledger.lines[0].due.minor == 1500);
  CHECK(ledger.lines[0].booked.minor == 1500 - 65);
  CHECK(ledger.lines[0].owed.minor == 0);
  CHECK(ledger.lines[1].owed.minor == 1500);
  CHECK(ledger.lines[1].booked.minor == 0);
  CHECK(ledger.lines[2].owed.minor == 500);
  CHECK(ledger.lines[3].to_return.minor == 300);
  CHECK(ledger.lines[3].owed.minor == 0);
  CHECK_FALSE(ledger.lines[4].told); // nobody says whether it is paid
  CHECK(ledger.lines[4].owed.minor == 0);
  CHECK(ledger.all.owed.minor == 2000);
  CHECK(ledger.owing == 2);
  CHECK(ledger.returning == 1);
}

TEST_CASE("a refund makes no new debt, and what a cancelled order paid goes back") {
  Project project = stall::project();
  project.run.orders.push_back(order(stall::kit));
  project.run.orders[0].paid = dollars(1500);
  project.run.orders[0].refunded = dollars(500);
  Order cancelled = order(-1);
  cancelled.status = OrderStatus::Cancelled;
  cancelled.paid = dollars(1500);
  cancelled.refunded = dollars(400);
  project.run.set_aside = {cancelled};
  const Ledger ledger = ledger_of(project);
  CHECK(ledger.lines[0].owed.minor == 0);
  CHECK(ledger.lines[1].due.minor == 0);
  CHECK(ledger.lines[1].to_return.minor == 1100);
}

TEST_CASE("two orders in one parcel pay one shipping; who comes for hers pays none") {
  Project project = stall::project();
  project.run.orders = {order(stall::kit), order(stall::full), order(stall::kit)};
  const std::int64_t apart = ledger_of(project).all.due.minor;
  project.run.orders[0].parcel = "Ada";
  project.run.orders[2].parcel = " ada ";
  CHECK(ledger_of(project).all.due.minor == apart - 300);
  project.run.orders[1].picked_up = true;
  CHECK(ledger_of(project).all.due.minor == apart - 600);
  // Two kits weigh 33.0 g with the wrapping, as one order of two does; posted once, packed once.
  const std::vector<Sale> sales = sales_by_order(project);
  const OrderTerms first = terms_of(project, sales[0]), second = terms_of(project, sales[2]);
  CHECK(first.mass == terms_of(project, stall::kit, 2).mass);
  CHECK(second.postage.minor == 0);
  CHECK(second.packing.minor == 0);
  CHECK(terms_of(project, sales[1]).postage.minor == 0);
}

TEST_CASE("the orders of one row are paid together") {
  Project project = stall::project();
  project.run.orders = {order(stall::kit), order(stall::booklet)};
  for (Order& one : project.run.orders) one.place = {0, 7, 1, 1};
  project.run.orders[0].paid = dollars(1900);
  const Ledger ledger = ledger_of(project);
  REQUIRE(ledger.lines.size() == 1);
  CHECK(ledger.lines[0].due.minor == 1500 + 400);
  CHECK(ledger.all.owed.minor == 0);
  CHECK(line_of(ledger, 0) != nullptr);
  CHECK(line_of(ledger, 1) == nullptr);
}

TEST_CASE("paid less refunded less fees is booked, line by line and in all") {
  std::mt19937 random(17);
  for (int round = 0; round < 200; ++round) {
    Project project = stall::project();
    const int orders = static_cast<int>(random() % 9);
    for (int i = 0; i < orders; ++i)
      project.run.orders.push_back(
          random_order(random, 2 + i / (1 + static_cast<int>(random() % 2))));
    for (int i = 0; i < static_cast<int>(random() % 3); ++i) {
      Order gone = random_order(random, 90 + i);
      gone.status = random() % 2 == 0 ? OrderStatus::Cancelled : OrderStatus::Refunded;
      project.run.set_aside.push_back(std::move(gone));
    }
    const Ledger ledger = ledger_of(project);
    LedgerAmounts sum{};
    std::size_t counted = 0;
    for (const LedgerLine& line : ledger.lines) {
      CHECK(line.booked.minor == line.paid.minor - line.refunded.minor - line.fees.minor);
      CHECK((line.owed.minor == 0 || line.paid.minor + line.owed.minor == line.due.minor));
      CHECK((line.to_return.minor == 0 ||
             line.paid.minor - line.refunded.minor - line.to_return.minor == line.due.minor));
      CHECK((line.paid.minor > 0 || line.fees.minor == 0));
      sum.booked = sum.booked + line.booked;
      sum.paid = sum.paid + line.paid;
      sum.owed = sum.owed + line.owed;
      sum.due = sum.due + line.due;
      counted += line.orders.size();
    }
    CHECK(counted == project.run.orders.size());
    CHECK(ledger.all.booked.minor == sum.booked.minor);
    CHECK(ledger.all.booked.minor ==
          ledger.all.paid.minor - ledger.all.refunded.minor - ledger.all.fees.minor);
    CHECK(ledger.all.owed.minor == sum.owed.minor);
    // The account of the run sells for the same sum.
    std::int64_t sold = 0;
    for (const Sale& sale : sales_of(project)) {
      const OrderTerms terms = terms_of(project, sale);
      sold += (terms.price.minor + terms.charged.minor) * sale.orders;
    }
    if (!project.run.orders.empty()) CHECK(sold == sum.due.minor);
  }
}
