#include "sample.h"

#include "page/internal/block_flows.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::page;

namespace {

Length sum(const std::vector<Length>& widths) {
  Length total{};
  for (const Length width : widths) total += width;
  return total;
}

ColumnNeed need(double narrowest, double widest, double share = 1.0) {
  return {points(narrowest), points(widest), share, {points(widest)}};
}

} // namespace

TEST_CASE("columns fill the room exactly and are never narrower than their longest word") {
  sample::Dice dice(8);
  for (int round = 0; round < 500; ++round) {
    CAPTURE(round);
    std::vector<ColumnNeed> needs;
    Length narrowest{};
    for (int c = dice.between(1, 8); c > 0; --c) {
      const int low = dice.between(10, 60);
      needs.push_back(need(low, low + dice.below(200)));
      needs.back().cells.push_back(points(dice.between(5, low)));
      narrowest += needs.back().narrowest;
    }
    const Length room = points(dice.between(100, 700));
    const ColumnWidths set = column_widths(needs, room);
    CHECK(sum(set.widths) == room);
    CHECK(set.fits == (narrowest <= room));
    if (set.fits)
      for (std::size_t c = 0; c < needs.size(); ++c) CHECK(set.widths[c] >= needs[c].narrowest);
  }
}

TEST_CASE("where all content fits, what is left goes by the shares") {
  const std::vector<ColumnNeed> needs = {need(20, 50, 3.0), need(20, 50, 1.0), need(20, 50, 0.0)};
  const ColumnWidths set = column_widths(needs, points(250));
  CHECK(in_points(set.widths[0]) == doctest::Approx(125).epsilon(0.001));
  CHECK(in_points(set.widths[1]) == doctest::Approx(75).epsilon(0.001));
  CHECK(in_points(set.widths[2]) == doctest::Approx(50).epsilon(0.001));
}

TEST_CASE("a column of long sentences gets more than one of short words") {
  ColumnNeed words = need(30, 60);
  ColumnNeed sentences = need(40, 600);
  words.cells.assign(10, points(60));
  sentences.cells.assign(10, points(600));
  const ColumnWidths set = column_widths(std::vector{words, sentences}, points(300));
  CHECK(set.widths[1] > set.widths[0] * 3);
}
