#include "sample.h"

#include "page/internal/paragraph.h"

#include <doctest/doctest.h>

#include <limits>

using namespace leafwright;
using namespace leafwright::page;

namespace {

// Every way to break, without any cleverness.
double cheapest(const std::vector<LinePiece>& pieces, const Measure& measure, std::size_t first,
                bool hyphenated) {
  if (first == pieces.size()) return 0.0;
  double best = std::numeric_limits<double>::infinity();
  for (std::size_t end = first + 1; end <= pieces.size(); ++end) {
    const LinePiece::After after = pieces[end - 1].after;
    if (after == LinePiece::After::Stay && end < pieces.size()) continue;
    const Line line = make_line(pieces, first, end, measure);
    const double cost =
        line_cost(line, measure, hyphenated) + cheapest(pieces, measure, end, line.hyphenated);
    best = std::min(best, cost);
    if (after == LinePiece::After::Must) break;
  }
  return best;
}

double cost_of(const std::vector<Line>& lines, const Measure& measure) {
  double cost = 0.0;
  bool hyphenated = false;
  for (const Line& line : lines) {
    cost += line_cost(line, measure, hyphenated);
    hyphenated = line.hyphenated;
  }
  return cost;
}

std::vector<LinePiece> random_pieces(sample::Dice& dice, int count) {
  std::vector<LinePiece> pieces;
  for (int i = 0; i < count; ++i) {
    LinePiece piece;
    piece.width = points(dice.between(6, 46));
    const int kind = dice.below(10);
    if (kind < 6) {
      piece.space = points(3);
      piece.after = LinePiece::After::Break;
    } else if (kind < 9) {
      piece.after = LinePiece::After::Hyphen;
      piece.hyphen = points(3);
      piece.next_correction = points(0.2 * dice.between(-1, 1));
    }
    pieces.push_back(piece);
  }
  return pieces;
}

std::string utf8(char32_t c) {
  const auto byte = [](char32_t value) { return static_cast<char>(value); };
  const auto low = [&](int shift) { return byte(0x80U | (c >> shift & 0x3FU)); };
  if (c < 0x80) return {byte(c)};
  if (c < 0x800) return {byte(0xC0U | c >> 6U), low(0)};
  if (c < 0x10000) return {byte(0xE0U | c >> 12U), low(6), low(0)};
  return {byte(0xF0U | c >> 18U), low(12), low(6), low(0)};
}

} // namespace

TEST_CASE("no set of lines is cheaper than the one chosen") {
  sample::Dice dice(11);
  for (int round = 0; round < 400; ++round) {
    CAPTURE(round);
    const std::vector<LinePiece> pieces = random_pieces(dice, dice.between(1, 13));
    Measure measure;
    measure.width = points(dice.between(60, 160));
    measure.justified = round % 2 == 1;
    measure.shortest_last = points(30);
    const double best = cheapest(pieces, measure, 0, false);
    // An overfull line is the same disaster however it came about.
    if (best >= overfull_cost) continue;
    CHECK(cost_of(break_lines(pieces, measure), measure) == doctest::Approx(best));
  }
}

TEST_CASE("lines hold every piece once and in order") {
  sample::Dice dice(5);
  for (int round = 0; round < 100; ++round) {
    const std::vector<LinePiece> pieces = random_pieces(dice, 60);
    Measure measure;
    measure.width = points(150);
    std::size_t next = 0;
    for (const Line& line : break_lines(pieces, measure)) {
      CHECK(line.first == next);
      CHECK(line.end > line.first);
      next = line.end;
    }
    CHECK(next == pieces.size());
  }
}

TEST_CASE("a line is overfull only when a single piece is too wide") {
  sample::Dice dice(6);
  for (int round = 0; round < 200; ++round) {
    std::vector<LinePiece> pieces = random_pieces(dice, 40);
    for (LinePiece& piece : pieces)
      if (piece.after == LinePiece::After::Stay) piece.after = LinePiece::After::Break;
    Measure measure;
    measure.width = points(44);
    for (const Line& line : break_lines(pieces, measure))
      if (line.overfull) CHECK(line.end == line.first + 1);
  }
}

TEST_CASE("a last line of one short word is avoided where the lines above can give way") {
  std::vector<LinePiece> pieces(9,
                                LinePiece{points(28), points(3), LinePiece::After::Break, {}, {}});
  pieces.back().width = points(8);
  Measure measure;
  measure.width = points(122); // four words and the short one's room
  measure.shortest_last = points(30);
  const std::vector<Line> lines = break_lines(pieces, measure);
  CHECK(lines.back().end - lines.back().first > 1);
}

TEST_CASE("a forced break ends a line") {
  std::vector<LinePiece> pieces(3,
                                LinePiece{points(10), points(3), LinePiece::After::Break, {}, {}});
  pieces[0].after = LinePiece::After::Must;
  Measure measure;
  measure.width = points(500);
  const std::vector<Line> lines = break_lines(pieces, measure);
  REQUIRE(lines.size() == 2);
  CHECK(lines[0].end == 1);
}

TEST_CASE("no pieces are no lines") { CHECK(break_lines({}, Measure{}).empty()); }

TEST_CASE("the breaker bears every code point, first, in the middle and last") {
  std::size_t wrong = 0;
  for (char32_t c = 1; c <= 0x10FFFF; ++c) {
    if (c >= 0xD800 && c <= 0xDFFF) continue; // surrogates are no characters
    const std::string one = utf8(c);
    const std::string text = one + " a" + one + "b " + one;
    if (break_opportunities(text).size() != text.size()) ++wrong;
  }
  CHECK(wrong == 0);
}

TEST_CASE("the breaker bears bytes that are no UTF-8, and breaks at the blanks around them") {
  for (const std::string_view broken : {"\xFF", "\xC3", "\xE2\x82", "\xED\xA0\x80", "\x80"}) {
    const std::string text = "a " + std::string(broken) + " b " + std::string(broken);
    const std::vector<bool> breaks = break_opportunities(text);
    REQUIRE(breaks.size() == text.size());
    CHECK(breaks[1]);
    CHECK(breaks[text.size() - broken.size() - 1]);
  }
}

TEST_CASE("the two halves of a flag stay together, and a line may end between two flags") {
  const std::string half = utf8(0x1F1E6);
  const std::vector<bool> breaks = break_opportunities(half + half + half + half + half);
  REQUIRE(breaks.size() == 20);
  CHECK_FALSE(breaks[3]);
  CHECK(breaks[7]);
  CHECK_FALSE(breaks[11]);
  CHECK(breaks[15]);
}
