#include "plan/cut/internal/closing.h"

#include "plan/cut/internal/lister.h"
#include "plan/cut/internal/search.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace leafwright::cut {

namespace {

using Vector = std::vector<std::int64_t>;

enum class From : std::uint8_t {
  List,    // one more sheet of a pattern of the list
  Surplus, // one piece too many of a type
  More,    // of a loose activity of the face
  Less,
};

// One step away from the face.
struct Item {
  double cost = 0; // share of the gap that it gives away
  Residues::Key key = 0;
  int index = 0;
  From from = From::List;
};

// A few items.
struct Handful {
  static constexpr std::size_t most = 8;
  std::array<std::int32_t, most> items{};
  std::int32_t size = 0;
  double cost = 0;
  Residues::Key key = 0;

  void add(int index, const Item& item, const Residues& residues) {
    items[static_cast<std::size_t>(size++)] = index;
    cost += item.cost;
    key = residues.sum(key, item.key);
  }
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

  // Items of together at most `most`, until they cost `least` or no more fit.
  Handful draw(std::uint64_t number, double least_from, double least_to, double most) const {
    Draw draw(start_ + number * 0x9e3779b97f4a7c15ULL);
    Handful hand;
    const double least = least_from + (least_to - least_from) * draw.unit();
    const int wanted = 1 + draw.below(4);
    while (hand.size < static_cast<int>(Handful::most)) {
      const int count = cheaper_than(most - hand.cost);
      if (count <= 0) break;
      const int at = draw.below(count);
      hand.add(at, item(at), residues_);
      if (hand.size >= wanted && hand.cost >= least) break;
    }
    return hand;
  }

  // All handfuls that cost at most `most`, smallest first, up to so many.
  std::vector<Handful> all(double most, std::size_t count) const {
    std::vector<Handful> found(1);
    for (std::size_t k = 0; k < found.size(); ++k) {
      if (found[k].size == static_cast<int>(Handful::most)) break;
      const int from =
          found[k].size == 0 ? 0 : found[k].items[static_cast<std::size_t>(found[k].size - 1)];
      const int to = cheaper_than(most - found[k].cost);
      for (int at = from; at < to; ++at) {
        if (found.size() >= count) return found;
        Handful more = found[k];
        more.add(at, item(at), residues_);
        found.push_back(more);
      }
    }
    return found;
  }
  bool few(double most, std::size_t count) const {
    const auto items = static_cast<std::size_t>(cheaper_than(most));
    return items * items < count;
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
  std::vector<int> upto_; // items cheaper than so many steps
};

// Numbers of handfuls by their key: open addressing, one of each key.
class Table {
 public:
  explicit Table(std::size_t count) {
    std::size_t size = 16;
    while (size < 2 * count) size *= 2;
    keys_.resize(size);
    numbers_.resize(size, -1);
  }
  void add(Residues::Key key, std::int32_t number) {
    std::size_t at = start(key);
    for (; numbers_[at] >= 0; at = next(at)) {
      if (keys_[at] == key) return;
    }
    keys_[at] = key;
    numbers_[at] = number;
  }
  // -1: none.
  std::int32_t find(Residues::Key key) const {
    for (std::size_t at = start(key); numbers_[at] >= 0; at = next(at)) {
      if (keys_[at] == key) return numbers_[at];
    }
    return -1;
  }

 private:
  std::size_t start(Residues::Key key) const {
    return static_cast<std::size_t>((key * 0x9e3779b97f4a7c15ULL) >> 24) & (numbers_.size() - 1);
  }
  std::size_t next(std::size_t at) const { return (at + 1) & (numbers_.size() - 1); }

  std::vector<Residues::Key> keys_;
  std::vector<std::int32_t> numbers_;
};

class Closing {
 public:
  Closing(Search& search, const Question& question, const OptimalFace& face,
          std::vector<Column> columns, const Scale& scale)
      : search_(search), face_(face), columns_(std::move(columns)) {
    const double gap = static_cast<double>(slack(question.demand, scale, question.cost));
    const double sheet = static_cast<double>(scale.unit_value) *
                         static_cast<double>(search.normal.stocks.front().price);
    slim_ = gap < sheet * 2e-5; // no more than round-off: costs tell nothing
    const double unit = std::max(gap, sheet * 2e-5);
    gap_sheets_ = std::min(1.0, unit / sheet);
    const std::size_t types = search.demand.size();
    const auto take = [&](double cost, const Vector& vector, std::size_t index, From from) {
      const Residues::Key key = face.residues().key(vector);
      // What the face's basis can do itself changes nothing.
      if (key != 0 && cost <= 1) items_.push_back({cost, key, static_cast<int>(index), from});
    };
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      const Column& column = columns_[k];
      const Wide cost = given_away(search, scale, column.stock, value_of(column, scale));
      Vector vector(types, 0);
      for (const auto& [type, copies] : column.counts) {
        vector[static_cast<std::size_t>(type)] = copies;
      }
      take(static_cast<double>(cost) / unit, vector, k, From::List);
    }
    for (std::size_t t = 0; t < types; ++t) {
      const double cost = static_cast<double>(Wide{scale.values[t]} * scale.unit_price);
      take(cost / unit, vector_of(search, -1 - static_cast<int>(t)), t, From::Surplus);
    }
    for (std::size_t k = 0; k < face.loose().size(); ++k) {
      Vector vector = vector_of(search, face.loose()[k]);
      take(0, vector, k, From::More);
      for (std::int64_t& entry : vector) entry = -entry;
      if (face.amounts()[k] > 0) take(0, vector, k, From::Less);
    }
  }

  bool run(std::uint64_t number, const ClosingEffort& effort) {
    const Residues& residues = face_.residues();
    const Residues::Key target = residues.key(face_.rest());
    if (target == 0 && offer({})) return true;
    if (items_.empty()) return false;
    // Among so many residues no two would meet.
    constexpr double hopeless = 0.02;
    if (static_cast<double>(effort.stored) * static_cast<double>(effort.tries) <
        hopeless * residues.order() * gap_sheets_) {
      return false;
    }
    const Drawer drawer(items_, residues, number);
    std::vector<Handful> hands;
    if (!slim_ && drawer.few(0.5, effort.stored)) {
      hands = drawer.all(0.5, effort.stored);
    } else {
      hands.resize(1);
      while (hands.size() < effort.stored) {
        hands.push_back(drawer.draw(hands.size(), 0, slim_ ? 0 : 0.5, 0.5));
      }
    }
    Table table(hands.size());
    for (std::size_t k = 0; k < hands.size(); ++k)
      table.add(hands[k].key, static_cast<std::int32_t>(k));
    search_.budget.spend(std::int64_t{effort.stored} * draw_work);
    int failures = 0;
    for (std::int64_t k = 0; k < effort.tries && failures < most_failures; ++k) {
      if (k % spending == 0) {
        search_.budget.spend(spending * draw_work);
        if (search_.budget.out()) return false;
      }
      const std::uint64_t at = std::uint64_t{effort.stored} + 2 + static_cast<std::uint64_t>(k);
      const Handful hand = drawer.draw(at, slim_ ? 0 : 0.35, slim_ ? 0 : 0.65, 1);
      const std::int32_t other = table.find(residues.difference(target, hand.key));
      if (other < 0) continue;
      const Handful& second = hands[static_cast<std::size_t>(other)];
      if (hand.cost + second.cost > 1 + 1e-6) continue;
      search_.budget.spend(check_work);
      std::vector<Item> items;
      for (const Handful& part : {hand, second}) {
        for (int i = 0; i < part.size; ++i) {
          items.push_back(drawer.item(part.items[static_cast<std::size_t>(i)]));
        }
      }
      if (offer(items)) return true;
      ++failures;
    }
    return false;
  }

 private:
  static constexpr std::int64_t draw_work = 120;
  static constexpr std::int64_t check_work = 20'000;
  static constexpr std::int64_t spending = 4096;
  static constexpr int most_failures = 5'000;

  bool offer(const std::vector<Item>& items) {
    Vector rest = face_.rest();
    Vector amounts(face_.amounts().begin(), face_.amounts().end());
    const auto less = [&](const Counts& counts) {
      for (const auto& [type, copies] : counts) rest[static_cast<std::size_t>(type)] -= copies;
    };
    for (const Item& item : items) {
      const auto index = static_cast<std::size_t>(item.index);
      switch (item.from) {
      case From::List: less(columns_[index].counts); break;
      case From::Surplus: ++rest[index]; break;
      case From::More: ++amounts[index]; break;
      case From::Less: --amounts[index]; break;
      }
    }
    Sheets sheets;
    for (std::size_t k = 0; k < amounts.size(); ++k) {
      if (amounts[k] < 0) return false;
      const Activity activity = face_.loose()[k];
      const std::int64_t change = amounts[k] - face_.amounts()[k];
      if (activity >= 0 && amounts[k] > 0) sheets.emplace_back(activity, amounts[k]);
      if (change == 0) continue;
      const Vector vector = vector_of(search_, activity);
      for (std::size_t t = 0; t < rest.size(); ++t) rest[t] -= change * vector[t];
    }
    const std::optional<Sheets> basis = face_.sheets_for(rest);
    if (!basis) return false;
    sheets.insert(sheets.end(), basis->begin(), basis->end());
    for (const Item& item : items) {
      if (item.from != From::List) continue;
      const Column& column = columns_[static_cast<std::size_t>(item.index)];
      sheets.emplace_back(search_.pool.add(column).first, 1);
    }
    // The amounts come from floating point; what they yield is counted.
    const std::vector<std::int64_t> left = remaining(search_, sheets);
    if (std::any_of(left.begin(), left.end(), [](std::int64_t d) { return d > 0; })) return false;
    return search_.offer(sheets);
  }

  Search& search_;
  const OptimalFace& face_;
  std::vector<Column> columns_;
  bool slim_ = false;
  double gap_sheets_ = 1; // the gap as a share of a sheet: sums within it meet more often
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

// Patterns and surpluses that give away next to nothing: they may join the face.
std::vector<Activity> free_activities(Search& search, const std::vector<Column>& columns,
                                      const Scale& scale, Wide gap) {
  constexpr std::size_t most = 300;
  const double round_off = static_cast<double>(scale.unit_value) * 1e-6 *
                           static_cast<double>(search.normal.stocks.front().price);
  const auto nought = static_cast<Wide>(std::max(round_off, 1e-3 * static_cast<double>(gap)));
  std::vector<Activity> found;
  for (std::size_t t = 0; t < scale.values.size(); ++t) {
    if (scale.values[t] == 0) found.push_back(-1 - static_cast<int>(t));
  }
  for (const Column& column : columns) {
    if (found.size() >= most) break;
    if (given_away(search, scale, column.stock, value_of(column, scale)) > nought) continue;
    found.push_back(search.pool.add(column).first);
  }
  return found;
}

} // namespace

bool close_gap(Search& search, Relaxation& relaxation, std::uint64_t number,
               const ClosingEffort& effort) {
  if (search.best_cost < 0 || search.proven() || out_of_scope(search)) return false;
  const std::vector<std::int64_t> none(search.normal.stocks.size(), 0);
  if (!relaxation.solve(search.demand, none, Aim::Optimum, 100'000)) return false;
  if (search.proven()) return true;
  const std::vector<Activity> vertex = relaxation.basis();
  const std::vector<double> prices = relaxation.prices();
  const Question question{search.demand, search.bound, true};
  Lister lister(search, question, prices, Worthless::LeftOut);
  if (lister.prepare() != Answer::Yes) return search.proven();
  std::vector<Column> columns = listed(search, lister, effort.list);
  const Wide gap = slack(question.demand, lister.scale(), question.cost);
  const std::vector<Activity> others = free_activities(search, columns, lister.scale(), gap);
  // Fewer residues are met sooner, but by larger steps.
  constexpr double most_order = 1e10;
  const std::optional<OptimalFace> face = OptimalFace::of(search, vertex, others, most_order);
  if (!face) return false;
  return Closing(search, question, *face, std::move(columns), lister.scale()).run(number, effort);
}

} // namespace leafwright::cut
