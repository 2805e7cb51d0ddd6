#include "plan/cut/dive.h"

#include "plan/cut/shrink.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace leafwright::cut {

namespace {

struct State {
  std::vector<std::int64_t> left;
  std::vector<std::int64_t> used;
  Sheets taken;
  std::int64_t cost = 0;
};

bool done(const State& state) {
  return std::all_of(state.left.begin(), state.left.end(), [](std::int64_t d) { return d <= 0; });
}

// At most as many sheets as the rest can use in full, at least one.
std::int64_t useful(const State& state, const Column& column, std::int64_t wished) {
  std::int64_t most = 0;
  for (const auto& [type, copies] : column.counts) {
    const std::int64_t left = std::max<std::int64_t>(0, state.left[static_cast<std::size_t>(type)]);
    most = std::max(most, (left + copies - 1) / copies);
  }
  return std::min(wished, most);
}

void take(const Search& search, State& state, int index, std::int64_t wished) {
  const Column& column = search.pool[index];
  const auto stock = static_cast<std::size_t>(column.stock);
  std::int64_t count = useful(state, column, wished);
  if (search.normal.stocks[stock].limit >= 0) {
    count = std::min(count, search.normal.stocks[stock].limit - state.used[stock]);
  }
  if (count <= 0) return;
  for (const auto& [type, copies] : column.counts) {
    state.left[static_cast<std::size_t>(type)] -= count * copies;
  }
  state.used[stock] += count;
  state.cost += count * search.normal.stocks[stock].price;
  state.taken.emplace_back(index, count);
}

std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31);
}

// The last few sheets: the local search knows that copies are few, the relaxation does not.
bool finish_by_packing(Search& search, const Relaxation& relaxation, const State& state,
                       const DiveRule& rule) {
  std::vector<std::int64_t> rest = state.left;
  std::int64_t pieces = 0;
  for (std::int64_t& d : rest) pieces += d = std::max<std::int64_t>(0, d);
  if (pieces > 80) return false;
  const auto step = static_cast<double>(price_step(search.normal.stocks));
  const auto least = static_cast<std::int64_t>(std::ceil(relaxation.value() / step - 1e-6) * step);
  const Sheets sheets = pack_rest(search, rest, state.used, least + static_cast<std::int64_t>(step),
                                  rule.shuffle + 1, 300'000);
  if (sheets.empty()) return false;
  Sheets all = state.taken;
  all.insert(all.end(), sheets.begin(), sheets.end());
  search.offer(all);
  return true;
}

} // namespace

void dive(Search& search, Relaxation& relaxation, const DiveRule& rule) {
  ++search.statistics.dives;
  State state;
  state.left = search.demand;
  state.used.assign(search.normal.stocks.size(), 0);
  std::uint64_t draw = rule.shuffle;
  bool first = true;
  // Few sheets from the end the rest can be settled exactly.
  constexpr double end_sizes[] = {11, 8, 5.5, 3.5};
  std::size_t ends = 0;
  double dearest = 1;
  for (const Stock& stock : search.normal.stocks) {
    dearest = std::max(dearest, static_cast<double>(stock.price));
  }
  while (!done(state)) {
    if (search.budget.out()) return;
    std::vector<std::int64_t> rest = state.left;
    for (std::int64_t& d : rest) d = std::max<std::int64_t>(0, d);
    relaxation.solve(rest, state.used, Aim::Guide, first ? 0 : rule.rounds);
    if (first) relaxation.solve(rest, state.used, Aim::Guide, 1);
    first = false;
    if (relaxation.shortage() > 1e-6) return;
    const double least = static_cast<double>(state.cost) + relaxation.value() - 1e-6;
    const auto step = static_cast<double>(price_step(search.normal.stocks));
    const double reached = std::ceil(least / step) * step;
    const auto known = static_cast<double>(search.best_cost);
    if (search.best_cost >= 0 && (rule.tidy ? reached > known : reached >= known)) {
      return;
    }
    const double sheets_left = relaxation.value() / dearest;
    if (!rule.tidy && rule.ending.entries > 0 && ends < std::size(end_sizes) &&
        sheets_left <= end_sizes[ends]) {
      while (ends < std::size(end_sizes) && sheets_left <= end_sizes[ends]) ++ends;
      if (complete_rest(search, relaxation, state.taken, rule.ending) != Answer::Unknown) return;
    }
    if (rule.pack && finish_by_packing(search, relaxation, state, rule)) return;
    const std::vector<double> amounts = relaxation.amounts();
    bool took = false;
    if (rule.floors_first) {
      for (std::size_t i = 0; i < amounts.size(); ++i) {
        const auto whole = static_cast<std::int64_t>(std::floor(amounts[i] + 1e-6));
        if (whole < 1) continue;
        take(search, state, static_cast<int>(i), whole);
        took = true;
      }
      if (took) continue;
    }
    int best = -1;
    double best_rank = -1;
    for (std::size_t i = 0; i < amounts.size(); ++i) {
      if (amounts[i] < 1e-6) continue;
      double rank = amounts[i] - std::floor(amounts[i]);
      if (amounts[i] >= 1 - 1e-6) rank += 1;
      if (rule.shuffle != 0) {
        draw = mixed(draw);
        rank += 0.4 * static_cast<double>(draw >> 11) * 0x1p-53;
      }
      if (amounts[i] >= rule.round_up) {
        take(search, state, static_cast<int>(i), 1);
        took = true;
      } else if (rank > best_rank) {
        best_rank = rank;
        best = static_cast<int>(i);
      }
    }
    if (!took && best >= 0) take(search, state, best, 1);
    if (!took && best < 0) return;
  }
  rule.tidy ? search.offer_tidier(state.taken) : search.offer(state.taken);
}

} // namespace leafwright::cut
