#include "plan/change/compare.h"

#include <doctest/doctest.h>

using namespace leafwright;
using namespace leafwright::change;

namespace {

CutState sheet(Length width, Length height,
               supply::SheetOrientation lie = supply::SheetOrientation::Upright) {
  CutState state;
  state.size = state.blank = {width, height};
  state.orientation = lie;
  return state;
}

} // namespace

TEST_CASE("the same size is good as it lies") {
  CHECK(refit(sheet(inches(4), inches(5)), sheet(inches(4), inches(5))).fate == Fate::Good);
}

TEST_CASE("what fits inside the same way up can be trimmed, and it is told by how much") {
  const Refit how = refit(sheet(inches(4), inches(5)), sheet(inches(3, 3, 4), inches(5)));
  CHECK(how.fate == Fate::Trim);
  CHECK(how.left + how.right == inches(0, 1, 4));
  CHECK(how.top + how.bottom == Length{});
}

TEST_CASE("one nanometre too narrow is lost") {
  const Refit how = refit(sheet(inches(4), inches(5)), sheet(inches(4) + Length{1}, inches(4)));
  CHECK(how.fate == Fate::Lost);
  CHECK(how.loss == Loss::TooSmall);
  CHECK(how.narrow.nm == 1);
}

TEST_CASE("a directed paper is not turned, a plain one is") {
  const auto upright = supply::SheetOrientation::Upright, either = supply::SheetOrientation::Either;
  CHECK(refit(sheet(inches(4), inches(5), upright), sheet(inches(5), inches(4), upright)).fate ==
        Fate::Lost);
  const Refit plain =
      refit(sheet(inches(4), inches(5), either), sheet(inches(5), inches(4), either));
  CHECK(plain.fate == Fate::Good);
  CHECK(plain.turned);
}

TEST_CASE("a folded base is trimmed on both sides so that its fold stays in the middle") {
  CutState have = sheet(inches(8, 1, 2), inches(5, 1, 2));
  have.scores = {{true, inches(4, 1, 4), false}};
  CutState want = sheet(inches(8), inches(5, 1, 2));
  want.scores = {{true, inches(4), false}};
  const Refit how = refit(have, want);
  CHECK(how.fate == Fate::Trim);
  CHECK(how.left == inches(0, 1, 4));
  CHECK(how.right == inches(0, 1, 4));
}

TEST_CASE("a fold that would stay in sight spoils a piece, one that is cut off does not") {
  CutState have = sheet(inches(8), inches(5));
  have.scores = {{true, inches(6), false}};
  CHECK(refit(have, sheet(inches(7), inches(5))).loss == Loss::Fold);
  CHECK(refit(have, sheet(inches(6), inches(5))).fate == Fate::Trim);
}

TEST_CASE("an opening may be cut larger, not closed") {
  CutState have = sheet(inches(4), inches(5));
  Window hole;
  hole.size = {inches(2), inches(2)};
  hole.at = {inches(1), inches(1)};
  have.windows = {hole};
  CutState want = have;
  CHECK(refit(have, want).fate == Fate::Good);
  want.windows.front().size = {inches(2, 1, 2), inches(2, 1, 2)};
  CHECK(refit(have, want).fate != Fate::Lost);
  want.windows.clear();
  CHECK(refit(have, want).loss == Loss::Opening);
}

TEST_CASE("a die-cut outline serves only itself; its blank is trimmed from any rectangle it fits") {
  CutState label = sheet(inches(2, 1, 2), inches(1));
  label.shape.outline = Shape::Outline::Rounded;
  CutState other = label;
  other.size = {inches(2), inches(1)};
  CHECK(refit(label, label).fate == Fate::Good);
  CHECK(refit(label, other).loss == Loss::Outline);
  const Refit cut = refit(sheet(inches(3), inches(2)), label);
  CHECK(cut.fate == Fate::Trim);
  CHECK(cut.cut_out);
}

TEST_CASE("a blank with less margin than planned serves as long as 1/16 in is left all round") {
  CutState label = sheet(inches(2, 1, 2), inches(1));
  label.shape.outline = Shape::Outline::Rounded;
  label.blank = {inches(3), inches(1, 1, 2)};
  const Refit tight = refit(sheet(inches(2, 3, 4), inches(1, 1, 4)), label);
  CHECK(tight.fate == Fate::Trim);
  CHECK(tight.cut_out);
  CHECK(tight.around == inches(0, 1, 8));
  CHECK(tight.left == Length{});
  CHECK(refit(sheet(inches(2, 9, 16), inches(1, 1, 4)), label).loss == Loss::TooSmall);
  CHECK(refit(sheet(inches(3), inches(2)), label).around == Length{});
}
