#include "plan/orders/order_rules.h"

#include "language/agreement.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "plan/orders/parcels.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace leafwright::orders {

namespace {

using enum Severity;

constexpr std::array order_rules{
    fit::Rule{"order-no-name", Warning, "an order without a name or a number"},
    fit::Rule{"order-unknown-tier", Warning, "an order of a tier that there is not"},
    fit::Rule{"order-quantity", Warning, "an order for no whole number of kits"},
    fit::Rule{"order-unknown-item", Warning, "a buyer owns or takes a thing that there is not"},
    fit::Rule{"order-amount", Warning, "a swap whose amount cannot be read"},
    fit::Rule{"order-date", Warning, "an order whose date cannot be read"},
    fit::Rule{"order-status", Warning, "an order with a status that is not known"},
    fit::Rule{"order-again", Warning, "a row whose id an earlier one has"},
    fit::Rule{"order-whose-swaps", Warning, "swaps in a row that names several tiers"},
    fit::Rule{"order-money", Warning, "an amount paid or refunded that cannot be read"},
    fit::Rule{"order-not-counted", Note, "an order marked cancelled, refunded or a test"},
    fit::Rule{"order-late", Warning, "an order after the reply-by date"},
    fit::Rule{"order-twice", Warning, "a name that orders a tier a second time"},
    fit::Rule{"order-two-addresses", Warning, "orders of one parcel with different addresses"},
    fit::Rule{"order-owned-twice", Warning, "a buyer owns what her kit holds and takes nothing"},
    fit::Rule{"order-no-swaps", Warning, "a swap in a tier that allows none"},
    fit::Rule{"order-no-credit", Warning, "a swap by somebody who owns nothing of the tier"},
    fit::Rule{"order-many-swaps", Warning, "more changed than the tier allows"},
    fit::Rule{"order-off-list", Warning, "a swap for something that is not on the tier's list"},
    fit::Rule{"order-over-credit", Warning, "swaps worth more than the credit, without a top-up"},
    fit::Rule{"order-top-up", Note, "swaps worth more than the credit: the rest is to be paid"},
    fit::Rule{"order-unpriced", Warning, "a swap for something that has no price"},
    fit::Rule{"order-must-own", Note, "orders that do not say what the tier asks to be owned"},
    fit::Rule{"roster-no-file", Error, "the list of orders cannot be read"},
    fit::Rule{"roster-columns", Error, "the list of orders lacks the column name or tier"},
    fit::Rule{"roster-headings", Note, "columns of the list of orders that mean nothing here"},
    fit::Rule{"roster-no-heading", Warning, "a <column> that the list of orders does not have"},
    fit::Rule{"roster-sum", Note, "a row of sums at the end of the list of orders"},
    fit::Rule{"roster-table", Warning, "a row whose cells cannot be told apart"},
    fit::Rule{"roster-encoding", Warning, "letters in the list of orders that are not UTF-8"},
    fit::Rule{"roster-left-out", Warning, "rows of the list of orders that do not count"},
    fit::Rule{"label-off-sheet", Error, "labels that run off their paper"},
    fit::Rule{"label-overfull", Warning, "a label with more to say than it has room for"},
    fit::Rule{"date-order", Warning, "shipping before the orders are in"},
    fit::Rule{"date-supplies-late", Warning, "supplies that arrive after cutting starts"},
    fit::Rule{"date-no-time", Warning, "more work than days before shipping"},
    fit::Rule{"date-no-post", Warning, "shipping on a day when no parcel is taken"},
    fit::Rule{"date-weekday", Warning, "a class on another weekday than its date"},
};

} // namespace

std::span<const fit::Rule> rules() { return order_rules; }

namespace {

std::string folded(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\t';
    if (blank && (out.empty() || out.back() == ' ')) continue;
    out += blank ? ' ' : small_letter(c);
  }
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

const Order& order_of(const Project& project, const Parcel& parcel) {
  return project.run.orders.at(as_index(parcel.order));
}

class Checker {
 public:
  Checker(const Project& project, Parcels& parcels) : project_(project), parcels_(parcels) {}

  void run() {
    std::vector<Parcel*> all;
    for (Parcel& parcel : parcels_.parcels) all.push_back(&parcel);
    for (Parcel& parcel : parcels_.unposted) all.push_back(&parcel);
    std::sort(all.begin(), all.end(),
              [](const Parcel* a, const Parcel* b) { return a->order < b->order; });
    const bool asked = std::any_of(project_.run.orders.begin(), project_.run.orders.end(),
                                   [](const Order& order) { return !order.owned.empty(); });
    for (Parcel* parcel : all) {
      late(*parcel);
      repeated(*parcel);
      addressed(*parcel);
      if (asked) owned(*parcel);
    }
    if (asked) tell_not_owned(all);
  }

 private:
  const Tier& tier_of(const Order& order) const { return project_.tiers.at(as_index(order.tier)); }

  void late(Parcel& parcel) {
    const Order& order = order_of(project_, parcel);
    const Run& run = project_.run;
    if (!order.date || !run.reply_by || *order.date <= run.reply_by->date ||
        tier_of(order).open == Tier::Open::Anytime)
      return;
    parcel.late = true;
    Finding finding{
        Severity::Warning,
        "order-late",
        order.place,
        fmt::format("{} ordered on {}", order.name,
                    words::long_day_text(project_.language, *order.date)),
        fmt::format("orders by {}", words::long_day_text(project_.language, run.reply_by->date)),
        "it counts, and its slip says so; take it out if it cannot be met",
        {}};
    parcels_.findings.push_back(std::move(finding));
  }

  void repeated(Parcel& parcel) {
    const Order& order = order_of(project_, parcel);
    const auto [first, fresh] =
        seen_.emplace(std::pair(folded(order.name), order.tier), order.place);
    if (fresh) return;
    parcel.repeated = true;
    Finding finding{Severity::Warning,
                    "order-twice",
                    order.place,
                    fmt::format("{} orders {} a second time", order.name, tier_of(order).name),
                    "one order of a tier for each name",
                    "both count; take one out if it was sent twice, or raise the quantity",
                    {}};
    finding.trace.push_back({first->second, "the first one is here"});
    parcels_.findings.push_back(std::move(finding));
  }

  void addressed(const Parcel& parcel) {
    if (parcel.box < 0) return;
    const Order& order = order_of(project_, parcel);
    const Order& first =
        order_of(project_, at(parcels_.parcels, at(parcels_.boxes, parcel.box).front()));
    if (order.address.empty() || folded(order.address) == folded(first.address)) return;
    Finding finding{
        Severity::Warning,
        "order-two-addresses",
        order.place,
        fmt::format("{} travels with {}, and has another address", order.name, first.name),
        "one address for one parcel",
        "the first address is on the label; correct one, or take parcel away",
        {}};
    finding.trace.push_back({first.place, "the first one is here"});
    parcels_.findings.push_back(std::move(finding));
  }

  void owned(Parcel& parcel) {
    const Order& order = order_of(project_, parcel);
    const Tier& tier = tier_of(order);
    for (std::size_t r = 0; r < tier.requires_owned.size(); ++r) {
      const Requirement& wanted = tier.requires_owned[r];
      const bool met = std::any_of(wanted.any_of.begin(), wanted.any_of.end(), [&](ItemRef item) {
        return std::find(order.owned.begin(), order.owned.end(), item) != order.owned.end();
      });
      if (!met) parcel.not_owned.push_back(r);
    }
  }

  std::string wanted_words(const Parcel& parcel) const {
    const Tier& tier = tier_of(order_of(project_, parcel));
    std::vector<std::string> wanted;
    for (const std::size_t r : parcel.not_owned) {
      std::vector<std::string> any;
      for (const ItemRef item : tier.requires_owned.at(r).any_of)
        any.push_back(item_name(project_, item));
      wanted.push_back(words::listed(any, "or"));
    }
    return words::listed(wanted);
  }

  // One finding for all, so that the maker has her list of letters to write.
  void tell_not_owned(const std::vector<Parcel*>& all) {
    Finding finding{Severity::Note,
                    "order-must-own",
                    {},
                    {},
                    "what the tier asks for",
                    "ask the buyers; their slips say so as well",
                    {}};
    std::size_t orders = 0;
    std::vector<std::string> lines;
    for (const Parcel* parcel : all) {
      const Order& order = order_of(project_, *parcel);
      if (!tier_of(order).requires_owned.empty()) ++orders;
      if (parcel->not_owned.empty()) continue;
      if (finding.trace.empty()) finding.place = order.place;
      lines.push_back(std::to_string(order.place.line));
      finding.trace.push_back(
          {order.place,
           fmt::format("{}, {}: {}", order.name, tier_of(order).name, wanted_words(*parcel))});
    }
    if (finding.trace.empty()) return;
    finding.found =
        fmt::format("{} of {} orders do not say that the buyer owns what the tier asks for: {} {}",
                    finding.trace.size(), orders,
                    words::noun_for(std::ssize(finding.trace), "line"), words::series(lines));
    parcels_.findings.push_back(std::move(finding));
  }

  const Project& project_;
  Parcels& parcels_;
  std::map<std::pair<std::string, int>, Place> seen_;
};

} // namespace

void check_orders(const Project& project, Parcels& parcels) { Checker(project, parcels).run(); }

void tell_set_aside(const Project& project, Findings& findings) {
  for (const Order& order : project.run.set_aside)
    findings.push_back(
        {Note,
         "order-not-counted",
         order.place,
         fmt::format("the order of {} is marked {}", order.name, word_of(order.status)),
         "an order that is open or paid",
         "nothing is cut, bought, packed, sent or booked for it; change its status if it counts",
         {}});
}

} // namespace leafwright::orders
