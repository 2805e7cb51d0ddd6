#include "small_project.h"

#include "plan/supply/needs.h"
#include "plan/supply/sheets.h"

#include <doctest/doctest.h>

#include <map>
#include <random>
#include <set>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::testing;
using supply::CuttingPlan;
using supply::SheetLayout;
using supply::StockSheets;

namespace {

const StockSheets& sheets_of(const CuttingPlan& all, int stock) {
  for (const StockSheets& one : all.stocks)
    if (one.stock == stock) return one;
  FAIL("no sheets of that stock");
  return all.stocks.front();
}

// Cuts the sheet as the moves say, with a list of the parts on the table, and returns the parts.
// Fails when a move cuts something that is not there or through nothing.
std::vector<Rect> cut_as_told(const SheetLayout& layout) {
  std::vector<Rect> parts{{{}, layout.sheet}};
  for (const SheetLayout::Move& move : layout.moves) {
    CHECK(move.number >= 1);
    CHECK(move.number <= layout.work.settings);
    std::size_t found = parts.size();
    for (std::size_t i = 0; i < parts.size(); ++i)
      if (parts[i] == move.from) found = i;
    REQUIRE(found < parts.size());
    const Rect whole = parts[found];
    const Length side = move.across ? whole.size.height : whole.size.width;
    REQUIRE(move.at > Length{});
    REQUIRE(move.at < side);
    Rect first = whole, second = whole;
    if (move.across) {
      first.size.height = move.at;
      second.origin.y += move.at;
      second.size.height -= move.at;
    } else {
      first.size.width = move.at;
      second.origin.x += move.at;
      second.size.width -= move.at;
    }
    parts[found] = first;
    parts.push_back(second);
  }
  return parts;
}

void check_layout(const Project& project, const CuttingPlan& all, const SheetLayout& layout) {
  const Stock& stock = project.stocks.at(static_cast<std::size_t>(layout.stock));
  std::vector<Rect> parts = cut_as_told(layout);
  std::vector<Rect> wanted = layout.leftovers;
  for (const supply::Placed& placed : layout.pieces) {
    wanted.push_back(placed.box);
    const supply::CutPiece& piece = all.pieces.at(static_cast<std::size_t>(placed.piece));
    CHECK(piece.stock == layout.stock);
    CHECK(placed.box.size == (placed.turned ? piece.size.turned() : piece.size));
    if (stock.upright) CHECK_FALSE(placed.turned);
    CHECK(Rect{{}, layout.sheet}.contains(placed.box));
  }
  // The parts on the table are the pieces and the leftovers, nothing else.
  CHECK(parts.size() == wanted.size());
  for (const Rect& one : wanted) CHECK(std::count(parts.begin(), parts.end(), one) == 1);
  for (std::size_t i = 1; i < layout.leftovers.size(); ++i)
    CHECK(area(layout.leftovers[i - 1].size) >= area(layout.leftovers[i].size));
  // Every piece is said to be finished by exactly one cut, unless it is the whole sheet.
  std::multiset<int> finished;
  for (const SheetLayout::Move& move : layout.moves)
    finished.insert(move.gives.begin(), move.gives.end());
  if (!layout.moves.empty()) {
    CHECK(finished.size() == layout.pieces.size());
    CHECK(std::set<int>(finished.begin(), finished.end()).size() == layout.pieces.size());
  }
}

void check_all(const Project& project, const CuttingPlan& all, int kits) {
  std::map<int, std::int64_t> cut;
  for (const StockSheets& stock : all.stocks) {
    int sheets = 0;
    Area area_of_sheets{};
    for (const SheetLayout& layout : stock.layouts) {
      check_layout(project, all, layout);
      sheets += layout.times;
      area_of_sheets += area(layout.sheet) * layout.times;
      for (const supply::Placed& placed : layout.pieces)
        cut[all.pieces.at(static_cast<std::size_t>(placed.piece)).lines.front()] += layout.times;
    }
    CHECK(sheets == stock.sheets);
    CHECK(stock.at_least <= stock.sheets);
    CHECK(stock.used + stock.waste == area_of_sheets);
  }
  for (std::size_t i = 0; i < all.lines.size(); ++i)
    CHECK(cut[static_cast<int>(i)] == std::int64_t{all.lines[i].per_kit} * kits);
}

} // namespace

// Common practice: two A2 bases from one letter sheet.
TEST_CASE("two A2 bases are cut from one letter sheet with one cut") {
  Project project = small_project();
  project.run.of_each = 2;
  const CuttingPlan all = supply::sheets_for(project);
  const StockSheets& paper = sheets_of(all, kraft);
  CHECK(paper.sheets == 1);
  CHECK(paper.at_least == 1);
  REQUIRE(paper.layouts.size() == 1);
  REQUIRE(paper.layouts[0].moves.size() == 1);
  CHECK(paper.layouts[0].moves[0].at == inches(4, 1, 4));
  CHECK(paper.layouts[0].moves[0].gives.size() == 2);
  CHECK(paper.layouts[0].leftovers.empty());
  CHECK(paper.waste == Area{});
}

TEST_CASE("cutting as told leaves the pieces and the leftovers on the table") {
  Project project = small_project();
  for (const int kits : {1, 3}) {
    const CuttingPlan all = supply::sheets_for(project, kits);
    CHECK(all.findings.empty());
    check_all(project, all, kits);
  }
}

TEST_CASE("sheets that are only counted are as many as a plan cuts") {
  Project project = small_project();
  for (const bool two_sizes : {false, true}) {
    CAPTURE(two_sizes);
    if (two_sizes) {
      project.stocks[kraft].sheets.push_back(project.stocks[kraft].sheets.front());
      project.stocks[kraft].sheets.back().size = {inches(12), inches(12)};
    }
    for (const int kits : {2, 5, 12}) {
      CAPTURE(kits);
      const CuttingPlan all = supply::sheets_for(project, kits);
      const CuttingPlan counted = supply::fewest_sheets_for(project, kits);
      REQUIRE(counted.stocks.size() == all.stocks.size());
      for (std::size_t i = 0; i < all.stocks.size(); ++i) {
        CHECK(counted.stocks[i].sheets == all.stocks[i].sheets);
        CHECK(counted.stocks[i].words == all.stocks[i].words);
        REQUIRE(counted.stocks[i].by_size.size() == all.stocks[i].by_size.size());
        for (std::size_t k = 0; k < all.stocks[i].by_size.size(); ++k)
          CHECK(counted.stocks[i].by_size[k].count == all.stocks[i].by_size[k].count);
      }
    }
  }
}

TEST_CASE("random cards are cut as told, counted right, and lie as they may") {
  std::mt19937 random(5);
  std::uniform_int_distribution<int> sixteenths(6, 130), copies(1, 3), which(0, 2);
  for (int round = 0; round < 25; ++round) {
    Project project = small_project();
    Card& card = project.cards[0];
    for (int i = 0; i < 8; ++i) {
      Piece piece =
          panel("p" + std::to_string(i), which(random), on_face(front),
                {inches(0, sixteenths(random), 16), inches(0, sixteenths(random), 16)}, {});
      piece.copies = copies(random);
      add(card, piece);
    }
    const CuttingPlan all = supply::sheets_for(project);
    CHECK(all.findings.empty());
    check_all(project, all, 1);
  }
}

TEST_CASE("all cuts of one direction come before the strips are turned, widest strip first") {
  const CuttingPlan all = supply::sheets_for(small_project());
  for (const StockSheets& stock : all.stocks)
    for (const SheetLayout& layout : stock.layouts)
      for (std::size_t i = 1; i < layout.moves.size(); ++i) {
        const SheetLayout::Move &before = layout.moves[i - 1], &now = layout.moves[i];
        if (now.across == before.across && now.from.right() == before.from.right() &&
            now.from.bottom() == before.from.bottom())
          CHECK(now.at <= before.at);
      }
}

TEST_CASE("a pattern with a top is never turned") {
  Project project = small_project();
  // 7 x 12 and 5 x 12 would share a 12 x 12 sheet either way; 12 x 7 and 12 x 5 only upright.
  project.cards[0].pieces[mat].cut_from = {inches(12), inches(7)};
  add(project.cards[0], panel("other", dots, on_face(front), {inches(5), inches(12)}, {}));
  project.run.of_each = 1;
  const CuttingPlan all = supply::sheets_for(project);
  CHECK(sheets_of(all, dots).sheets == 2);
  check_all(project, all, 1);
}

TEST_CASE("a scored piece lies with its fold along the grain") {
  Project project = small_project();
  const Piece& folded = project.cards[0].pieces[base]; // scored across, 4 1/4 x 11
  Stock paper = project.stocks[kraft];
  paper.grain = Stock::Grain::AlongWidth;
  CHECK(supply::wished_orientation(paper, folded) == supply::SheetOrientation::Upright);
  paper.grain = Stock::Grain::AlongHeight;
  CHECK(supply::wished_orientation(paper, folded) == supply::SheetOrientation::Turned);
  CHECK(supply::sheet_orientation(paper, folded) ==
        supply::SheetOrientation::Either); // 11 in do not fit across letter
  paper.sheets[0].size = {inches(12), inches(12)};
  CHECK(supply::sheet_orientation(paper, folded) == supply::SheetOrientation::Turned);
}

TEST_CASE("a base that must be turned for its grain is laid turned") {
  Project project = small_project();
  project.stocks[kraft].grain = Stock::Grain::AlongHeight;
  project.stocks[kraft].sheets[0].size = {inches(12), inches(12)};
  const CuttingPlan all = supply::sheets_for(project);
  for (const SheetLayout& layout : sheets_of(all, kraft).layouts)
    for (const supply::Placed& placed : layout.pieces) CHECK(placed.turned);
  check_all(project, all, 1);
}

TEST_CASE("a piece too large for every sheet is named and left out") {
  Project project = small_project();
  project.cards[0].pieces[mat].cut_from = {inches(13), inches(5)};
  const CuttingPlan all = supply::sheets_for(project);
  REQUIRE(all.findings.size() == 1);
  CHECK(all.findings[0].code == "fit-sheet");
  CHECK(all.findings[0].found.find("13") != std::string::npos);
  CHECK(all.stocks.size() == 2);
}

TEST_CASE("the sheets of a kit are added to its needs") {
  const Project project = small_project();
  supply::Needs needs = supply::needs_of_kit(project);
  const CuttingPlan all = supply::sheets_for(project);
  supply::add_sheets(needs, all);
  CHECK(supply::find(needs, {ItemKind::Stock, kraft})->sheets == 1);
}

TEST_CASE("the cut list counts by card, set and kit") {
  Project project = small_project();
  project.run.of_each = 2;
  project.cards[0].pieces[label].copies = 3;
  const std::vector<supply::CutLine> lines = supply::cut_list(project);
  REQUIRE(lines.size() == 5);
  CHECK(lines[3].per_card == 3);
  CHECK(lines[3].per_kit == 6);
  CHECK(lines[3].rectangle == Size{inches(2, 3, 4), inches(1)});
  CHECK_FALSE(lines[1].may_turn); // dots stand upright
  CHECK(lines[2].may_turn);
}

TEST_CASE("nothing is laid out for no cards") {
  Project project = small_project();
  project.run.of_each = 0;
  CHECK(supply::sheets_for(project).stocks.empty());
  project.cards.clear();
  CHECK(supply::sheets_for(project).lines.empty());
}
