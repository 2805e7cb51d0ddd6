#include "measure/index.h"
#include "plan/orders/parcels.h"

#include "measure/letters.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>

namespace leafwright::orders {

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
    for (Parcel* parcel : all) {
      late(*parcel);
      repeated(*parcel);
      owned(*parcel);
    }
    tell_unowned();
  }

 private:
  const Tier& tier_of(const Order& order) const { return project_.tiers.at(as_index(order.tier)); }

  void late(Parcel& parcel) {
    const Order& order = order_of(project_, parcel);
    const Run& run = project_.run;
    if (!order.date || !run.reply_by || *order.date <= run.reply_by->date ||
        tier_of(order).open == Tier::Open::Always)
      return;
    parcel.late = true;
    Finding finding{Severity::Warning,
                    "order-late",
                    order.place,
                    fmt::format("{} ordered on {}", order.name, date_long_text(*order.date)),
                    fmt::format("orders by {}", date_long_text(run.reply_by->date)),
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

  // Only when buyers were asked at all.
  void owned(const Parcel& parcel) {
    const Order& order = order_of(project_, parcel);
    anybody_owns_ = anybody_owns_ || !order.owned.empty();
    const Tier& tier = tier_of(order);
    for (std::size_t r = 0; r < tier.requires_owned.size(); ++r) {
      const Requirement& wanted = tier.requires_owned[r];
      const bool met = std::any_of(wanted.any_of.begin(), wanted.any_of.end(), [&](ItemRef item) {
        return std::find(order.owned.begin(), order.owned.end(), item) != order.owned.end();
      });
      Missing& missing = missing_[{order.tier, r}];
      ++missing.orders;
      if (met) continue;
      if (missing.unmet == 0) missing.place = order.place;
      ++missing.unmet;
    }
  }

  void tell_unowned() {
    if (!anybody_owns_) return;
    for (const auto& [key, missing] : missing_) {
      if (missing.unmet == 0) continue;
      const Tier& tier = project_.tiers.at(as_index(key.first));
      std::string wanted;
      for (const ItemRef item : tier.requires_owned.at(key.second).any_of)
        wanted += (wanted.empty() ? "" : " or ") + item_name(project_, item);
      parcels_.findings.push_back(
          {Severity::Note,
           "order-must-own",
           missing.place,
           fmt::format("{} of {} orders of {} do not say that the buyer owns {}", missing.unmet,
                       missing.orders, tier.name, wanted),
           "what the tier asks for",
           "ask them; the first one is here",
           {}});
    }
  }

  struct Missing {
    int orders = 0, unmet = 0;
    Place place;
  };
  const Project& project_;
  Parcels& parcels_;
  std::map<std::pair<std::string, int>, Place> seen_;
  std::map<std::pair<int, std::size_t>, Missing> missing_;
  bool anybody_owns_ = false;
};

} // namespace

void check_orders(const Project& project, Parcels& parcels) { Checker(project, parcels).run(); }

} // namespace leafwright::orders
