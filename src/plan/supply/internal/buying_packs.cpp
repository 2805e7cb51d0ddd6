#include "plan/supply/internal/buying_packs.h"

#include "measure/index.h"

#include <algorithm>
#include <optional>
#include <tuple>

namespace leafwright::supply {

namespace {

// Compared in this order; sums of it are compared alike, so that dynamic programming may use it.
struct Cost {
  std::int64_t money = 0, packs = 0, units = 0;
  friend bool operator<(const Cost& a, const Cost& b) {
    return std::tie(a.money, a.packs, a.units) < std::tie(b.money, b.packs, b.units);
  }
  friend Cost operator+(Cost a, Cost b) {
    return {a.money + b.money, a.packs + b.packs, a.units + b.units};
  }
};

Cost cost_of(const PackOffer& offer) {
  Cost cost{offer.price, 1, 0};
  for (const auto& [need, units] : offer.holds) cost.units += units;
  return cost;
}

// Least cost of at least n units of one kind, for n from 0 to the need.
class SingleKind {
 public:
  SingleKind() = default;
  SingleKind(const std::vector<PackOffer>& offers, std::vector<int> own, std::int64_t need)
      : own_(std::move(own)) {
    if (own_.empty()) return;
    for (const int offer : own_) units_.push_back(offers[as_index(offer)].holds.front().second);
    // Beyond this the offer that is cheapest by the unit is always among those bought (exchange of
    // as many packs of another as this one has units), so the rest of a very large need is met by
    // it.
    const std::int64_t largest = *std::max_element(units_.begin(), units_.end());
    const std::int64_t tabled = std::min(
        need, std::max<std::int64_t>(200'000, largest * std::min<std::int64_t>(largest, 1'000)));
    best_.resize(as_index(tabled) + 1);
    for (std::size_t n = 1; n < best_.size(); ++n)
      for (std::size_t j = 0; j < own_.size(); ++j) {
        const auto left = static_cast<std::int64_t>(n) - units_[j];
        const Cost cost = best_[as_index(std::max<std::int64_t>(left, 0))].cost +
                          cost_of(offers[as_index(own_[j])]);
        if (best_[n].offer < 0 || cost < best_[n].cost) best_[n] = {cost, static_cast<int>(j)};
      }
    for (std::size_t j = 0; j < own_.size(); ++j)
      if (cheapest_ < 0 || by_unit_less(offers, static_cast<int>(j), cheapest_))
        cheapest_ = static_cast<int>(j);
    bulk_ = cost_of(offers[as_index(own_[as_index(cheapest_)])]);
  }

  bool can(std::int64_t need) const { return need <= 0 || !own_.empty(); }
  Cost cost(std::int64_t need) const {
    if (need <= 0 || own_.empty()) return {};
    const std::int64_t bulk = bulk_packs(need);
    const Cost one = best_[as_index(rest(need, bulk))].cost;
    return one + Cost{bulk_.money * bulk, bulk_.packs * bulk, bulk_.units * bulk};
  }
  void buy(std::int64_t need, std::vector<std::int64_t>& packs) const {
    if (need <= 0 || own_.empty()) return;
    const std::int64_t bulk = bulk_packs(need);
    packs[as_index(own_[as_index(cheapest_)])] += bulk;
    for (std::int64_t n = rest(need, bulk); n > 0;) {
      const auto j = as_index(best_[as_index(n)].offer);
      packs[as_index(own_[j])] += 1;
      n = std::max<std::int64_t>(0, n - units_[j]);
    }
  }

 private:
  struct Entry {
    Cost cost;
    int offer = -1;
  };

  bool by_unit_less(const std::vector<PackOffer>& offers, int a, int b) const {
    const auto price = [&](int j) { return offers[as_index(own_[as_index(j)])].price; };
    return price(a) * units_[as_index(b)] < price(b) * units_[as_index(a)];
  }
  std::int64_t bulk_packs(std::int64_t need) const {
    const auto tabled = static_cast<std::int64_t>(best_.size()) - 1;
    if (need <= tabled) return 0;
    const std::int64_t units = units_[as_index(cheapest_)];
    return (need - tabled + units - 1) / units;
  }
  std::int64_t rest(std::int64_t need, std::int64_t bulk) const {
    return std::max<std::int64_t>(0, need - bulk * units_[as_index(cheapest_)]);
  }

  std::vector<int> own_;
  std::vector<std::int64_t> units_;
  std::vector<Entry> best_;
  int cheapest_ = -1;
  Cost bulk_;
};

class Choice {
 public:
  Choice(const std::vector<std::int64_t>& needs, const std::vector<PackOffer>& offers)
      : needs_(needs), offers_(offers) {
    result_.packs.assign(offers.size(), 0);
    std::vector<std::vector<int>> own(needs.size());
    for (std::size_t i = 0; i < offers.size(); ++i) {
      if (offers[i].holds.size() == 1)
        own[as_index(offers[i].holds.front().first)].push_back(static_cast<int>(i));
      else if (!offers[i].holds.empty())
        shared_.push_back(static_cast<int>(i));
    }
    for (std::size_t n = 0; n < needs.size(); ++n)
      single_.emplace_back(offers, own[n], std::max<std::int64_t>(needs[n], 0));
  }

  PackChoice choose() {
    std::vector<bool> done(shared_.size(), false);
    std::vector<bool> tied(needs_.size(), false);
    for (std::size_t s = 0; s < shared_.size(); ++s)
      if (!done[s]) solve(component(s, done, tied));
    for (std::size_t n = 0; n < needs_.size(); ++n)
      if (!tied[n]) single_[n].buy(needs_[n], result_.packs);
    return std::move(result_);
  }

 private:
  struct Component {
    std::vector<int> offers, needs;
  };

  // Offers and needs tied together, however far.
  Component component(std::size_t start, std::vector<bool>& done, std::vector<bool>& tied) {
    Component all;
    std::vector<std::size_t> open{start};
    done[start] = true;
    while (!open.empty()) {
      const int offer = shared_[open.back()];
      open.pop_back();
      all.offers.push_back(offer);
      for (const auto& [need, units] : offers_[as_index(offer)].holds) {
        if (tied[as_index(need)]) continue;
        tied[as_index(need)] = true;
        all.needs.push_back(need);
        for (std::size_t s = 0; s < shared_.size(); ++s) {
          const auto& holds = offers_[as_index(shared_[s])].holds;
          const bool has = std::any_of(holds.begin(), holds.end(),
                                       [n = need](const auto& hold) { return hold.first == n; });
          if (has && !done[s]) {
            done[s] = true;
            open.push_back(s);
          }
        }
      }
    }
    std::sort(all.offers.begin(), all.offers.end());
    std::sort(all.needs.begin(), all.needs.end());
    return all;
  }

  void solve(const Component& all) {
    best_.reset();
    steps_ = 3'000'000;
    left_ = needs_;
    chosen_.assign(all.offers.size(), 0);
    search(all, 0, {});
    if (steps_ <= 0) result_.exact = false;
    if (!best_) return;
    for (std::size_t i = 0; i < all.offers.size(); ++i) {
      result_.packs[as_index(all.offers[i])] += best_packs_[i];
      for (const auto& [need, units] : offers_[as_index(all.offers[i])].holds)
        left_[as_index(need)] -= units * best_packs_[i];
    }
    for (const int need : all.needs)
      single_[as_index(need)].buy(left_[as_index(need)], result_.packs);
  }

  // So many of offer `i`, from as many as could be of use down to none.
  void search(const Component& all, std::size_t i, Cost so_far) {
    if (--steps_ <= 0 && best_) return;
    if (best_ && !(so_far < *best_)) return;
    if (i == all.offers.size()) {
      Cost cost = so_far;
      for (const int need : all.needs) {
        const std::int64_t open = left_[as_index(need)];
        if (!single_[as_index(need)].can(open)) return;
        cost = cost + single_[as_index(need)].cost(open);
      }
      if (!best_ || cost < *best_) {
        best_ = cost;
        best_packs_ = chosen_;
      }
      return;
    }
    const PackOffer& offer = offers_[as_index(all.offers[i])];
    const Cost one = cost_of(offer);
    std::int64_t most = 0;
    for (const auto& [need, units] : offer.holds)
      if (units > 0) most = std::max(most, (left_[as_index(need)] + units - 1) / units);
    for (std::int64_t n = std::max<std::int64_t>(most, 0); n >= 0; --n) {
      for (const auto& [need, units] : offer.holds) left_[as_index(need)] -= units * n;
      chosen_[i] = n;
      search(all, i + 1, so_far + Cost{one.money * n, one.packs * n, one.units * n});
      for (const auto& [need, units] : offer.holds) left_[as_index(need)] += units * n;
    }
    chosen_[i] = 0;
  }

  const std::vector<std::int64_t>& needs_;
  const std::vector<PackOffer>& offers_;
  std::vector<int> shared_; // offers that hold several kinds
  std::vector<SingleKind> single_;
  PackChoice result_;
  std::vector<std::int64_t> left_, chosen_, best_packs_;
  std::optional<Cost> best_;
  std::int64_t steps_ = 0;
};

} // namespace

PackChoice choose_packs(const std::vector<std::int64_t>& needs,
                        const std::vector<PackOffer>& offers) {
  return Choice(needs, offers).choose();
}

} // namespace leafwright::supply
