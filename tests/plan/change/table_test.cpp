#include "support.h"

using namespace leafwright;
using namespace leafwright::change;
using leafwright::test::Worked;
using leafwright::test::worked;

namespace {

TableVerdict verdict(const Worked& a, const Worked& b, OnTable table = {}) {
  cut::Effort effort;
  effort.work = 20'000'000;
  return judge(a.reading.project, a.buying, b.reading.project, b.buying, table, effort);
}

// Every piece is somewhere, once.
void check_sums(const TableVerdict& result) {
  std::int64_t served = 0, used = 0;
  for (const Pile& pile : result.piles) {
    CHECK(pile.cut == pile.good + pile.trimmed + pile.spare + pile.lost);
    served += pile.good + pile.trimmed;
  }
  for (const Use& use : result.uses) used += use.count;
  CHECK(served == used);
  std::int64_t laid = 0, to_cut = 0;
  for (const Wanted& want : result.wanted) {
    CHECK(want.needed == want.good + want.trimmed + want.to_cut);
    to_cut += want.to_cut;
  }
  for (const supply::StockSheets& stock : result.to_cut.stocks) laid += stock.pieces;
  CHECK(laid == to_cut);
}

} // namespace

TEST_CASE("nothing changed: all that is cut is good and no sheet is taken") {
  const auto a = worked("orchard-gate");
  const TableVerdict result = verdict(a, a);
  check_sums(result);
  CHECK(result.lost == 0);
  CHECK(result.trimmed == 0);
  CHECK(result.recut == 0);
  CHECK(result.sheets == 0);
}

TEST_CASE("a smaller panel is trimmed from the larger, a larger one is cut again") {
  const auto a = worked("orchard-gate");
  const auto smaller = worked("orchard-gate", {"trees/scene.size=3 x 3 1/4"});
  const TableVerdict down = verdict(a, smaller);
  check_sums(down);
  CHECK(down.trimmed > 0);
  CHECK(down.recut == 0);
  const TableVerdict up = verdict(smaller, a);
  check_sums(up);
  CHECK(up.lost == down.trimmed);
  CHECK(up.recut == down.trimmed);
  CHECK(up.sheets + up.offcuts > 0);
}

TEST_CASE("only what is said to be cut counts") {
  const auto a = worked("orchard-gate");
  OnTable none;
  none.cut.emplace();
  const TableVerdict result = verdict(a, a, none);
  check_sums(result);
  CHECK(result.piles.empty());
  CHECK(result.recut > 0);
  OnTable wrong;
  wrong.cut = std::map<std::string, std::int64_t>{{"no such letter", 80}};
  CHECK(verdict(a, a, wrong).unknown.size() == 1);
}

TEST_CASE("another paper loses its pieces, another price does not") {
  const auto a = worked("orchard-gate");
  CHECK(verdict(a, worked("orchard-gate", {"rust-card.price=9.99"})).lost == 0);
  const TableVerdict result = verdict(a, worked("orchard-gate", {"rust-card.colour=#102030"}));
  check_sums(result);
  CHECK(result.lost > 0);
}

TEST_CASE("more kits: what is cut stays good and only the rest is cut") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"run.of-each=4"});
  const TableVerdict result = verdict(a, b);
  check_sums(result);
  CHECK(result.lost == 0);
  CHECK(result.recut > 0);
}

// A die turns out larger than it was written: 1 3/4 in instead of 1 1/2.
TEST_CASE("what a die cut is good when only the die's written size was wrong") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"circle-small.size=1 3/4 x 1 3/4"});
  const TableVerdict lost = verdict(a, b);
  CHECK(lost.lost > 0);
  OnTable same;
  same.measured_dies = {"circle-small"};
  const TableVerdict kept = verdict(a, b, same);
  check_sums(kept);
  CHECK(kept.lost == 0);
  CHECK(kept.recut == 0);
  OnTable wrong;
  wrong.measured_dies = {"no-such-die"};
  CHECK(verdict(a, b, wrong).unknown_dies.size() == 1);
}

TEST_CASE("pieces that are blanks yet are judged by their blank, not by the die's cut") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"apple-die.size=1 1/8 x 1 1/4"});
  std::string letter;
  for (const supply::CutLine& line : a.buying.sheets.lines)
    if (line.piece.card >= 0) {
      const Piece& piece = supply::piece_of(a.reading.project, line.piece);
      if (piece.id == "apple") letter = line.letter;
    }
  REQUIRE_FALSE(letter.empty());
  const auto own = [&](const OnTable& table) {
    for (const Pile& pile : verdict(a, b, table).piles)
      if (a.buying.sheets.lines.at(as_index(pile.old_line)).letter == letter) return pile.own;
    return Refit{};
  };
  CHECK(own({}).loss == Loss::Outline);
  OnTable blanks;
  blanks.blanks = {letter};
  CHECK(own(blanks).fate != Fate::Lost);
}

// The same die larger than written: 2 7/8 in instead of 2 3/4, its window hung by the top edge.
TEST_CASE("an opening cut by a die that was only measured wrongly is where the author hung it") {
  const auto a = worked("orchard-gate");
  const auto b = worked("orchard-gate", {"circle-large.size=2 7/8 x 2 7/8"});
  CHECK(verdict(a, b).lost > 0);
  OnTable same;
  same.measured_dies = {"circle-large"};
  CHECK(verdict(a, b, same).lost == 0);
  const auto moved =
      worked("orchard-gate", {"circle-large.size=2 7/8 x 2 7/8", "pane.at=centre, 1 from top"});
  CHECK(verdict(a, moved, same).lost > 0);
}
