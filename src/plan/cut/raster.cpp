#include "plan/cut/raster.h"

#include <algorithm>

namespace leafwright::cut {

namespace {

struct Sizes {
  int first = 0;
  int second = 0; ///< 0: none
  std::int64_t copies = 0;
};

// The sizes one type can show along the axis.
std::vector<Sizes> sizes_along(Axis axis, std::span<const Shape> shapes,
                               std::span<const std::int64_t> wanted, std::span<const char> used) {
  std::vector<Sizes> sizes;
  int last_type = -1;
  for (const Shape& shape : shapes) {
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

} // namespace

namespace {

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

Raster raster_points(int extent, Axis axis, std::span<const Shape> shapes,
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

} // namespace leafwright::cut
