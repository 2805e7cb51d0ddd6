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
  const auto b = worked("orchard-gate", {"run.of-each=3"});
  const TableVerdict result = verdict(a, b);
  check_sums(result);
  CHECK(result.lost == 0);
  CHECK(result.recut > 0);
}
