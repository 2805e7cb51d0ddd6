#include "plan/cut/descend.h"

#include "plan/cut/random.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace leafwright::cut {

namespace {

class Descent {
 public:
  Descent(Search& search, std::span<const int> columns, std::span<const std::int64_t> demand,
          std::int64_t cost)
      : search_(search), columns_(columns), demand_(demand), most_(cost),
        master_(search.normal.stocks, demand), none_(search.normal.stocks.size(), 0) {
    for (const int column : columns) master_.add(search.pool[column]);
  }

  // The sheets taken; empty when the programme said no on the way.
  Sheets run(Draw& draw) {
    left_.assign(demand_.begin(), demand_.end());
    taken_.clear();
    cost_ = 0;
    // The first descent is plain; the others leave some sheets to be chosen anew, or all but a few.
    const int loose = draw.below(4);
    bool first = true;
    while (std::any_of(left_.begin(), left_.end(), [](std::int64_t d) { return d > 0; })) {
      if (!solve()) return {};
      const std::vector<double> amounts = master_.amounts();
      bool took = false;
      for (std::size_t c = 0; c < amounts.size(); ++c) {
        auto whole = static_cast<std::int64_t>(std::floor(amounts[c] + 1e-6));
        if (first && whole > 0 && loose > 0 && draw.below(4) < loose) --whole;
        if (whole <= 0) continue;
        take(c, whole);
        took = true;
      }
      first = false;
      if (took) continue;
      const std::size_t next = fraction(amounts, draw);
      if (next == amounts.size()) return {};
      take(next, 1);
    }
    return taken_;
  }

 private:
  bool solve() {
    master_.set_demand(left_, none_);
    const int pivots = master_.solve();
    search_.budget.spend(
        std::int64_t{pivots} * static_cast<std::int64_t>(columns_.size() * 4 + 4'000) + 100'000);
    if (master_.shortage() > 1e-6) return false;
    const auto step = static_cast<double>(price_step(search_.normal.stocks));
    const double reached = std::ceil((static_cast<double>(cost_) + master_.value()) / step - 1e-6);
    return reached * step <= static_cast<double>(most_) + 0.5;
  }

  static std::size_t fraction(const std::vector<double>& amounts, Draw& draw) {
    std::size_t best = amounts.size();
    double best_rank = 0;
    for (std::size_t c = 0; c < amounts.size(); ++c) {
      if (amounts[c] < 1e-6) continue;
      const double rank = amounts[c] + 0.5 * draw.unit();
      if (rank > best_rank) {
        best_rank = rank;
        best = c;
      }
    }
    return best;
  }

  void take(std::size_t c, std::int64_t count) {
    const Column& column = search_.pool[columns_[c]];
    for (const auto& [type, copies] : column.counts) {
      left_[static_cast<std::size_t>(type)] -= count * copies;
    }
    cost_ += count * search_.normal.stocks[static_cast<std::size_t>(column.stock)].price;
    taken_.emplace_back(columns_[c], count);
  }

  Search& search_;
  std::span<const int> columns_;
  std::span<const std::int64_t> demand_;
  std::int64_t most_;
  Master master_;
  std::vector<std::int64_t> none_;
  std::vector<std::int64_t> left_;
  Sheets taken_;
  std::int64_t cost_ = 0;
};

} // namespace

Sheets descend(Search& search, std::span<const int> columns, std::span<const std::int64_t> demand,
               std::int64_t cost, int tries, std::uint64_t number) {
  if (columns.empty()) return {};
  Descent descent(search, columns, demand, cost);
  Draw draw(number);
  for (int k = 0; k < tries && !search.budget.out(); ++k) {
    Sheets sheets = descent.run(draw);
    if (!sheets.empty()) return sheets;
  }
  return {};
}

} // namespace leafwright::cut
