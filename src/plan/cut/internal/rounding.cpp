#include "plan/cut/internal/rounding.h"

#include "plan/cut/internal/elastic.h"
#include "plan/cut/internal/search.h"
#include "plan/cut/internal/shrink.h"

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

bool cannot_win(const Search& search, const Relaxation& relaxation, const State& state,
                const DiveRule& rule) {
  if (search.best_cost < 0) return false;
  const double least = static_cast<double>(state.cost) + relaxation.value() - 1e-6;
  const auto step = static_cast<double>(price_step(search.normal.stocks));
  const double reached = std::ceil(least / step) * step;
  const auto known = static_cast<double>(search.best_cost);
  return rule.tidy ? reached > known : reached >= known;
}

// The whole parts of all amounts at once.
bool take_whole(const Search& search, State& state, const std::vector<double>& amounts) {
  bool took = false;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const auto whole = static_cast<std::int64_t>(std::floor(amounts[i] + 1e-6));
    if (whole < 1) continue;
    take(search, state, static_cast<int>(i), whole);
    took = true;
  }
  return took;
}

// Every pattern with a large fraction, else the one with the largest.
bool take_rounded(const Search& search, State& state, const std::vector<double>& amounts,
                  const DiveRule& rule, std::uint64_t& draw) {
  bool took = false;
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
  return took || best >= 0;
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
  for (const StockSize& stock : search.normal.stocks) {
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
    if (cannot_win(search, relaxation, state, rule)) return;
    const double sheets_left = relaxation.value() / dearest;
    if (!rule.tidy && rule.ending.entries > 0 && ends < std::size(end_sizes) &&
        sheets_left <= end_sizes[ends]) {
      while (ends < std::size(end_sizes) && sheets_left <= end_sizes[ends]) ++ends;
      if (complete_rest(search, relaxation, state.taken, rule.ending) != Answer::Unknown) return;
    }
    if (rule.pack && finish_by_packing(search, relaxation, state, rule)) return;
    const std::vector<double> amounts = relaxation.amounts();
    if (rule.floors_first && take_whole(search, state, amounts)) continue;
    if (!take_rounded(search, state, amounts, rule, draw)) return;
  }
  rule.tidy ? search.offer_tidier(state.taken) : search.offer(state.taken);
}

namespace {

class Walk {
 public:
  Walk(const Normal& normal, const RepackTask& task, Budget& budget)
      : normal_(normal), task_(task), budget_(budget), draw_(task.number) {
    shapes_.resize(normal.stocks.size());
    for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
      shapes_[s].resize(normal.types.size());
      for (const OrientedType& shape : normal.shapes[s]) {
        shapes_[s][static_cast<std::size_t>(shape.type)].push_back(shape);
      }
    }
    for (std::size_t k = 0; k < task.stocks.size(); ++k) {
      const StockSize& stock = normal.stocks[static_cast<std::size_t>(task.stocks[k])];
      const SheetSize size =
          task.sizes.empty() ? SheetSize{stock.width, stock.height} : task.sizes[k];
      sheets_.emplace_back(size.width, size.height);
      sheet_area_ = std::max(sheet_area_, std::int64_t{stock.width} * stock.height);
    }
    begin();
  }

  RepackResult run() {
    RepackResult result;
    constexpr std::size_t history_length = 200;
    double cost = cost_now();
    std::vector<double> history(history_length, cost);
    while (!outside_.empty()) {
      if (steps_ >= task_.steps || ((result.moves & 63) == 0 && budget_.out())) break;
      ++result.moves;
      save_.clear();
      const std::vector<int> outside = outside_;
      ruin();
      recreate();
      const double next = cost_now();
      double& old = history[static_cast<std::size_t>(result.moves) % history_length];
      if (next <= cost || next <= old) {
        cost = next;
      } else {
        for (auto& [index, sheet] : save_) sheets_[index] = std::move(sheet);
        outside_ = outside;
      }
      old = std::min(old, cost);
    }
    budget_.spend(steps_ * step_work);
    if (outside_.empty()) {
      for (const Elastic& sheet : sheets_) result.slices.push_back(sheet.slice());
    }
    return result;
  }

 private:
  std::int64_t area(int type) const {
    const Type& t = normal_.types[static_cast<std::size_t>(type)];
    return std::int64_t{t.width} * t.height;
  }

  void begin() {
    std::vector<std::int64_t> left(task_.demand.begin(), task_.demand.end());
    for (std::size_t k = 0; k < task_.start.size() && k < sheets_.size(); ++k) {
      const Slice slice = capped(task_.start[k], left);
      for (const auto& [type, copies] : counts_of(slice)) {
        left[static_cast<std::size_t>(type)] -= copies;
      }
      if (!slice.empty()) sheets_[k].load(slice);
    }
    for (std::size_t t = 0; t < left.size(); ++t) {
      for (std::int64_t k = 0; k < left[t]; ++k) outside_.push_back(static_cast<int>(t));
    }
    recreate();
    save_.clear();
  }

  // What lies outside counts; among equals, waste collected on few sheets is better.
  double cost_now() const {
    double outside = 0;
    for (const int type : outside_) outside += static_cast<double>(area(type));
    double spread = 0;
    for (const Elastic& sheet : sheets_) {
      const double full = static_cast<double>(sheet.filled()) /
                          std::max(1.0, static_cast<double>(sheet.width()) * sheet.height());
      spread += full * full;
    }
    const auto whole = static_cast<double>(sheet_area_);
    return outside / whole - 0.02 * spread;
  }

  void keep(std::size_t index) {
    for (const auto& [kept, sheet] : save_) {
      if (kept == index) return;
    }
    save_.emplace_back(index, sheets_[index]);
  }

  void ruin() {
    const int sheets = static_cast<int>(sheets_.size());
    const int touched = 1 + draw_.below(std::min(3, sheets));
    for (int k = 0; k < touched; ++k) {
      const auto index = static_cast<std::size_t>(draw_.below(sheets));
      if (sheets_[index].empty()) continue;
      keep(index);
      Elastic& sheet = sheets_[index];
      const int most = 1 + draw_.below(5);
      int removed = 0;
      for (int tries = 0; tries < 8 && removed < most && !sheet.empty(); ++tries) {
        const int node = sheet.live_node(draw_.below(sheet.live_count()));
        const int size = sheet.leaves_under(node);
        if (size > most && size > 1 && draw_.below(50) != 0) continue;
        sheet.remove_subtree(node, outside_);
        removed += size;
      }
    }
  }

  void order_outside() {
    std::vector<std::pair<double, int>> keyed;
    const int how = draw_.below(8);
    for (const int type : outside_) {
      const Type& t = normal_.types[static_cast<std::size_t>(type)];
      double key = static_cast<double>(area(type));
      if (how == 5) key = std::max(t.width, t.height);
      if (how == 6) key = t.height;
      if (how == 7) key = t.width;
      if (how >= 2) key *= 0.7 + 0.6 * draw_.unit();
      keyed.emplace_back(-key, type);
    }
    std::sort(keyed.begin(), keyed.end());
    for (std::size_t k = 0; k < keyed.size(); ++k) outside_[k] = keyed[k].second;
  }

  void recreate() {
    order_outside();
    std::vector<int> still;
    for (const int type : outside_) {
      if (!place(type)) still.push_back(type);
    }
    outside_ = std::move(still);
  }

  bool place(int type) {
    Elastic::Insertion best;
    best.node = -2;
    std::size_t at = 0;
    const OrientedType* with = nullptr;
    const auto look = [&] { return (draw_.next() & 63) != 0; };
    for (std::size_t k = 0; k < sheets_.size(); ++k) {
      const auto stock = static_cast<std::size_t>(task_.stocks[k]);
      const Elastic& sheet = sheets_[k];
      if (sheet.filled() + area(type) > std::int64_t{sheet.width()} * sheet.height()) continue;
      for (const OrientedType& shape : shapes_[stock][static_cast<std::size_t>(type)]) {
        steps_ += sheet.live_count() + 1;
        if (sheet.best_place(shape, best, look)) {
          at = k;
          with = &shape;
        }
      }
    }
    if (with == nullptr) return false;
    keep(at);
    sheets_[at].insert(*with, best);
    return true;
  }

  const Normal& normal_;
  const RepackTask& task_;
  Budget& budget_;
  Draw draw_;
  std::vector<std::vector<std::vector<OrientedType>>> shapes_; // per stock, per type
  std::vector<Elastic> sheets_;
  std::vector<int> outside_;
  std::vector<std::pair<std::size_t, Elastic>> save_;
  std::int64_t sheet_area_ = 1;
  std::int64_t steps_ = 0;
};

} // namespace

RepackResult repack(const Normal& normal, const RepackTask& task, Budget& budget) {
  return Walk(normal, task, budget).run();
}

} // namespace leafwright::cut
