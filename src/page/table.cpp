#include "page/table.h"

#include <algorithm>
#include <numeric>

namespace leafwright::page {

namespace {

// Lines of a row are those of its tallest cell; about one word in six of a line is lost to the rag.
std::int64_t estimated_lines(std::span<const ColumnNeed> needs, const std::vector<Length>& widths) {
  std::size_t rows = 0;
  for (const ColumnNeed& need : needs) rows = std::max(rows, need.cells.size());
  std::int64_t total = 0;
  for (std::size_t row = 0; row < rows; ++row) {
    std::int64_t tallest = 1;
    for (std::size_t c = 0; c < needs.size(); ++c) {
      if (row >= needs[c].cells.size() || widths[c].nm <= 0) continue;
      const Length cell = needs[c].cells[row];
      if (cell <= widths[c]) continue;
      tallest = std::max(tallest, (cell.nm * 110 / 100 + widths[c].nm - 1) / widths[c].nm);
    }
    total += tallest;
  }
  return total;
}

} // namespace

ColumnWidths column_widths(std::span<const ColumnNeed> needs, Length room) {
  ColumnWidths result;
  if (needs.empty()) return result;
  Length narrowest{};
  Length widest{};
  double shares = 0.0;
  for (const ColumnNeed& need : needs) {
    narrowest += need.narrowest;
    widest += std::max(need.widest, need.narrowest);
    shares += std::max(need.share, 0.0);
  }
  std::vector<Length>& widths = result.widths;
  const auto give_rest_to_widest = [&] { // rounding
    Length sum{};
    for (const Length w : widths) sum += w;
    *std::ranges::max_element(widths) += room - sum;
  };
  if (narrowest > room) {
    result.fits = false;
    for (const ColumnNeed& need : needs)
      widths.push_back({static_cast<std::int64_t>(static_cast<double>(need.narrowest.nm) *
                                                  static_cast<double>(room.nm) /
                                                  static_cast<double>(narrowest.nm))});
    give_rest_to_widest();
    return result;
  }
  if (widest <= room) {
    const Length left = room - widest;
    for (const ColumnNeed& need : needs) {
      const double part = shares > 0.0 ? std::max(need.share, 0.0) / shares
                                       : 1.0 / static_cast<double>(needs.size());
      widths.push_back(std::max(need.widest, need.narrowest) +
                       Length{static_cast<std::int64_t>(static_cast<double>(left.nm) * part)});
    }
    give_rest_to_widest();
    return result;
  }
  // Some cells must break: begin in proportion to what each column lacks, then move width about
  // while that saves lines.
  const double left = static_cast<double>((room - narrowest).nm);
  const double lack = static_cast<double>((widest - narrowest).nm);
  for (const ColumnNeed& need : needs) {
    const double wish =
        static_cast<double>((std::max(need.widest, need.narrowest) - need.narrowest).nm);
    widths.push_back(need.narrowest + Length{static_cast<std::int64_t>(left * wish / lack)});
  }
  give_rest_to_widest();
  std::int64_t best = estimated_lines(needs, widths);
  for (const Length step : {points(36), points(12), points(4)}) {
    bool better = true;
    for (int round = 0; better && round < 8; ++round) {
      better = false;
      for (std::size_t from = 0; from < widths.size(); ++from)
        for (std::size_t to = 0; to < widths.size(); ++to) {
          if (from == to || widths[from] - step < needs[from].narrowest) continue;
          widths[from] -= step;
          widths[to] += step;
          const std::int64_t lines = estimated_lines(needs, widths);
          if (lines < best) {
            best = lines;
            better = true;
          } else {
            widths[from] += step;
            widths[to] -= step;
          }
        }
    }
  }
  return result;
}

} // namespace leafwright::page
