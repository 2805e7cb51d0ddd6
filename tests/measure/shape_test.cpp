#include "show.h"

#include "measure/length.h"

using namespace leafwright;

TEST_CASE("touching edges do not overlap, and a rectangle contains itself") {
  const Rect left{{}, {inches(2), inches(3)}};
  const Rect right{{inches(2), {}}, {inches(2), inches(3)}};
  CHECK_FALSE(left.overlaps(right));
  CHECK(left.overlaps({{inches(2) - Length{1}, {}}, right.size}));
  CHECK(left.contains(left));
  CHECK_FALSE(left.contains(right));
  CHECK(left.centre() == Point{inches(1), inches(1, 1, 2)});
}

TEST_CASE("a piece fits a sheet of exactly its size, and not one a nanometre narrower") {
  const Size piece{inches(4, 1, 4), inches(5, 1, 2)};
  CHECK(fits(piece, piece));
  CHECK_FALSE(fits(piece, {piece.width - Length{1}, piece.height}));
  CHECK_FALSE(fits(piece, piece.turned()));
}

TEST_CASE("two A2 card bases have the area of one letter sheet") {
  // Common practice: 8 1/2 x 11 in cut in two gives two bases of 4 1/4 x 11 or 5 1/2 x 8 1/2 in.
  const Area letter = area({inches(8, 1, 2), inches(11)});
  CHECK(area({inches(5, 1, 2), inches(8, 1, 2)}) * 2 == letter);
  CHECK(letter.um2 == 60'322'460'000);
}

TEST_CASE("the largest sides that can be read keep their area in range") {
  CHECK(area({millimetres(100'000), millimetres(100'000)}).um2 == 10'000'000'000'000'000);
}
