#include "plan/cut/prove.h"

#include "plan/cut/enumerate.h"
#include "plan/cut/programme.h"
#include "plan/cut/random.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_outside_work = 3'000'000'000;

// Values with a scale in which one unit of price is worth most / price.
struct Scale {
  std::vector<Value> values;
  std::vector<std::int64_t> most; ///< per stock, over all patterns considered
  std::int64_t unit_value = 0;    ///< F: unit_value / unit_price is the scale
  std::int64_t unit_price = 1;
};

std::int64_t value_of(const Column& column, const Scale& scale) {
  std::int64_t sum = 0;
  for (const auto& [type, copies] : column.counts) {
    sum += std::int64_t{copies} * scale.values[static_cast<std::size_t>(type)];
  }
  return sum;
}

// The scale at which the bound is best: one stock just pays for its best pattern.
bool choose_unit(const Search& search, Scale& scale) {
  const auto& stocks = search.normal.stocks;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (stocks[s].price <= 0 || scale.most[s] <= 0) continue;
    const auto dearer = [&] {
      return Wide{scale.most[s]} * scale.unit_price > Wide{scale.unit_value} * stocks[s].price;
    };
    if (scale.unit_value == 0 || dearer()) {
      scale.unit_value = scale.most[s];
      scale.unit_price = stocks[s].price;
    }
  }
  return scale.unit_value > 0;
}

// How much value (times unit_price) plans of cost `cost` can give away in all.
Wide slack(std::span<const std::int64_t> demand, const Scale& scale, std::int64_t cost) {
  Wide total = 0;
  for (std::size_t t = 0; t < demand.size(); ++t) total += Wide{demand[t]} * scale.values[t];
  return Wide{cost} * scale.unit_value - total * scale.unit_price;
}

// What one pattern of the stock gives away (times unit_price).
Wide given_away(const Search& search, const Scale& scale, int stock, std::int64_t value) {
  return Wide{search.normal.stocks[static_cast<std::size_t>(stock)].price} * scale.unit_value -
         Wide{value} * scale.unit_price;
}

Scale scale_of(const Search& search, std::span<const double> prices) {
  Scale scale;
  scale.values = scaled_values(prices, search.normal).values;
  // Every type needs a value, or the list would not hold it.
  for (Value& v : scale.values) v = std::max<Value>(v, 1);
  return scale;
}

// One question: can `demand` be met at `cost` or less?
struct Question {
  std::span<const std::int64_t> demand;
  std::int64_t cost = 0;
  bool whole = false; ///< the demand is the job's: what is shown raises the bound
};

std::int64_t shown_bound(const Search& search, const Question& question, const Scale& scale) {
  const std::vector<std::int64_t> wide(scale.values.begin(), scale.values.end());
  return value_bound(search.normal.stocks, question.demand, wide, scale.most);
}

// The tables of one question; lists of patterns are drawn from them.
class Lister {
 public:
  Lister(Search& search, const Question& question, std::span<const double> prices)
      : search_(search), question_(question), scale_(scale_of(search, prices)) {}

  // No: the values alone show that nothing costs so little. Yes: lists can be drawn.
  Answer prepare() {
    const Normal& normal = search_.normal;
    for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
      const Stock& stock = normal.stocks[s];
      insides_.emplace_back(stock.width, stock.height, normal.shapes[s], question_.demand,
                            scale_.values, 0);
      search_.budget.spend(insides_.back().work() / 8);
      scale_.most.push_back(insides_.back().best());
    }
    const std::int64_t shown = shown_bound(search_, question_, scale_);
    if (question_.whole) search_.raise_bound(shown);
    if (shown > question_.cost) return Answer::No;
    if (!choose_unit(search_, scale_)) return Answer::Unknown;
    for (const Inside& inside : insides_) {
      if (outside_work(inside) > most_outside_work) return Answer::Unknown;
      outsides_.emplace_back(inside);
      search_.budget.spend(outside_work(inside));
    }
    return Answer::Yes;
  }

  // All patterns that give away at most `share` of the gap. False: too many.
  bool list(double share, const ProofEffort& effort, std::vector<Column>& columns) {
    const Normal& normal = search_.normal;
    const Wide gap = slack(question_.demand, scale_, question_.cost);
    columns.clear();
    for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
      // price x F - value x P <= gap
      const Wide part = share < 1 ? static_cast<Wide>(static_cast<double>(gap) * share) : gap;
      const Wide least =
          divided_up(Wide{normal.stocks[s].price} * scale_.unit_value - part, scale_.unit_price);
      Enumeration found =
          enumerate(insides_[s], outsides_[s], normal.shapes[s], question_.demand, scale_.values,
                    static_cast<std::int64_t>(std::max<Wide>(1, least)), effort.entries);
      search_.budget.spend(found.work * enumeration_step);
      search_.statistics.enumerated += found.entries;
      if (!found.complete || columns.size() + found.slices.size() > effort.columns) return false;
      for (Slice& slice : found.slices) {
        Column column;
        column.stock = static_cast<int>(s);
        column.counts = counts_of(slice);
        column.slice = std::move(slice);
        columns.push_back(std::move(column));
      }
    }
    return true;
  }

 private:
  static constexpr std::int64_t enumeration_step = 8;

  Search& search_;
  const Question& question_;
  Scale scale_;
  std::vector<Inside> insides_;
  std::vector<Outside> outsides_;
};

// Drops patterns no plan of the cost can use, by the prices of the programme over the list itself.
// True: none is left to make such a plan.
bool sift(const Search& search, const Question& question, std::vector<Column>& columns) {
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  for (int round = 0; round < 4; ++round) {
    Master master(search.normal.stocks, question.demand);
    for (const Column& column : columns) master.add(column);
    master.set_demand(question.demand, none);
    master.solve();
    if (master.shortage() > 0.5) return true;
    Scale scale = scale_of(search, master.prices());
    scale.most.assign(search.normal.stocks.size(), 0);
    for (const Column& column : columns) {
      auto& most = scale.most[static_cast<std::size_t>(column.stock)];
      most = std::max(most, value_of(column, scale));
    }
    if (shown_bound(search, question, scale) > question.cost) return true;
    if (!choose_unit(search, scale)) return false;
    const Wide gap = slack(question.demand, scale, question.cost);
    const std::size_t before = columns.size();
    std::erase_if(columns, [&](const Column& column) {
      return given_away(search, scale, column.stock, value_of(column, scale)) > gap;
    });
    if (columns.size() * 10 > before * 9) break;
  }
  return false;
}

Answer choose_from(Search& search, const Question& question, std::vector<Column> columns,
                   const ProofEffort& effort, Sheets& sheets) {
  search.budget.spend(static_cast<std::int64_t>(columns.size()) * 10'000);
  if (sift(search, question, columns)) return Answer::No;
  std::vector<int> indices;
  for (Column& column : columns) indices.push_back(search.pool.add(std::move(column)).first);
  std::sort(indices.begin(), indices.end());
  indices.erase(std::unique(indices.begin(), indices.end()), indices.end());
  ++search.statistics.programmes;
  const std::int64_t step = price_step(search.normal.stocks);
  ProgrammeResult result =
      solve_programme(search, indices, question.demand, question.cost + step, effort.nodes,
                      effort.steps, question.whole ? Manner::Settle : Manner::Find);
  search.budget.spend(result.work);
  sheets = std::move(result.sheets);
  if (!sheets.empty()) return Answer::Yes;
  return result.complete ? Answer::No : Answer::Unknown;
}

// Settles the question from all patterns that such a plan could use.
Answer ask(Search& search, const Question& question, std::span<const double> prices,
           const ProofEffort& effort, Sheets& sheets) {
  Lister lister(search, question, prices);
  const Answer prepared = lister.prepare();
  if (prepared != Answer::Yes) return prepared;
  std::vector<Column> columns;
  if (!lister.list(1, effort, columns)) return Answer::Unknown;
  return choose_from(search, question, std::move(columns), effort, sheets);
}

// The same, where these are too many, from those that give away a part of the gap alone: a plan
// gives its gap away over many patterns, so one that uses up much of it is rare. Then only Yes is
// an answer.
Answer ask_in_part(Search& search, const Question& question, std::span<const double> prices,
                   const ProofEffort& effort, Sheets& sheets) {
  Lister lister(search, question, prices);
  const Answer prepared = lister.prepare();
  if (prepared != Answer::Yes) return prepared;
  std::vector<Column> most;
  double reached = 0;
  for (const double share : {0.015, 0.03, 0.06, 0.09, 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0}) {
    std::vector<Column> columns;
    if (search.budget.out() || !lister.list(share, effort, columns)) break;
    most = std::move(columns);
    reached = share;
  }
  if (most.empty()) return Answer::Unknown;
  const Answer answer = choose_from(search, question, std::move(most), effort, sheets);
  return answer == Answer::No && reached < 1 ? Answer::Unknown : answer;
}

// The argument by reduced costs is made for unlimited stocks, the list for patterns that may be
// pushed together.
bool out_of_scope(const Search& search) {
  return search.normal.rigid() ||
         std::any_of(search.normal.stocks.begin(), search.normal.stocks.end(),
                     [](const Stock& stock) { return stock.limit >= 0; });
}

} // namespace

bool prove(Search& search, Relaxation& relaxation, const ProofEffort& effort) {
  if (search.best_cost < 0 || search.proven() || out_of_scope(search)) return false;
  const Question question{search.demand, search.best_cost - price_step(search.normal.stocks), true};
  Sheets sheets;
  switch (ask(search, question, relaxation.prices(), effort, sheets)) {
  case Answer::Yes: return search.offer(sheets);
  case Answer::No: search.raise_bound(search.best_cost); return true;
  case Answer::Unknown: break;
  }
  return false;
}

bool complete_floors(Search& search, Relaxation& relaxation, std::uint64_t number,
                     const ProofEffort& effort) {
  if (search.best_cost < 0 || search.proven() || out_of_scope(search)) return false;
  Draw draw(number);
  Sheets taken;
  const std::vector<double> amounts = relaxation.amounts();
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    auto count = static_cast<std::int64_t>(std::floor(amounts[i] + 1e-7));
    // The first takes all; then every second leaves one more sheet of each pattern to be chosen
    // anew, the others of some.
    if (number != 0 && count > 0 && (number % 2 == 1 || draw.below(3) == 0)) --count;
    if (count > 0) taken.emplace_back(static_cast<int>(i), count);
  }
  std::vector<std::int64_t> rest = remaining(search, taken);
  for (std::int64_t& d : rest) d = std::max<std::int64_t>(0, d);
  const std::int64_t cost =
      search.best_cost - price_step(search.normal.stocks) - cost_of(search, taken);
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  relaxation.solve(rest, none, false, 200);
  Sheets sheets;
  const std::vector<double> prices = relaxation.prices();
  const Answer answer = ask_in_part(search, {rest, cost, false}, prices, effort, sheets);
  if (answer != Answer::Yes) return false;
  taken.insert(taken.end(), sheets.begin(), sheets.end());
  return search.offer(taken);
}

Answer complete_rest(Search& search, const Relaxation& relaxation, const Sheets& taken,
                     const ProofEffort& effort) {
  if (search.best_cost < 0 || out_of_scope(search)) return Answer::Unknown;
  std::vector<std::int64_t> rest = remaining(search, taken);
  for (std::int64_t& d : rest) d = std::max<std::int64_t>(0, d);
  const std::int64_t cost =
      search.best_cost - price_step(search.normal.stocks) - cost_of(search, taken);
  Sheets sheets;
  const Answer answer = ask(search, {rest, cost, false}, relaxation.prices(), effort, sheets);
  if (answer == Answer::Yes) {
    sheets.insert(sheets.end(), taken.begin(), taken.end());
    search.offer(sheets);
  }
  return answer;
}

} // namespace leafwright::cut
