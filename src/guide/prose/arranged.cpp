#include "guide/prose/arranged.h"

#include "guide/words/count.h"
#include "guide/words/plural.h"

#include <algorithm>
#include <set>

namespace leafwright::guide {
namespace {

Gaps gaps_of_all(Size carrier, const std::vector<Point>& places, Size size, Angle turned) {
  Gaps all = gaps_in(carrier, places.front(), size, turned);
  for (const Point place : places) {
    const Gaps one = gaps_in(carrier, place, size, turned);
    all.left = std::min(all.left, one.left);
    all.top = std::min(all.top, one.top);
    all.right = std::min(all.right, one.right);
    all.bottom = std::min(all.bottom, one.bottom);
  }
  return all;
}

// Different values of one coordinate, those within sight of each other taken as one.
std::vector<Length> lines_of(const std::vector<Point>& places, Length Point::*coordinate) {
  std::vector<Length> out;
  std::vector<Length> all;
  all.reserve(places.size());
  for (const Point& place : places) all.push_back(place.*coordinate);
  std::sort(all.begin(), all.end());
  for (const Length one : all)
    if (out.empty() || !alike(out.back(), one)) out.push_back(one);
  return out;
}

} // namespace

std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position) {
  if (places.empty()) return {};
  const Size carrier = carrier_size(where.project, where.card, where.on);
  const Gaps gaps = gaps_of_all(carrier, places, size, turned);
  if (places.size() == 1) return where_words(where, gaps, position, {});
  const std::size_t columns = lines_of(places, &Point::x).size();
  const std::size_t rows = lines_of(places, &Point::y).size();
  if (rows == 1) {
    std::string words = ", in a row";
    if (!alike(gaps.left, gaps.right))
      words += " that begins " + across_words(where, gaps, position);
    return words + ", " + down_words(where, gaps, position);
  }
  if (columns == 1) {
    std::string words = ", one below the other, " + across_words(where, gaps, position);
    if (!alike(gaps.top, gaps.bottom))
      words += ", the outermost " + down_words(where, gaps, position);
    return words;
  }
  if (rows * columns == places.size())
    return ", in " + words::counted(static_cast<std::int64_t>(rows), "row") + " of " +
           words::count_words(static_cast<std::int64_t>(columns));
  return ", where the drawing shows them";
}

} // namespace leafwright::guide
