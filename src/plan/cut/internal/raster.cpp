#include "plan/cut/internal/raster.h"

#include <algorithm>
#include <utility>

namespace leafwright::cut {

namespace {

struct Sizes {
  int first = 0;
  int second = 0; // 0: none
  std::int64_t copies = 0;
};

// The sizes one type can show along the axis.
std::vector<Sizes> sizes_along(Axis axis, std::span<const OrientedType> shapes,
                               std::span<const std::int64_t> wanted, std::span<const char> used) {
  std::vector<Sizes> sizes;
  int last_type = -1;
  for (const OrientedType& shape : shapes) {
    const auto type = static_cast<std::size_t>(shape.type);
    if (used[type] == 0 || wanted[type] <= 0) continue;
    const int size = axis == Axis::X ? shape.width : shape.height;
    if (shape.type == last_type) {
      if (size != sizes.back().first) sizes.back().second = size;
    } else {
      sizes.push_back({size, 0, wanted[type]});
      last_type = shape.type;
    }
  }
  return sizes;
}

std::vector<char> reachable(int extent, const std::vector<Sizes>& sizes) {
  const auto n = static_cast<std::size_t>(extent) + 1;
  std::vector<char> reach(n, 0);
  std::vector<int> count(n, 0);
  reach[0] = 1;
  for (const Sizes& s : sizes) {
    const int limit = static_cast<int>(std::min<std::int64_t>(s.copies, extent));
    for (int v = 0; v <= extent; ++v) {
      const auto at = static_cast<std::size_t>(v);
      if (reach[at] != 0) {
        count[at] = 0;
        continue;
      }
      int best = limit + 1;
      const auto from = [&](int size) {
        if (size <= 0 || size > v) return;
        const auto before = static_cast<std::size_t>(v - size);
        if (reach[before] != 0) best = std::min(best, count[before] + 1);
      };
      from(s.first);
      from(s.second);
      if (best <= limit) {
        reach[at] = 1;
        count[at] = best;
      }
    }
  }
  return reach;
}

void thin(std::vector<int>& points, int most, const std::vector<Sizes>& sizes, int extent) {
  std::vector<char> keep(static_cast<std::size_t>(extent) + 1, 0);
  keep[0] = 1;
  keep[static_cast<std::size_t>(points.back())] = 1;
  const auto below = [&](int v) {
    return *(std::upper_bound(points.begin(), points.end(), v) - 1);
  };
  for (const Sizes& s : sizes) {
    // The reduced point that stands for the size is the first one not below it.
    for (int size : {s.first, s.second}) {
      const auto at = std::lower_bound(points.begin(), points.end(), size);
      if (size > 0 && at != points.end()) keep[static_cast<std::size_t>(*at)] = 1;
      if (size > 0 && size <= extent) keep[static_cast<std::size_t>(below(extent - size))] = 1;
    }
  }
  const auto kept = static_cast<int>(std::count(keep.begin(), keep.end(), 1));
  const int more = std::max(0, most - kept);
  for (int k = 0; k < more; ++k) {
    const auto at = static_cast<std::size_t>(k) * points.size() / static_cast<std::size_t>(more);
    keep[static_cast<std::size_t>(points[at])] = 1;
  }
  std::erase_if(points, [&](int p) { return keep[static_cast<std::size_t>(p)] == 0; });
}

std::vector<int> listed(const std::vector<char>& keep) {
  std::vector<int> points;
  for (std::size_t v = 0; v < keep.size(); ++v) {
    if (keep[v] != 0) points.push_back(static_cast<int>(v));
  }
  return points;
}

// Of sums closed under addition, those that stay distinct seen from the far edge.
std::vector<int> reduced(int extent, const std::vector<char>& reach) {
  std::vector<int> below(static_cast<std::size_t>(extent) + 1, 0);
  for (int v = 1; v <= extent; ++v) {
    const auto at = static_cast<std::size_t>(v);
    below[at] = reach[at] != 0 ? v : below[at - 1];
  }
  std::vector<char> keep(static_cast<std::size_t>(extent) + 1, 0);
  keep[0] = 1;
  for (int v = 0; v <= extent; ++v) {
    if (reach[static_cast<std::size_t>(v)] != 0) {
      keep[static_cast<std::size_t>(below[static_cast<std::size_t>(extent - v)])] = 1;
    }
  }
  return listed(keep);
}

} // namespace

Raster raster_points(int extent, Axis axis, std::span<const OrientedType> shapes,
                     std::span<const std::int64_t> wanted, std::span<const char> used,
                     int most_points) {
  std::vector<Sizes> sizes = sizes_along(axis, shapes, wanted, used);
  Raster raster;
  raster.points = listed(reachable(extent, sizes));
  std::vector<Sizes> unlimited = sizes;
  for (Sizes& s : unlimited) s.copies = extent;
  std::vector<int> fewer = reduced(extent, reachable(extent, unlimited));
  if (fewer.size() <= raster.points.size()) raster.points = std::move(fewer);
  if (most_points > 0 && static_cast<int>(raster.points.size()) > most_points) {
    thin(raster.points, most_points, sizes, extent);
    raster.thinned = true;
  }
  raster.below.assign(static_cast<std::size_t>(extent) + 1, 0);
  int index = 0;
  for (int v = 0; v <= extent; ++v) {
    while (static_cast<std::size_t>(index) + 1 < raster.points.size() &&
           raster.points[static_cast<std::size_t>(index) + 1] <= v) {
      ++index;
    }
    raster.below[static_cast<std::size_t>(v)] = index;
  }
  return raster;
}

namespace {

using Lanes = std::int32_t __attribute__((vector_size(32)));
using LooseLanes = std::int32_t __attribute__((vector_size(32), aligned(4), may_alias));

// References, not values: a vector by value would depend on the processor the caller was built for.
inline __attribute__((always_inline)) const LooseLanes& lanes_at(const std::int32_t* from) {
  return *reinterpret_cast<const LooseLanes*>(from);
}

inline __attribute__((always_inline)) LooseLanes& lanes_at(std::int32_t* to) {
  return *reinterpret_cast<LooseLanes*>(to);
}

template <std::size_t N>
inline __attribute__((always_inline)) void row_chunk(std::int32_t* out, const std::int32_t* lefts,
                                                     const std::int32_t* rights, std::size_t stride,
                                                     const RowPair* pair, const RowPair* end) {
  Lanes best[N];
  for (std::size_t k = 0; k < N; ++k) best[k] = lanes_at(out + k * lane_count);
  for (; pair != end; ++pair) {
    const std::int32_t* a = lefts + pair->left * stride;
    const std::int32_t* b = rights + pair->right * stride;
    for (std::size_t k = 0; k < N; ++k) {
      const Lanes sum = lanes_at(a + k * lane_count) + lanes_at(b + k * lane_count);
      best[k] = sum > best[k] ? sum : best[k];
    }
  }
  for (std::size_t k = 0; k < N; ++k) lanes_at(out + k * lane_count) = best[k];
}

template <std::size_t N>
inline __attribute__((always_inline)) void block_sweep(std::int32_t* block, const int* points,
                                                       std::size_t count, const int* below) {
  constexpr std::size_t lanes = N * lane_count;
  for (std::size_t j = 1; j < count; ++j) {
    std::int32_t* row = block + j * lanes;
    Lanes best[N];
    for (std::size_t k = 0; k < N; ++k) best[k] = lanes_at(row + k * lane_count);
    for (std::size_t y = 1; 2 * points[y] <= points[j]; ++y) {
      const std::int32_t* a = block + y * lanes;
      const std::int32_t* b =
          block + static_cast<std::size_t>(below[points[j] - points[y]]) * lanes;
      for (std::size_t k = 0; k < N; ++k) {
        const Lanes sum = lanes_at(a + k * lane_count) + lanes_at(b + k * lane_count);
        best[k] = sum > best[k] ? sum : best[k];
      }
    }
    for (std::size_t k = 0; k < N; ++k) {
      const Lanes before = lanes_at(row - lanes + k * lane_count);
      best[k] = before > best[k] ? before : best[k];
      lanes_at(row + k * lane_count) = best[k];
    }
    std::int32_t most = row[0];
    for (std::size_t k = 1; k < lanes; ++k) {
      most = std::max(most, row[k]);
      row[k] = most;
    }
  }
}

template <std::size_t N>
inline __attribute__((always_inline)) void
block_sweep_back(std::int32_t* block, const std::int32_t* inner, const int* points,
                 std::size_t count, const int* below) {
  constexpr std::size_t lanes = N * lane_count;
  for (std::size_t j = count; j-- > 1;) {
    std::int32_t* row = block + j * lanes;
    Lanes best[N];
    for (std::size_t k = 0; k < N; ++k) best[k] = lanes_at(row + k * lane_count);
    for (std::size_t y = count - 1; y > j; --y) {
      const int rest = below[points[y] - points[j]];
      if (rest == 0 && y > j + 1) continue;
      const std::int32_t* a = block + y * lanes;
      const std::int32_t* b = inner + static_cast<std::size_t>(rest) * lanes;
      for (std::size_t k = 0; k < N; ++k) {
        const Lanes sum = lanes_at(a + k * lane_count) + lanes_at(b + k * lane_count);
        best[k] = sum > best[k] ? sum : best[k];
      }
    }
    for (std::size_t k = 0; k < N; ++k) lanes_at(row + k * lane_count) = best[k];
    std::int32_t most = row[lanes - 1];
    for (std::size_t k = lanes - 1; k-- > 0;) {
      most = std::max(most, row[k]);
      row[k] = most;
    }
  }
}

} // namespace

// One build for any x86-64 processor and one for those with 256-bit integers, chosen when started.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__SANITIZE_ADDRESS__)
#define LEAFWRIGHT_CLONES __attribute__((target_clones("avx2", "default")))
#else
#define LEAFWRIGHT_CLONES
#endif

LEAFWRIGHT_CLONES
void sweep_rows(std::int32_t* out, const std::int32_t* lefts, const std::int32_t* rights,
                std::size_t stride, std::span<const RowPair> pairs, std::size_t length) {
  const RowPair* first = pairs.data();
  const RowPair* last = first + pairs.size();
  std::size_t j = 0;
  for (; j + 8 * lane_count <= length; j += 8 * lane_count) {
    row_chunk<8>(out + j, lefts + j, rights + j, stride, first, last);
  }
  for (; j + 4 * lane_count <= length; j += 4 * lane_count) {
    row_chunk<4>(out + j, lefts + j, rights + j, stride, first, last);
  }
  for (; j < length; j += lane_count) {
    row_chunk<1>(out + j, lefts + j, rights + j, stride, first, last);
  }
}

LEAFWRIGHT_CLONES
void sweep_block(std::int32_t* block, std::size_t lanes, std::span<const int> points,
                 std::span<const int> below) {
  switch (lanes / lane_count) {
  case 1: block_sweep<1>(block, points.data(), points.size(), below.data()); break;
  case 2: block_sweep<2>(block, points.data(), points.size(), below.data()); break;
  case 3: block_sweep<3>(block, points.data(), points.size(), below.data()); break;
  case 4: block_sweep<4>(block, points.data(), points.size(), below.data()); break;
  case 5: block_sweep<5>(block, points.data(), points.size(), below.data()); break;
  case 6: block_sweep<6>(block, points.data(), points.size(), below.data()); break;
  case 7: block_sweep<7>(block, points.data(), points.size(), below.data()); break;
  default: block_sweep<8>(block, points.data(), points.size(), below.data()); break;
  }
}

LEAFWRIGHT_CLONES
void sweep_block_back(std::int32_t* block, const std::int32_t* inner, std::size_t lanes,
                      std::span<const int> points, std::span<const int> below) {
  const int* at = points.data();
  switch (lanes / lane_count) {
  case 1: block_sweep_back<1>(block, inner, at, points.size(), below.data()); break;
  case 2: block_sweep_back<2>(block, inner, at, points.size(), below.data()); break;
  case 3: block_sweep_back<3>(block, inner, at, points.size(), below.data()); break;
  case 4: block_sweep_back<4>(block, inner, at, points.size(), below.data()); break;
  case 5: block_sweep_back<5>(block, inner, at, points.size(), below.data()); break;
  case 6: block_sweep_back<6>(block, inner, at, points.size(), below.data()); break;
  case 7: block_sweep_back<7>(block, inner, at, points.size(), below.data()); break;
  default: block_sweep_back<8>(block, inner, at, points.size(), below.data()); break;
  }
}

} // namespace leafwright::cut
