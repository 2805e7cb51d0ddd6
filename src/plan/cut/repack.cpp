#include "plan/cut/repack.h"

#include "plan/cut/elastic.h"
#include "plan/cut/random.h"

#include <algorithm>

namespace leafwright::cut {

namespace {

class Walk {
 public:
  Walk(const Normal& normal, const RepackTask& task, Budget& budget)
      : normal_(normal), task_(task), budget_(budget), draw_(task.number) {
    shapes_.resize(normal.stocks.size());
    for (std::size_t s = 0; s < normal.stocks.size(); ++s) {
      shapes_[s].resize(normal.types.size());
      for (const Shape& shape : normal.shapes[s]) {
        shapes_[s][static_cast<std::size_t>(shape.type)].push_back(shape);
      }
    }
    for (std::size_t k = 0; k < task.stocks.size(); ++k) {
      const Stock& stock = normal.stocks[static_cast<std::size_t>(task.stocks[k])];
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
    Elastic::Place best;
    best.node = -2;
    std::size_t at = 0;
    const Shape* with = nullptr;
    const auto look = [&] { return (draw_.next() & 63) != 0; };
    for (std::size_t k = 0; k < sheets_.size(); ++k) {
      const auto stock = static_cast<std::size_t>(task_.stocks[k]);
      const Elastic& sheet = sheets_[k];
      if (sheet.filled() + area(type) > std::int64_t{sheet.width()} * sheet.height()) continue;
      for (const Shape& shape : shapes_[stock][static_cast<std::size_t>(type)]) {
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
  std::vector<std::vector<std::vector<Shape>>> shapes_; ///< per stock, per type
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
