#include "plan/tier/ledger.h"

#include "measure/index.h"
#include "plan/tier/account.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace leafwright::tiers {

namespace {

Money larger(Money a, Money b) { return a.minor < b.minor ? b : a; }

// Fills in what follows from due, paid and refunded.
void settle(const Project& project, LedgerLine& line) {
  const Money none{0, project.currency};
  line.fees = line.paid.minor > 0 ? fees_on(project, line.paid) : none;
  line.booked = line.paid - line.refunded - line.fees;
  line.owed = line.told ? larger(line.due - line.paid, none) : none;
  line.to_return = larger(line.paid - line.refunded - line.due, none);
}

LedgerLine payment_of(const Project& project, const Order& order, Money due) {
  const Money none{0, project.currency};
  LedgerLine line;
  line.due = due;
  line.paid = order.paid.value_or(none);
  line.refunded = order.refunded.value_or(none);
  line.told = order.paid.has_value();
  if (order.paid) return line;
  switch (order.status) {
  case OrderStatus::Open: line.told = true; break;
  case OrderStatus::Paid:
    line.told = true;
    line.paid = line.due;
    break;
  case OrderStatus::Refunded: // whatever came in for it went back
    line.paid = line.refunded;
    break;
  case OrderStatus::Unsaid:
  case OrderStatus::Cancelled:
  case OrderStatus::Test: break;
  }
  return line;
}

void add(LedgerAmounts& to, const LedgerAmounts& more) {
  to.due = to.due + more.due;
  to.paid = to.paid + more.paid;
  to.refunded = to.refunded + more.refunded;
  to.fees = to.fees + more.fees;
  to.booked = to.booked + more.booked;
  to.owed = to.owed + more.owed;
  to.to_return = to.to_return + more.to_return;
}

// What orders come to, each kind of them worked out once.
class Dues {
 public:
  explicit Dues(const Project& project) : project_(project) {}

  Money of(const Sale& sale) {
    const Key key{sale.tier,
                  sale.kits,
                  sale.top_up.minor,
                  sale.off,
                  sale.kit_mass ? sale.kit_mass->mg : -1,
                  sale.in_another,
                  sale.picked_up,
                  sale.along.mg};
    const auto [known, fresh] = known_.try_emplace(key);
    if (fresh) {
      const OrderTerms terms = terms_of(project_, sale);
      known->second = terms.price + terms.charged;
    }
    return known->second;
  }

 private:
  using Key =
      std::tuple<int, int, std::int64_t, std::int64_t, std::int64_t, bool, bool, std::int64_t>;
  const Project& project_;
  std::map<Key, Money> known_;
};

bool of_one_row(const Order& a, const Order& b) {
  return a.place.line > 0 && a.place.file == b.place.file && a.place.line == b.place.line &&
         a.place.column == b.place.column;
}

} // namespace

Ledger ledger_of(const Project& project) {
  const Money none{0, project.currency};
  const std::vector<Order>& orders = project.run.orders;
  const std::vector<Sale> sales = sales_by_order(project);
  Dues dues(project);
  Ledger ledger;
  ledger.line_of.assign(orders.size(), -1);
  ledger.all = {none, none, none, none, none, none, none};
  for (std::size_t i = 0; i < orders.size();) {
    Money due = none;
    std::vector<int> together;
    const std::size_t first = i;
    do {
      due = due + dues.of(sales[i]);
      together.push_back(static_cast<int>(i));
      ++i;
    } while (i < orders.size() && of_one_row(orders[first], orders[i]));
    LedgerLine line = payment_of(project, orders[first], due);
    ledger.line_of.at(first) = static_cast<int>(ledger.lines.size());
    line.orders = std::move(together);
    ledger.lines.push_back(std::move(line));
  }
  for (std::size_t i = 0; i < project.run.set_aside.size(); ++i) {
    ledger.lines.push_back(payment_of(project, project.run.set_aside[i], none));
    ledger.lines.back().set_aside = static_cast<int>(i);
  }
  for (LedgerLine& line : ledger.lines) {
    settle(project, line);
    add(ledger.all, line);
    ledger.owing += line.owed.minor > 0 ? 1 : 0;
    ledger.returning += line.to_return.minor > 0 ? 1 : 0;
  }
  const auto says = [](const Order& one) { return one.paid || one.refunded; };
  ledger.amounts =
      std::ranges::any_of(orders, says) || std::ranges::any_of(project.run.set_aside, says);
  return ledger;
}

} // namespace leafwright::tiers
