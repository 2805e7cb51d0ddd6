#include "plan/cut/internal/least_handling.h"

#include "plan/cut/internal/finish.h"
#include "plan/cut/internal/rounding.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <span>
#include <utility>

namespace leafwright::cut {

namespace {

constexpr std::int64_t most_pieces = 120;
constexpr int free_tries = 24;
constexpr std::size_t strip_tries = 400; // of one kind

// What a person has to do, less is better. Taking up one more sheet is as much as a setting.
struct Handling {
  std::int64_t settings = 0; // and sheets beyond the fewest
  int cuts = 0;
  double kept = 0; // of a sheet in one piece
  bool operator<(const Handling& other) const {
    if (settings != other.settings) return settings < other.settings;
    if (cuts != other.cuts) return cuts < other.cuts;
    return kept > other.kept;
  }
};

Handling handling_of(const Job& job, const Normal& normal, const std::vector<Batch>& batches,
                     std::int64_t fewest) {
  Plan plan;
  plan.patterns = lay_out(job, normal, batches);
  Handling its;
  std::int64_t sheets = 0;
  Length sheet = 1;
  for (const Pattern& pattern : plan.patterns) {
    its.settings += work_settings(pattern);
    for (const Part& part : pattern.parts) its.cuts += part.kind == PartKind::Cut ? 1 : 0;
    sheet = pattern.parts.front().width * pattern.parts.front().height;
    sheets += pattern.count;
  }
  its.settings += std::max<std::int64_t>(0, sheets - fewest);
  its.kept = static_cast<double>(largest_offcut(plan)) / static_cast<double>(sheet);
  return its;
}

// The best so far.
class Best {
 public:
  Best(const Job& job, const Normal& normal, std::vector<Batch> batches)
      : job_(job), normal_(normal), batches_(std::move(batches)) {
    for (const Batch& batch : batches_) fewest_ += batch.count;
    its_ = handling_of(job_, normal_, batches_, fewest_);
    kept_by_fewest_ = its_.kept;
  }

  void offer(std::vector<Batch> other) {
    Handling its = handling_of(job_, normal_, other, fewest_);
    std::int64_t sheets = 0;
    for (const Batch& batch : other) sheets += batch.count;
    // What stays of a further sheet is no gain.
    if (sheets > fewest_) its.kept = std::min(its.kept, kept_by_fewest_);
    if (!(its < its_)) return;
    its_ = its;
    batches_ = std::move(other);
  }

  std::int64_t fewest() const { return fewest_; } // sheets, of the first
  const std::vector<Batch>& batches() const { return batches_; }
  std::vector<Batch> take() { return std::move(batches_); }

 private:
  const Job& job_;
  const Normal& normal_;
  std::vector<Batch> batches_;
  std::int64_t fewest_ = 0;
  double kept_by_fewest_ = 0;
  Handling its_;
};

std::vector<Batch> batches_of(int stock, std::vector<Slice> slices) {
  std::vector<Batch> batches;
  for (Slice& slice : slices) {
    if (!slice.empty()) batches.push_back({stock, 1, std::move(slice)});
  }
  merge_alike(batches);
  return batches;
}

// Many plans in strips for the same pieces on at most `most` sheets.
void try_strips(const Normal& normal, int stock, std::span<const std::int64_t> demand,
                std::size_t most, std::span<const Strip> kinds, Best& best) {
  Draw draw(kinds.size() == 1 ? 17 : 23);
  const std::size_t tries = kinds.size() == 1 ? strip_tries : strip_tries * 2;
  for (std::size_t k = 0; k < tries; ++k) {
    std::vector<Slice> slices =
        in_strips(normal, stock, demand, most, draw, kinds[k % kinds.size()]);
    if (!slices.empty()) best.offer(batches_of(stock, std::move(slices)));
  }
}

// Each pattern on its own, where not all of them together can be in strips.
std::vector<Batch> strips_by_pattern(const Job& job, const Normal& normal,
                                     const std::vector<Batch>& batches) {
  std::vector<Batch> out = batches;
  for (Batch& batch : out) {
    std::vector<std::int64_t> demand(normal.types.size(), 0);
    for (const auto& [type, copies] : counts_of(batch.slice)) {
      demand[static_cast<std::size_t>(type)] = copies;
    }
    Best one(job, normal, {{batch.stock, 1, batch.slice}});
    try_strips(normal, batch.stock, demand, 1, std::array{Strip::Any}, one);
    if (one.batches().size() == 1) batch.slice = one.batches().front().slice;
  }
  return out;
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
  if (normal.rigid() || pieces > most_pieces || batches.empty()) return batches;
  const int one = batches.front().stock;
  if (std::ranges::any_of(batches, [one](const Batch& batch) { return batch.stock != one; }))
    return batches;
  const StockSize& stock = normal.stocks[static_cast<std::size_t>(one)];
  const Slice* emptiest = &batches.front().slice;
  for (const Batch& batch : batches)
    if (free_strip(stock, batch.slice) > free_strip(stock, *emptiest)) emptiest = &batch.slice;
  Best best(job, normal, batches);
  const auto count = static_cast<std::size_t>(best.fewest());
  const std::vector<int> stocks(count, one);
  const std::vector<SheetSize> sizes = sizes_with_rest(stock, count, *emptiest);
  // What the search has spent does not count here: these steps are few and always the same.
  Budget budget(search.budget.effort());
  for (int k = 1; k <= free_tries && !search.budget.hurried(); ++k) {
    RepackTask task;
    task.demand = search.demand;
    task.stocks = stocks;
    task.sizes = sizes;
    task.number = static_cast<std::uint64_t>(k);
    task.steps = 4000;
    RepackResult result = repack(normal, task, budget);
    search.statistics.moves += result.moves;
    if (!result.slices.empty()) best.offer(batches_of(one, std::move(result.slices)));
  }
  if (search.budget.hurried()) return best.take();
  try_strips(normal, one, search.demand, count, std::array{Strip::Any}, best);
  best.offer(strips_by_pattern(job, normal, best.batches()));
  const std::int64_t pack =
      std::max<std::int64_t>(1, job.sheets[static_cast<std::size_t>(stock.sheet)].pack);
  const std::int64_t bought = (best.fewest() + pack - 1) / pack * pack;
  const std::int64_t had = stock.limit < 0 ? bought : std::min<std::int64_t>(bought, stock.limit);
  const std::int64_t most = std::min(had, pieces);
  if (most > best.fewest())
    try_strips(normal, one, search.demand, static_cast<std::size_t>(most),
               std::array{Strip::OfOnePiece, Strip::Alike, Strip::Any}, best);
  return best.take();
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
      : kind_(kind), upright_(draw.below(2) == 0), neat_(draw.below(2) == 0) {
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
      if (neat_ && stack * size.across != strip.across) return node;
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

  Strip kind_;
  bool upright_;
  bool neat_; // nothing is put into a strip that would have to be trimmed to its height
  int along_ = 0, across_ = 0;
  std::vector<StripPiece> sizes_;
};

} // namespace

std::vector<Slice> in_strips(const Normal& normal, int stock, std::span<const std::int64_t> demand,
                             std::size_t sheets, Draw& draw, Strip kind) {
  return Strips(normal, stock, demand, draw, kind).run(sheets);
}

} // namespace leafwright::cut
