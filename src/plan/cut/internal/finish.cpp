#include "plan/cut/internal/finish.h"

#include "plan/cut/internal/rounding.h"

#include <algorithm>
#include <map>

namespace leafwright::cut {

namespace {

int copies_of(const Slice& slice, int type) {
  int copies = 0;
  for (const SliceNode& node : slice.nodes) {
    if (node.join == Join::Leaf && node.type == type) ++copies;
  }
  return copies;
}

Slice less(const Search& search, const Slice& slice, int type, int removed) {
  std::vector<std::int64_t> most(search.demand.size(), 0);
  for (const auto& [t, copies] : counts_of(slice)) most[static_cast<std::size_t>(t)] = copies;
  most[static_cast<std::size_t>(type)] -= removed;
  return capped(slice, most, search.normal.rigid());
}

// From the smallest batch first, so that what becomes free comes together on few sheets.
void remove_surplus(const Search& search, std::vector<Batch>& batches, int type,
                    std::int64_t surplus) {
  while (surplus > 0) {
    int smallest = -1;
    for (std::size_t k = 0; k < batches.size(); ++k) {
      if (batches[k].count <= 0 || copies_of(batches[k].slice, type) == 0) continue;
      if (smallest < 0 || batches[k].count < batches[static_cast<std::size_t>(smallest)].count) {
        smallest = static_cast<int>(k);
      }
    }
    if (smallest < 0) return;
    auto at = static_cast<std::size_t>(smallest);
    if (batches[at].count > surplus) {
      Batch split = batches[at];
      split.count = 1;
      --batches[at].count;
      batches.push_back(std::move(split));
      at = batches.size() - 1;
    }
    Batch& batch = batches[at];
    const std::int64_t removed =
        std::min<std::int64_t>(copies_of(batch.slice, type), surplus / batch.count);
    batch.slice = less(search, batch.slice, type, static_cast<int>(removed));
    surplus -= removed * batch.count;
  }
}

} // namespace

void merge_alike(std::vector<Batch>& batches) {
  std::map<std::pair<int, Counts>, std::size_t> seen;
  std::vector<Batch> merged;
  for (Batch& batch : batches) {
    Counts counts = counts_of(batch.slice);
    if (counts.empty() || batch.count <= 0) continue;
    const auto [at, fresh] = seen.try_emplace({batch.stock, std::move(counts)}, merged.size());
    if (fresh) {
      merged.push_back(std::move(batch));
    } else {
      merged[at->second].count += batch.count;
    }
  }
  batches = std::move(merged);
}

std::vector<Batch> without_surplus(const Search& search, const Sheets& sheets) {
  std::vector<Batch> batches;
  for (const auto& [index, count] : sheets) {
    const Column& column = search.pool[index];
    batches.push_back({column.stock, count, column.slice});
  }
  merge_alike(batches);
  const std::vector<std::int64_t> left = remaining(search, sheets);
  for (std::size_t t = 0; t < left.size(); ++t) {
    if (left[t] < 0) remove_surplus(search, batches, static_cast<int>(t), -left[t]);
  }
  merge_alike(batches);
  return batches;
}

namespace {

void chain(const Slice& slice, int index, Join join, std::vector<int>& members) {
  const SliceNode& node = slice.nodes[static_cast<std::size_t>(index)];
  if (node.join == join) {
    chain(slice, node.a, join, members);
    chain(slice, node.b, join, members);
  } else {
    members.push_back(index);
  }
}

int copy_in_order(const Slice& from, int index, Slice& to) {
  const SliceNode& node = from.nodes[static_cast<std::size_t>(index)];
  if (node.join == Join::Leaf) {
    return to.leaf({node.width, node.height, node.type, node.turned});
  }
  std::vector<int> members;
  chain(from, index, node.join, members);
  const bool beside = node.join == Join::Beside;
  const auto along = [&](int k) {
    const SliceNode& n = from.nodes[static_cast<std::size_t>(k)];
    return beside ? n.width : n.height;
  };
  const auto across = [&](int k) {
    const SliceNode& n = from.nodes[static_cast<std::size_t>(k)];
    return beside ? n.height : n.width;
  };
  std::stable_sort(members.begin(), members.end(), [&](int a, int b) {
    return across(a) != across(b) ? across(a) > across(b) : along(a) > along(b);
  });
  int joined = -1;
  for (auto at = members.rbegin(); at != members.rend(); ++at) {
    joined = to.join(node.join, copy_in_order(from, *at, to), joined);
  }
  return joined;
}

} // namespace

Slice in_order(const Slice& slice) {
  Slice result;
  if (!slice.empty()) copy_in_order(slice, slice.root(), result);
  return result;
}

std::int64_t free_strip(const StockSize& stock, const Slice& slice) {
  const std::int64_t w = stock.width;
  const std::int64_t h = stock.height;
  if (slice.empty()) return w * h;
  const SliceNode& root = slice.nodes.back();
  return std::max((w - root.width) * h, w * (h - root.height));
}

namespace {

struct Chosen {
  std::vector<std::size_t> batches; // one sheet of each, with repetition
  std::vector<int> stocks;
  std::vector<Slice> slices;
  std::vector<std::int64_t> demand;
};

// The sheet with the largest free strip last, before it the others with most free area.
Chosen choose(const Search& search, const std::vector<Batch>& batches, std::size_t most_sheets,
              std::int64_t most_pieces) {
  struct Candidate {
    std::int64_t free;
    std::size_t batch;
  };
  std::vector<Candidate> candidates;
  for (std::size_t k = 0; k < batches.size(); ++k) {
    const StockSize& stock = search.normal.stocks[static_cast<std::size_t>(batches[k].stock)];
    std::int64_t free = std::int64_t{stock.width} * stock.height;
    for (const SliceNode& node : batches[k].slice.nodes) {
      if (node.join == Join::Leaf) free -= std::int64_t{node.width} * node.height;
    }
    const auto times =
        std::min<std::int64_t>(batches[k].count, static_cast<std::int64_t>(most_sheets));
    for (std::int64_t c = 0; c < times; ++c) candidates.push_back({free, k});
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.free > b.free; });
  Chosen chosen;
  chosen.demand.assign(search.demand.size(), 0);
  std::int64_t pieces = 0;
  for (const Candidate& candidate : candidates) {
    if (chosen.batches.size() >= most_sheets) break;
    const Batch& batch = batches[candidate.batch];
    const Counts counts = counts_of(batch.slice);
    std::int64_t more = 0;
    for (const auto& [type, copies] : counts) more += copies;
    if (pieces + more > most_pieces) break;
    pieces += more;
    for (const auto& [type, copies] : counts) {
      chosen.demand[static_cast<std::size_t>(type)] += copies;
    }
    chosen.batches.push_back(candidate.batch);
    chosen.stocks.push_back(batch.stock);
    chosen.slices.push_back(batch.slice);
  }
  // The emptiest is the one to keep a large rest on.
  std::reverse(chosen.batches.begin(), chosen.batches.end());
  std::reverse(chosen.stocks.begin(), chosen.stocks.end());
  std::reverse(chosen.slices.begin(), chosen.slices.end());
  return chosen;
}

} // namespace

void enlarge_offcut(Search& search, std::vector<Batch>& batches, std::int64_t steps) {
  if (search.normal.rigid() || batches.empty()) return;
  const Chosen chosen = choose(search, batches, 6, 150);
  if (chosen.batches.empty()) return;
  std::vector<SheetSize> sizes;
  std::int64_t free = 0;
  for (std::size_t k = 0; k < chosen.stocks.size(); ++k) {
    const StockSize& stock = search.normal.stocks[static_cast<std::size_t>(chosen.stocks[k])];
    sizes.push_back({stock.width, stock.height});
    free += std::int64_t{stock.width} * stock.height;
  }
  for (std::size_t t = 0; t < chosen.demand.size(); ++t) {
    free -= chosen.demand[t] * search.normal.types[t].width * search.normal.types[t].height;
  }
  const StockSize& last = search.normal.stocks[static_cast<std::size_t>(chosen.stocks.back())];
  std::int64_t best = free_strip(last, chosen.slices.back());
  std::vector<Slice> improved;
  for (const bool upright : {false, true}) {
    const int across = upright ? last.height : last.width;
    const int along = upright ? last.width : last.height;
    int low = static_cast<int>(best / across);
    int high = static_cast<int>(std::min<std::int64_t>(free / across, along));
    for (int tries = 0; tries < 6 && low < high && !search.budget.out(); ++tries) {
      const int strip = tries == 0 ? std::min(high, low + std::max(1, (high - low) / 4))
                                   : low + (high - low + 1) / 2;
      sizes.back() = upright ? SheetSize{last.width - strip, last.height}
                             : SheetSize{last.width, last.height - strip};
      RepackTask task;
      task.demand = chosen.demand;
      task.stocks = chosen.stocks;
      task.sizes = sizes;
      task.number = static_cast<std::uint64_t>(tries) + 1;
      task.steps = steps;
      RepackResult result = repack(search.normal, task, search.budget);
      search.statistics.moves += result.moves;
      if (result.slices.empty()) {
        high = strip - 1;
        continue;
      }
      const std::int64_t reached = free_strip(last, result.slices.back());
      low = std::max(strip, static_cast<int>(reached / across));
      if (reached > best) {
        best = reached;
        improved = std::move(result.slices);
      }
    }
  }
  if (improved.empty()) return;
  for (std::size_t k = 0; k < improved.size(); ++k) {
    --batches[chosen.batches[k]].count;
    batches.push_back({chosen.stocks[k], 1, std::move(improved[k])});
  }
  merge_alike(batches);
}

} // namespace leafwright::cut
