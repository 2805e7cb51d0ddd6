#include "plan/cut/closing.h"

#include "plan/cut/prove.h"
#include "plan/cut/random.h"
#include "plan/cut/residue.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace leafwright::cut {

namespace {

using Vector = std::vector<std::int64_t>;

Vector vector_of(const Column& column, std::size_t types) {
  Vector vector(types, 0);
  for (const auto& [type, copies] : column.counts) {
    vector[static_cast<std::size_t>(type)] = copies;
  }
  return vector;
}

Vector surplus_of(std::size_t type, std::size_t types) {
  Vector vector(types, 0);
  vector[type] = -1;
  return vector;
}

// The relaxation's basis: as many patterns, or surpluses of single types, as there are types.
class Vertex {
 public:
  static std::optional<Vertex> of(const Search& search, std::vector<int> basis) {
    const std::size_t n = search.demand.size();
    if (basis.size() != n) return std::nullopt;
    std::vector<Vector> vectors;
    vectors.reserve(n);
    for (const int entry : basis) {
      vectors.push_back(entry < 0 ? surplus_of(static_cast<std::size_t>(-1 - entry), n)
                                  : vector_of(search.pool[entry], n));
    }
    std::optional<Residues> residues = Residues::of(vectors);
    if (!residues) return std::nullopt;
    return Vertex(std::move(basis), vectors, std::move(*residues));
  }

  const Residues& residues() const { return residues_; }

  /// Whole sheets of the basis' patterns that yield `rest`; none where one would be negative.
  std::optional<Sheets> sheets_for(const Vector& rest) const {
    Sheets sheets;
    const std::size_t n = rest.size();
    for (std::size_t k = 0; k < n; ++k) {
      double amount = 0;
      for (std::size_t t = 0; t < n; ++t) amount += inverse_[k * n + t] * static_cast<double>(rest[t]);
      const std::int64_t count = std::llround(amount);
      if (count < 0) return std::nullopt;
      if (count > 0 && basis_[k] >= 0) sheets.emplace_back(basis_[k], count);
    }
    return sheets;
  }

 private:
  Vertex(std::vector<int> basis, const std::vector<Vector>& vectors, Residues residues)
      : basis_(std::move(basis)), residues_(std::move(residues)) {
    invert(vectors);
  }

  // Gauss and Jordan with the largest pivot; residues exist, so it is regular.
  void invert(const std::vector<Vector>& vectors) {
    const std::size_t n = vectors.size();
    std::vector<std::vector<double>> rows(n, std::vector<double>(2 * n, 0.0));
    for (std::size_t t = 0; t < n; ++t) {
      for (std::size_t k = 0; k < n; ++k) rows[t][k] = static_cast<double>(vectors[k][t]);
      rows[t][n + t] = 1;
    }
    for (std::size_t c = 0; c < n; ++c) {
      std::size_t p = c;
      for (std::size_t i = c; i < n; ++i) {
        if (std::fabs(rows[i][c]) > std::fabs(rows[p][c])) p = i;
      }
      std::swap(rows[p], rows[c]);
      const double over = 1 / rows[c][c];
      for (double& value : rows[c]) value *= over;
      for (std::size_t i = 0; i < n; ++i) {
        const double share = rows[i][c];
        if (i == c || share == 0) continue;
        for (std::size_t k = c; k < 2 * n; ++k) rows[i][k] -= share * rows[c][k];
      }
    }
    inverse_.resize(n * n);
    for (std::size_t k = 0; k < n; ++k) {
      for (std::size_t t = 0; t < n; ++t) inverse_[k * n + t] = rows[k][n + t];
    }
  }

  std::vector<int> basis_;
  Residues residues_;
  std::vector<double> inverse_;
};

// A pattern beside the vertex, or one piece too many of a type.
struct Item {
  double cost = 0; ///< share of the gap that it gives away
  Residues::Key key = 0;
  int column = -1; ///< of the list; < 0: surplus of type -1 - column
};

// A few items, drawn by a number alone so that they need not be kept.
struct Handful {
  static constexpr int most = 8;
  std::array<int, most> items{};
  int size = 0;
  double cost = 0;
  Residues::Key key = 0;
};

class Drawer {
 public:
  Drawer(std::vector<Item> items, const Residues& residues, std::uint64_t number)
      : items_(std::move(items)), residues_(residues), start_(number * 0x632be59bd9b4e019ULL) {
    std::stable_sort(items_.begin(), items_.end(),
                     [](const Item& a, const Item& b) { return a.cost < b.cost; });
    std::size_t k = 0;
    for (std::size_t step = 0; step <= steps; ++step) {
      while (k < items_.size() && items_[k].cost * steps < static_cast<double>(step)) ++k;
      upto_.push_back(static_cast<int>(k));
    }
  }

  const Item& item(int index) const { return items_[static_cast<std::size_t>(index)]; }

  /// Items of together at most `most`, until they cost `least` or no more fit.
  Handful draw(std::uint64_t number, double least_from, double least_to, double most) const {
    Draw draw(start_ + number * 0x9e3779b97f4a7c15ULL);
    Handful hand;
    const double least = least_from + (least_to - least_from) * draw.unit();
    const int wanted = 1 + draw.below(4);
    while (hand.size < Handful::most) {
      const int count = cheaper_than(most - hand.cost);
      if (count <= 0) break;
      const int at = draw.below(count);
      hand.items[static_cast<std::size_t>(hand.size++)] = at;
      hand.cost += item(at).cost;
      hand.key = residues_.sum(hand.key, item(at).key);
      if (hand.size >= wanted && hand.cost >= least) break;
    }
    return hand;
  }

 private:
  static constexpr std::size_t steps = 4096;

  int cheaper_than(double cost) const {
    if (cost < 0) return 0;
    if (cost >= 1) return static_cast<int>(items_.size());
    return upto_[static_cast<std::size_t>(cost * steps)];
  }

  std::vector<Item> items_;
  const Residues& residues_;
  std::uint64_t start_;
  std::vector<int> upto_; ///< items cheaper than so many steps
};

// Numbers of handfuls by their key: open addressing, one of each key.
class Table {
 public:
  explicit Table(std::uint32_t count) {
    std::size_t size = 16;
    while (size < std::size_t{2} * count) size *= 2;
    keys_.resize(size);
    numbers_.resize(size, 0);
  }
  void add(Residues::Key key, std::uint32_t number) {
    std::size_t at = start(key);
    for (; numbers_[at] != 0; at = next(at)) {
      if (keys_[at] == key) return;
    }
    keys_[at] = key;
    numbers_[at] = number;
  }
  /// 0: none.
  std::uint32_t find(Residues::Key key) const {
    for (std::size_t at = start(key); numbers_[at] != 0; at = next(at)) {
      if (keys_[at] == key) return numbers_[at];
    }
    return 0;
  }

 private:
  std::size_t start(Residues::Key key) const {
    return static_cast<std::size_t>((key * 0x9e3779b97f4a7c15ULL) >> 24) & (numbers_.size() - 1);
  }
  std::size_t next(std::size_t at) const { return (at + 1) & (numbers_.size() - 1); }

  std::vector<Residues::Key> keys_;
  std::vector<std::uint32_t> numbers_;
};

class Closing {
 public:
  Closing(Search& search, const Question& question, const Vertex& vertex,
          std::vector<Column> columns, const Scale& scale)
      : search_(search), question_(question), vertex_(vertex), columns_(std::move(columns)) {
    gap_ = std::max(1.0, static_cast<double>(slack(question.demand, scale, question.cost)));
    const std::size_t types = search.demand.size();
    const auto take = [&](double cost, const Vector& vector, int column) {
      const Residues::Key key = vertex.residues().key(vector);
      // What the vertex can do itself changes nothing.
      if (key != 0 && cost <= 1) items_.push_back({cost, key, column});
    };
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      const Column& column = columns_[k];
      const Wide cost = given_away(search, scale, column.stock, value_of(column, scale));
      take(static_cast<double>(cost) / gap_, vector_of(column, types), static_cast<int>(k));
    }
    for (std::size_t t = 0; t < types; ++t) {
      const double cost = static_cast<double>(Wide{scale.values[t]} * scale.unit_price);
      take(cost / gap_, surplus_of(t, types), -1 - static_cast<int>(t));
    }
  }

  bool run(std::uint64_t number, const ClosingEffort& effort) {
    const Residues& residues = vertex_.residues();
    const Residues::Key target = residues.key(search_.demand);
    if (target == 0 && offer({}, {})) return true;
    if (items_.empty()) return false;
    const Drawer drawer(std::move(items_), residues, number);
    const auto stored = [&](std::uint32_t k) { return drawer.draw(k, 0, 0.5, 0.5); };
    Table table(effort.stored);
    for (std::uint32_t k = 1; k <= effort.stored; ++k) table.add(stored(k).key, k);
    table.add(0, effort.stored + 1); // nothing at all
    search_.budget.spend(std::int64_t{effort.stored} * draw_work);
    int failures = 0;
    for (std::int64_t k = 0; k < effort.tries && failures < most_failures; ++k) {
      if (k % spending == 0) {
        search_.budget.spend(spending * draw_work);
        if (search_.budget.out()) return false;
      }
      const std::uint64_t at = std::uint64_t{effort.stored} + 2 + static_cast<std::uint64_t>(k);
      const Handful hand = drawer.draw(at, 0.35, 0.65, 1);
      const std::uint32_t other = table.find(residues.difference(target, hand.key));
      if (other == 0) continue;
      const Handful second = other > effort.stored ? Handful{} : stored(other);
      if (hand.cost + second.cost > 1 + 1e-6) continue;
      search_.budget.spend(check_work);
      if (offer(taken(drawer, hand), taken(drawer, second))) return true;
      ++failures;
    }
    return false;
  }

 private:
  static constexpr std::int64_t draw_work = 120;
  static constexpr std::int64_t check_work = 20'000;
  static constexpr std::int64_t spending = 4096;
  static constexpr int most_failures = 5'000;

  // Pattern numbers of the list, surpluses as -1 - type.
  static std::vector<int> taken(const Drawer& drawer, const Handful& hand) {
    std::vector<int> result;
    for (int k = 0; k < hand.size; ++k) {
      result.push_back(drawer.item(hand.items[static_cast<std::size_t>(k)]).column);
    }
    return result;
  }

  bool offer(const std::vector<int>& first, const std::vector<int>& second) {
    Vector rest = search_.demand;
    for (const std::vector<int>* part : {&first, &second}) {
      for (const int at : *part) {
        if (at < 0) {
          ++rest[static_cast<std::size_t>(-1 - at)];
          continue;
        }
        for (const auto& [type, copies] : columns_[static_cast<std::size_t>(at)].counts) {
          rest[static_cast<std::size_t>(type)] -= copies;
        }
      }
    }
    std::optional<Sheets> sheets = vertex_.sheets_for(rest);
    if (!sheets) return false;
    for (const std::vector<int>* part : {&first, &second}) {
      for (const int at : *part) {
        if (at < 0) continue;
        const auto index = static_cast<std::size_t>(at);
        sheets->emplace_back(search_.pool.add(columns_[index]).first, 1);
      }
    }
    // The amounts come from floating point; what they yield is counted.
    const std::vector<std::int64_t> left = remaining(search_, *sheets);
    if (std::any_of(left.begin(), left.end(), [](std::int64_t d) { return d > 0; })) return false;
    return search_.offer(*sheets);
  }

  Search& search_;
  const Question& question_;
  const Vertex& vertex_;
  std::vector<Column> columns_;
  double gap_ = 1;
  std::vector<Item> items_;
};

// As large a part of the gap as the effort allows.
std::vector<Column> listed(Search& search, Lister& lister, const ProofEffort& effort) {
  std::vector<Column> most;
  for (const double share :
       {0.005, 0.01, 0.02, 0.04, 0.07, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.85, 1.0}) {
    std::vector<Column> columns;
    if (search.budget.out() || !lister.list(share, effort, columns)) break;
    most = std::move(columns);
    if (most.size() * 3 > effort.columns) break;
  }
  return most;
}

} // namespace

bool close_gap(Search& search, Relaxation& relaxation, std::uint64_t number,
               const ClosingEffort& effort) {
  if (search.best_cost < 0 || search.proven() || out_of_scope(search)) return false;
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  if (!relaxation.solve(search.demand, none, Aim::Optimum, 100'000)) return false;
  if (search.proven()) return true;
  const std::optional<Vertex> vertex = Vertex::of(search, relaxation.basis());
  if (!vertex) return false;
  const Question question{search.demand, search.bound, true};
  Lister lister(search, question, relaxation.prices());
  if (lister.prepare() != Answer::Yes) return search.proven();
  std::vector<Column> columns = listed(search, lister, effort.list);
  return Closing(search, question, *vertex, std::move(columns), lister.scale()).run(number, effort);
}

} // namespace leafwright::cut
