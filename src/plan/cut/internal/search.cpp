#include "plan/cut/internal/search.h"

#include "plan/cut/internal/lister.h"
#include "plan/cut/internal/programme.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>
#include <span>
#include <utility>
#include <vector>

namespace leafwright::cut {

Wide divided_up(Wide a, Wide b) { return a >= 0 ? (a + b - 1) / b : -(-a / b); }

std::int64_t price_step(std::span<const StockSize> stocks) {
  std::int64_t step = 0;
  for (const StockSize& stock : stocks) step = std::gcd(step, stock.price);
  return std::max<std::int64_t>(1, step);
}

namespace {

std::int64_t on_step(Wide cost, std::int64_t step) {
  return static_cast<std::int64_t>(divided_up(std::max<Wide>(0, cost), step) * step);
}

// The bound when `scale_most / scale_price` values are worth one unit of price.
Wide bound_at(std::span<const StockSize> stocks, Wide total, std::span<const std::int64_t> most,
              Wide scale_most, Wide scale_price) {
  Wide sum = total * scale_price;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    const Wide excess = Wide{most[s]} * scale_price - scale_most * stocks[s].price;
    if (excess <= 0) continue;
    if (stocks[s].limit < 0) return 0; // this scale proves nothing
    sum -= excess * stocks[s].limit;
  }
  return divided_up(std::max<Wide>(0, sum), scale_most);
}

} // namespace

std::int64_t value_bound(std::span<const StockSize> stocks, std::span<const std::int64_t> demand,
                         std::span<const std::int64_t> value, std::span<const std::int64_t> most) {
  Wide total = 0;
  for (std::size_t t = 0; t < demand.size(); ++t) {
    total += Wide{std::max<std::int64_t>(0, demand[t])} * value[t];
  }
  // The bound is concave and piecewise linear in the scale; its best is where one stock is just
  // paid.
  Wide best = 0;
  for (std::size_t s = 0; s < stocks.size(); ++s) {
    if (most[s] <= 0 || stocks[s].price <= 0) continue;
    best = std::max(best, bound_at(stocks, total, most, most[s], stocks[s].price));
  }
  return on_step(best, price_step(stocks));
}

std::int64_t area_bound(const Job& job, const Normal& normal) {
  // In halves of small units the areas of usual jobs fit 64 bits; very large ones are scaled down,
  // pieces rounded down and sheets up.
  const auto area = [](Length w, Length h) { return Wide{w} * h; };
  const Length k = job.rules.blade;
  Wide largest = 1;
  for (const StockSize& stock : normal.stocks) {
    const SheetType& sheet = job.sheets[static_cast<std::size_t>(stock.sheet)];
    largest = std::max(largest, area(sheet.width + k, sheet.height + k));
  }
  Wide divide = 1;
  while (largest / divide > (Wide{1} << 60)) divide *= 2;
  std::vector<std::int64_t> demand;
  std::vector<std::int64_t> value;
  for (const Type& type : normal.types) {
    demand.push_back(type.demand);
    value.push_back(static_cast<std::int64_t>(area(type.real_width, type.real_height) / divide));
  }
  std::vector<std::int64_t> most;
  for (const StockSize& stock : normal.stocks) {
    most.push_back(static_cast<std::int64_t>(
        divided_up(area((stock.width + (normal.coarse ? 1 : 0)) * normal.unit_x,
                        (stock.height + (normal.coarse ? 1 : 0)) * normal.unit_y),
                   divide)));
  }
  return value_bound(normal.stocks, demand, value, most);
}

Search::Search(const Normal& n, Budget& b, Statistics& s) : normal(n), budget(b), statistics(s) {
  for (const Type& type : n.types) demand.push_back(type.demand);
  tick_before_ = budget.on_tick([this] { tell(); });
}

Search::~Search() { budget.on_tick(std::move(tick_before_)); }

void Search::tell() const {
  if (!budget.effort().progress) return;
  Progress progress;
  progress.seconds = budget.seconds();
  progress.best_cost = best_cost;
  progress.bound_cost = bound;
  for (const auto& [column, count] : best) progress.best_sheets += count;
  const std::int64_t price = normal.stocks.empty() ? 0 : normal.stocks.front().price;
  const bool alike = std::all_of(normal.stocks.begin(), normal.stocks.end(),
                                 [&](const StockSize& stock) { return stock.price == price; });
  if (alike && price > 0) progress.bound_sheets = (bound + price - 1) / price;
  progress.subject = budget.effort().subject;
  progress.doing = doing;
  budget.effort().progress(progress);
}

bool Search::offer(const Sheets& sheets) {
  const std::int64_t cost = cost_of(*this, sheets);
  if (best_cost >= 0 && cost >= best_cost) return false;
  best = sheets;
  best_cost = cost;
  tell();
  return true;
}

namespace {

std::size_t distinct(const Sheets& sheets) {
  std::set<int> columns;
  for (const auto& [column, count] : sheets) columns.insert(column);
  return columns.size();
}

} // namespace

bool Search::offer_tidier(const Sheets& sheets) {
  if (offer(sheets)) return true;
  if (cost_of(*this, sheets) != best_cost || distinct(sheets) >= distinct(best)) return false;
  best = sheets;
  return true;
}

void Search::raise_bound(std::int64_t cost) {
  if (cost <= bound) return;
  bound = cost;
  tell();
}

std::int64_t cost_of(const Search& search, const Sheets& sheets) {
  std::int64_t cost = 0;
  for (const auto& [column, count] : sheets) {
    cost += count * search.normal.stocks[static_cast<std::size_t>(search.pool[column].stock)].price;
  }
  return cost;
}

std::vector<std::int64_t> remaining(const Search& search, const Sheets& sheets) {
  std::vector<std::int64_t> left = search.demand;
  for (const auto& [column, count] : sheets) {
    for (const auto& [type, copies] : search.pool[column].counts) {
      left[static_cast<std::size_t>(type)] -= count * copies;
    }
  }
  return left;
}

namespace {

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
  if (!lister.list(1, effort, columns) || !lister.exhaustive()) return Answer::Unknown;
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
    reached = lister.exhaustive() ? share : std::min(share, 0.99);
  }
  if (most.empty()) return Answer::Unknown;
  const Answer answer = choose_from(search, question, std::move(most), effort, sheets);
  return answer == Answer::No && reached < 1 ? Answer::Unknown : answer;
}

} // namespace

bool out_of_scope(const Search& search) {
  return search.normal.rigid() ||
         std::any_of(search.normal.stocks.begin(), search.normal.stocks.end(),
                     [](const StockSize& stock) { return stock.limit >= 0; });
}

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

Sheets floors_of(const Relaxation& relaxation, std::uint64_t number) {
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
  return taken;
}

bool complete_floors(Search& search, Relaxation& relaxation, std::uint64_t number,
                     const ProofEffort& effort) {
  if (search.best_cost < 0 || search.proven() || out_of_scope(search)) return false;
  Sheets taken = floors_of(relaxation, number);
  std::vector<std::int64_t> rest = remaining(search, taken);
  for (std::int64_t& d : rest) d = std::max<std::int64_t>(0, d);
  const std::int64_t cost =
      search.best_cost - price_step(search.normal.stocks) - cost_of(search, taken);
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  relaxation.solve(rest, none, Aim::Guide, 200);
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
