#include "plan/cut/internal/least_handling.h"

#include "plan/cut/internal/finish.h"
#include "plan/cut/internal/rounding.h"

#include <algorithm>
#include <numeric>
#include <span>
#include <utility>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_pieces = 120;
constexpr int free_tries = 24;
constexpr int strip_tries = 400;

// Sheets beyond the fewest, of a pack that is opened anyway.
struct Spare {
  std::int64_t fewest = 0;
  double kept = 0; // of a sheet in one piece by the plan with the fewest
};

// What a person has to do, less is better: a setting of the fence is as much trouble as three cuts,
// and keeping a tenth of a sheet more in one piece is worth one setting. Among equals fewer cuts.
// A sheet beyond the fewest is as much as a setting, and what stays of it in one piece is no gain.
std::pair<std::int64_t, int> handling_cost(const Job& job, const Normal& normal,
                                           const std::vector<Batch>& batches,
                                           const Spare* spare = nullptr) {
  Plan plan;
  plan.patterns = lay_out(job, normal, batches);
  int settings = 0;
  std::int64_t more = 0;
  int cuts = 0;
  Length sheet = 1;
  for (const Pattern& pattern : plan.patterns) {
    settings += fence_settings(pattern);
    for (const Part& part : pattern.parts) cuts += part.kind == PartKind::Cut ? 1 : 0;
    sheet = pattern.parts.front().width * pattern.parts.front().height;
    more += pattern.count;
  }
  double kept = static_cast<double>(largest_offcut(plan)) / static_cast<double>(sheet);
  more = spare ? std::max<std::int64_t>(0, more - spare->fewest) : 0;
  if (more > 0) kept = std::min(kept, spare->kept);
  return {3 * (settings + more) + cuts - static_cast<std::int64_t>(30 * kept), cuts};
}

std::vector<Batch> batches_of(int stock, std::vector<Slice> slices) {
  std::vector<Batch> batches;
  for (Slice& slice : slices) {
    if (!slice.empty()) batches.push_back({stock, 1, std::move(slice)});
  }
  merge_alike(batches);
  return batches;
}

// The best of the plan and of many in strips for the same pieces on as few sheets.
void try_strips(const Job& job, const Normal& normal, std::span<const std::int64_t> demand,
                std::size_t sheets, std::vector<Batch>& best) {
  auto least = handling_cost(job, normal, best);
  const int stock = best.front().stock;
  Draw draw(17);
  for (int k = 0; k < strip_tries; ++k) {
    std::vector<Slice> slices = in_strips(normal, stock, demand, sheets, draw);
    if (slices.empty()) continue;
    std::vector<Batch> other = batches_of(stock, std::move(slices));
    const auto its = handling_cost(job, normal, other);
    if (its >= least) continue;
    least = its;
    best = std::move(other);
  }
}

// Plans on more sheets, up to `most`, each sheet with strips of one width.
void try_more_sheets(const Job& job, const Normal& normal, std::span<const std::int64_t> demand,
                     std::size_t most, std::vector<Batch>& best) {
  Plan plan;
  plan.patterns = lay_out(job, normal, best);
  const Part& sheet = plan.patterns.front().parts.front();
  Spare spare;
  for (const Batch& batch : best) spare.fewest += batch.count;
  if (static_cast<std::int64_t>(most) <= spare.fewest) return;
  spare.kept =
      static_cast<double>(largest_offcut(plan)) / static_cast<double>(sheet.width * sheet.height);
  auto least = handling_cost(job, normal, best, &spare);
  const int stock = best.front().stock;
  Draw draw(23);
  for (int k = 0; k < strip_tries; ++k) {
    std::vector<Slice> slices =
        in_strips(normal, stock, demand, most, draw, k % 2 == 0 ? Strip::OfOnePiece : Strip::Alike);
    if (slices.empty()) continue;
    std::vector<Batch> other = batches_of(stock, std::move(slices));
    const auto its = handling_cost(job, normal, other, &spare);
    if (its >= least) continue;
    least = its;
    best = std::move(other);
  }
}

// Each pattern on its own, where not all of them together can be in strips.
void strips_by_pattern(const Job& job, const Normal& normal, std::vector<Batch>& batches) {
  for (Batch& batch : batches) {
    std::vector<std::int64_t> demand(normal.types.size(), 0);
    for (const auto& [type, copies] : counts_of(batch.slice)) {
      demand[static_cast<std::size_t>(type)] = copies;
    }
    std::vector<Batch> one = {{batch.stock, 1, batch.slice}};
    try_strips(job, normal, demand, 1, one);
    if (one.size() == 1) batch.slice = std::move(one.front().slice);
  }
}

// The sheets, the last cut short so that at least the strip the plan leaves now stays free.
std::vector<SheetSize> sizes_with_rest(const StockSize& stock, std::size_t count,
                                       const Slice& emptiest) {
  std::vector<SheetSize> sizes(count, {stock.width, stock.height});
  const SliceNode& root = emptiest.nodes.back();
  const std::int64_t beside = std::int64_t{stock.width - root.width} * stock.height;
  const std::int64_t above = std::int64_t{stock.height - root.height} * stock.width;
  if (beside >= above) {
    sizes.back().width = root.width;
  } else {
    sizes.back().height = root.height;
  }
  return sizes;
}

} // namespace

std::vector<Batch> least_handling(const Job& job, Search& search, std::vector<Batch> batches) {
  const Normal& normal = search.normal;
  const std::int64_t pieces =
      std::accumulate(search.demand.begin(), search.demand.end(), std::int64_t{0});
  if (normal.stocks.size() != 1 || normal.rigid() || pieces > most_pieces || batches.empty()) {
    return batches;
  }
  const StockSize& stock = normal.stocks.front();
  std::int64_t sheets = 0;
  const Slice* emptiest = &batches.front().slice;
  for (const Batch& batch : batches) {
    sheets += batch.count;
    if (free_strip(stock, batch.slice) > free_strip(stock, *emptiest)) emptiest = &batch.slice;
  }
  const auto count = static_cast<std::size_t>(sheets);
  const std::vector<int> stocks(count, 0);
  const std::vector<SheetSize> sizes = sizes_with_rest(stock, count, *emptiest);
  // What the search has spent does not count here: these steps are few and always the same.
  Budget budget(search.budget.effort());
  auto least = handling_cost(job, normal, batches);
  std::vector<Batch> best = batches;
  for (int k = 1; k <= free_tries && !search.budget.hurried(); ++k) {
    RepackTask task;
    task.demand = search.demand;
    task.stocks = stocks;
    task.sizes = sizes;
    task.number = static_cast<std::uint64_t>(k);
    task.steps = 4000;
    RepackResult result = repack(normal, task, budget);
    search.statistics.moves += result.moves;
    if (result.slices.empty()) continue;
    std::vector<Batch> other = batches_of(0, std::move(result.slices));
    const auto its = handling_cost(job, normal, other);
    if (its >= least) continue;
    least = its;
    best = std::move(other);
  }
  if (search.budget.hurried()) return best;
  try_strips(job, normal, search.demand, count, best);
  strips_by_pattern(job, normal, best);
  const std::int64_t pack =
      std::max<std::int64_t>(1, job.sheets[static_cast<std::size_t>(stock.sheet)].pack);
  const std::int64_t bought = (sheets + pack - 1) / pack * pack;
  const std::int64_t had = stock.limit < 0 ? bought : std::min<std::int64_t>(bought, stock.limit);
  try_more_sheets(job, normal, search.demand, static_cast<std::size_t>(std::min(had, pieces)),
                  best);
  return best;
}

namespace {

// One size as it is to lie: along the strip and across it.
struct StripPiece {
  OrientedType shape;
  int along = 0, across = 0;
  std::int64_t left = 0;
  double rank = 0;
};

struct FilledStrip {
  Slice slice;
  int across = 0;
};

class Strips {
 public:
  Strips(const Normal& normal, int stock, std::span<const std::int64_t> demand, Draw& draw,
         Strip kind)
      : draw_(draw), kind_(kind), upright_(draw.below(2) == 0) {
    const StockSize& s = normal.stocks[static_cast<std::size_t>(stock)];
    along_ = upright_ ? s.height : s.width;
    across_ = upright_ ? s.width : s.height;
    const double unrest = 0.15 * draw.below(4);
    std::vector<std::vector<StripPiece>> ways(demand.size());
    for (const OrientedType& shape : normal.shapes[static_cast<std::size_t>(stock)]) {
      const auto type = static_cast<std::size_t>(shape.type);
      if (demand[type] <= 0) continue;
      StripPiece way;
      way.shape = shape;
      way.along = upright_ ? shape.height : shape.width;
      way.across = upright_ ? shape.width : shape.height;
      way.left = demand[type];
      ways[type].push_back(way);
    }
    for (std::vector<StripPiece>& of_type : ways) {
      if (of_type.empty()) continue;
      StripPiece way =
          of_type[static_cast<std::size_t>(draw.below(static_cast<int>(of_type.size())))];
      way.rank = -way.across * (1 + unrest * (draw.unit() - 0.5));
      sizes_.push_back(way);
    }
    std::stable_sort(sizes_.begin(), sizes_.end(),
                     [](const StripPiece& a, const StripPiece& b) { return a.rank < b.rank; });
  }

  std::vector<Slice> run(std::size_t sheets) {
    std::vector<FilledStrip> strips;
    for (StripPiece& size : sizes_) {
      while (size.left > 0) strips.push_back(strip_of(size));
    }
    std::stable_sort(strips.begin(), strips.end(), [](const FilledStrip& a, const FilledStrip& b) {
      return a.across > b.across;
    });
    std::vector<std::vector<const FilledStrip*>> packed;
    std::vector<int> used;
    for (const FilledStrip& strip : strips) {
      std::size_t k = 0;
      while (k < used.size() && (used[k] + strip.across > across_ ||
                                 (kind_ != Strip::Any && packed[k][0]->across != strip.across)))
        ++k;
      if (k == used.size()) {
        if (k == sheets) return {};
        packed.emplace_back();
        used.push_back(0);
      }
      packed[k].push_back(&strip);
      used[k] += strip.across;
    }
    std::vector<Slice> result;
    for (const auto& sheet : packed) result.push_back(stacked(sheet));
    return result;
  }

 private:
  Join row() const { return upright_ ? Join::Above : Join::Beside; }
  Join column() const { return upright_ ? Join::Beside : Join::Above; }

  // `stack` pieces across the strip, `times` such stacks along it.
  int block(Slice& slice, StripPiece& size, std::int64_t stack, std::int64_t times) const {
    int node = -1;
    for (std::int64_t k = 0; k < times && size.left > 0; ++k) {
      int one = -1;
      for (std::int64_t c = 0; c < stack && size.left > 0; ++c, --size.left) {
        one = slice.join(column(), one, slice.leaf(size.shape));
      }
      node = slice.join(row(), node, one);
    }
    return node;
  }

  FilledStrip strip_of(StripPiece& first) {
    FilledStrip strip;
    strip.across = first.across;
    int left = along_;
    const auto fill = [&](StripPiece& size, int node) {
      const std::int64_t stack = strip.across / size.across;
      if (stack < 1) return node; // wider than the strip
      const std::int64_t times =
          std::min<std::int64_t>(left / size.along, (size.left + stack - 1) / stack);
      if (times < 1) return node;
      left -= static_cast<int>(times) * size.along;
      const int more = block(strip.slice, size, stack, times);
      return strip.slice.join(row(), node, more);
    };
    int node = fill(first, -1);
    if (kind_ == Strip::OfOnePiece) return strip;
    for (const bool same : {true, false}) {
      for (StripPiece& size : sizes_) {
        if (size.left > 0 && (size.across == strip.across) == same) node = fill(size, node);
      }
    }
    return strip;
  }

  Slice stacked(const std::vector<const FilledStrip*>& strips) const {
    Slice result;
    int node = -1;
    for (const FilledStrip* strip : strips) {
      const auto offset = static_cast<int>(result.nodes.size());
      for (SliceNode copy : strip->slice.nodes) {
        if (copy.a >= 0) copy.a += offset;
        if (copy.b >= 0) copy.b += offset;
        result.nodes.push_back(copy);
      }
      node = result.join(column(), node, result.root());
    }
    return result;
  }

  Draw& draw_;
  Strip kind_;
  bool upright_;
  int along_ = 0, across_ = 0;
  std::vector<StripPiece> sizes_;
};

} // namespace

std::vector<Slice> in_strips(const Normal& normal, int stock, std::span<const std::int64_t> demand,
                             std::size_t sheets, Draw& draw, Strip kind) {
  return Strips(normal, stock, demand, draw, kind).run(sheets);
}

} // namespace leafwright::cut
