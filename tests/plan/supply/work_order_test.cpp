#include "plan/supply/internal/unfold.h"
#include "plan/supply/sheets.h"

#include "small_project.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <set>

using namespace leafwright;
using namespace leafwright::supply;
using namespace leafwright::testing;

namespace {

// The planner's pattern of a job of one sheet size, as a layout.
SheetLayout layout_of(const cut::Job& job) {
  const cut::Plan plan = cut::plan(job);
  REQUIRE(!plan.patterns.empty());
  return unfold(plan.patterns.front(), Length{}, {0});
}

cut::Job letter_job(std::vector<cut::PieceType> pieces) {
  cut::Job job;
  job.objective = cut::Objective::LeastHandling;
  job.pieces = std::move(pieces);
  cut::SheetType sheet;
  sheet.width = inches(8, 1, 2).nm;
  sheet.height = inches(11).nm;
  job.sheets = {sheet};
  return job;
}

// Cuts a stack of sheets as the order says and returns the rectangles that lie on the table.
void follow(const SheetLayout& layout, const WorkOrder& order) {
  std::vector<Rect> table{{{}, layout.sheet}};
  for (const Round& round : order.rounds)
    for (const Setting& setting : round.settings) {
      CHECK(setting.number >= 1);
      for (const int index : setting.moves) {
        const SheetLayout::Move& move = layout.moves.at(static_cast<std::size_t>(index));
        CHECK(move.number == setting.number);
        const auto part = std::find(table.begin(), table.end(), move.from);
        REQUIRE(part != table.end()); // it lies there, cut free by what came before
        const Rect whole = *part;
        table.erase(part);
        Rect near = whole, far = whole;
        if (move.across) {
          near.size.height = move.at;
          far.origin.y += move.at;
          far.size.height -= move.at;
        } else {
          near.size.width = move.at;
          far.origin.x += move.at;
          far.size.width -= move.at;
        }
        table.push_back(near);
        table.push_back(far);
      }
    }
  for (const Placed& piece : layout.pieces)
    CHECK(std::find(table.begin(), table.end(), piece.box) != table.end());
}

} // namespace

TEST_CASE("two bases from a letter sheet are one cut through the stack") {
  // Common practice: fence at 4 1/4 in.
  SheetLayout layout = layout_of(letter_job({{"a", inches(4, 1, 4).nm, inches(11).nm, 2, true}}));
  layout.times = 12;
  order_cuts(layout, 5);
  const WorkOrder& order = layout.work;
  REQUIRE(order.rounds.size() == 1);
  const Round& round = order.rounds.front();
  CHECK(round.parts == 12);
  CHECK(round.stack == 5);
  CHECK(round.stacks == 3);
  REQUIRE(round.settings.size() == 1);
  CHECK(round.settings.front().fence == inches(4, 1, 4));
  CHECK(round.settings.front().cuts == 1);
  CHECK(round.settings.front().gives.size() == 2);
  CHECK(order.strokes == 3);
}

TEST_CASE("strips alike are stacked and cut across together") {
  // Four panels of 4 1/4 x 5 1/2 in: one cut down, then both strips at once.
  SheetLayout layout =
      layout_of(letter_job({{"a", inches(4, 1, 4).nm, inches(5, 1, 2).nm, 4, true}}));
  layout.times = 3;
  order_cuts(layout, 10);
  const WorkOrder& order = layout.work;
  REQUIRE(order.rounds.size() == 2);
  CHECK(order.rounds[1].parts == 6);
  CHECK(order.rounds[1].stacks == 1);
  CHECK(order.rounds[0].across != order.rounds[1].across);
  CHECK(order.strokes == 2);
  CHECK(order.settings == 2);
}

TEST_CASE("whoever follows the order has every part in hand when its turn comes, and every piece "
          "at the end") {
  std::mt19937 random(42);
  const auto side = [&random](int least, int range) {
    return inches(0, least + static_cast<int>(random() % static_cast<unsigned>(range)), 8).nm;
  };
  for (int round = 0; round < 60; ++round) {
    std::vector<cut::PieceType> pieces;
    for (int i = 0; i < 4; ++i)
      pieces.push_back({"p", side(6, 30), side(6, 40), 1 + static_cast<int>(random() % 4), true});
    const cut::Plan plan = cut::plan(letter_job(pieces));
    for (const cut::Pattern& pattern : plan.patterns) {
      SheetLayout layout = unfold(pattern, Length{}, {0, 1, 2, 3});
      order_cuts(layout, 4);
      const WorkOrder& order = layout.work;
      follow(layout, order);
      std::set<int> numbers;
      for (const SheetLayout::Move& move : layout.moves) numbers.insert(move.number);
      CHECK(static_cast<int>(numbers.size()) == order.settings);
    }
  }
}

TEST_CASE("parts alike wait for those that are cut free later only at their own depth") {
  // By hand: a 4 x 8 in part lies free after two turns at the left, and after four at the right.
  // The right one must not be asked for while it is still part of the sheet.
  const auto box = [](int x, int y, int width, int height) {
    return Rect{{inches(x), inches(y)}, {inches(width), inches(height)}};
  };
  SheetLayout layout;
  layout.sheet = {inches(20), inches(16)};
  const auto cut = [&layout](Rect from, bool across, int at) {
    SheetLayout::Move move;
    move.from = from;
    move.across = across;
    move.at = inches(at);
    layout.moves.push_back(move);
  };
  cut(box(0, 0, 20, 16), false, 4);
  cut(box(0, 0, 4, 16), true, 8);
  cut(box(0, 0, 4, 8), false, 2);
  cut(box(0, 8, 4, 8), false, 2);
  cut(box(4, 0, 16, 16), true, 12);
  cut(box(4, 0, 16, 12), false, 4);
  cut(box(4, 0, 4, 12), true, 8);
  cut(box(4, 0, 4, 8), false, 2);
  order_cuts(layout, 4);
  const WorkOrder& order = layout.work;
  follow(layout, order);
  CHECK(order.settings == 7); // the two at the left together
}

TEST_CASE("the stack is what the trimmer's capacity holds of that paper") {
  Project project = small_project();
  CHECK(stack_of(project, kraft) == 1); // capacity unknown
  project.tools.front().stack_height = micrometres(1500);
  CHECK(stack_of(project, kraft) == 5); // 0.3 mm each
  CHECK(stack_of(project, cream) == 3); // 0.4 mm
  project.stocks[kraft].caliper = {};
  CHECK(stack_of(project, kraft) == 1); // thickness unknown
}
