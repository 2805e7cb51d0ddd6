#include "small_exact.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace leafwright::cut::exact {

namespace {

class Cutter {
 public:
  Cutter(const Job& job, const SheetType& sheet) : job_(job), sheet_(sheet) {}

  const std::set<Set>& part(Length w, Length h, int stages, int direction) {
    const auto key = std::make_tuple(w, h, stages, direction);
    const auto known = memo_.find(key);
    if (known != memo_.end()) return known->second;
    std::set<Set> sets;
    const Set nothing(job_.pieces.size(), 0);
    sets.insert(nothing);
    for (std::size_t i = 0; i < job_.pieces.size(); ++i) {
      const PieceType& p = job_.pieces[i];
      const bool turn = p.may_turn && sheet_.pieces_may_turn;
      if ((p.width == w && p.height == h) || (turn && p.width == h && p.height == w)) {
        Set one = nothing;
        one[i] = 1;
        sets.insert(one);
      }
    }
    const Length k = job_.rules.blade;
    const Length least = std::max<Length>(1, job_.rules.smallest_strip);
    for (int d = 0; d < 2; ++d) {
      const bool same = d == direction;
      if (job_.rules.stages > 0 && !same && stages == 0) continue;
      const int left = same ? stages : stages - 1;
      const Length whole = d == 0 ? w : h;
      for (Length at = least; at < whole; ++at) {
        const Length rest = whole - at - k;
        if (job_.rules.smallest_strip > 0 && rest < least) continue;
        const std::set<Set> first = d == 0 ? part(at, h, left, d) : part(w, at, left, d);
        const std::set<Set> second =
            rest <= 0 ? std::set<Set>{nothing}
                      : (d == 0 ? part(rest, h, left, d) : part(w, rest, left, d));
        for (const Set& a : first) {
          for (const Set& b : second) {
            Set sum = a;
            bool within = true;
            for (std::size_t i = 0; i < sum.size(); ++i) {
              sum[i] += b[i];
              within = within && sum[i] <= job_.pieces[i].copies;
            }
            if (within) sets.insert(std::move(sum));
          }
        }
      }
    }
    return memo_[key] = std::move(sets);
  }

 private:
  const Job& job_;
  const SheetType& sheet_;
  std::map<std::tuple<Length, Length, int, int>, std::set<Set>> memo_;
};

} // namespace

std::set<Set> yields(const Job& job, int sheet) {
  const SheetType& s = job.sheets[static_cast<std::size_t>(sheet)];
  const Trim& t = job.rules.trim;
  Cutter cutter(job, s);
  return cutter.part(s.width - t.left - t.right, s.height - t.bottom - t.top, job.rules.stages, -1);
}

std::int64_t least_cost(const Job& job) {
  struct Choice {
    Set set;
    std::size_t sheet;
  };
  std::vector<Choice> choices;
  for (std::size_t s = 0; s < job.sheets.size(); ++s) {
    for (const Set& set : yields(job, static_cast<int>(s))) {
      if (std::any_of(set.begin(), set.end(), [](int c) { return c > 0; })) {
        choices.push_back({set, s});
      }
    }
  }
  // Cheapest first over (what is left, sheets used); small enough for plain dynamic programming.
  using State = std::pair<Set, std::vector<std::int64_t>>;
  Set wanted;
  for (const PieceType& p : job.pieces) wanted.push_back(static_cast<int>(p.copies));
  std::map<State, std::int64_t> best;
  std::set<std::pair<std::int64_t, State>> open;
  const State begin{wanted, std::vector<std::int64_t>(job.sheets.size(), 0)};
  best[begin] = 0;
  open.insert({0, begin});
  while (!open.empty()) {
    const auto [cost, state] = *open.begin();
    open.erase(open.begin());
    if (std::all_of(state.first.begin(), state.first.end(), [](int c) { return c == 0; })) {
      return cost;
    }
    if (best[state] < cost) continue;
    for (const Choice& choice : choices) {
      const SheetType& sheet = job.sheets[choice.sheet];
      State next = state;
      if (sheet.limit && ++next.second[choice.sheet] > *sheet.limit) continue;
      bool fits = true;
      for (std::size_t i = 0; i < wanted.size(); ++i) {
        next.first[i] -= choice.set[i];
        fits = fits && next.first[i] >= 0;
      }
      if (!fits) continue;
      const std::int64_t total = cost + sheet.price;
      const auto [at, fresh] = best.try_emplace(next, total);
      if (!fresh && at->second <= total) continue;
      at->second = total;
      open.insert({total, std::move(next)});
    }
  }
  return -1;
}

} // namespace leafwright::cut::exact
