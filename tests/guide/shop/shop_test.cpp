#include "../orchard.h"

#include "guide/sections.h"
#include "guide/shop/shop.h"

#include "guide/block.h"
#include "guide/prose.h"
#include "guide/shop/pattern_figure.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::orchard_buying;
using leafwright::test::orchard_gate;

namespace {

template <class T>
int index_of(const std::vector<T>& list, std::string_view id) {
  const auto found =
      std::find_if(list.begin(), list.end(), [id](const T& one) { return one.id == id; });
  REQUIRE(found != list.end());
  return static_cast<int>(found - list.begin());
}

const supply::BuyingLine& line_of(ItemKind kind, int index) {
  const auto& lines = orchard_buying().lines;
  const auto found = std::find_if(lines.begin(), lines.end(), [&](const supply::BuyingLine& line) {
    return line.item == ItemRef{kind, index};
  });
  REQUIRE(found != lines.end());
  return *found;
}

const supply::StockSheets& stock_of(std::string_view id) {
  const int index = index_of(orchard_gate().stocks, id);
  const auto& stocks = orchard_buying().sheets.stocks;
  const auto found =
      std::find_if(stocks.begin(), stocks.end(),
                   [&](const supply::StockSheets& one) { return one.stock == index; });
  REQUIRE(found != stocks.end());
  return *found;
}

std::size_t count(std::string_view text, std::string_view what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != std::string_view::npos; at = text.find(what, at + 1))
    ++n;
  return n;
}

} // namespace

// Orchard Gate plans 8 full kits, 13 parts kits and 6 paper kits: 21 kits with cut parts, three of
// each card, so 63 of each. All figures below are worked out by hand from the project file.

TEST_CASE("sheets of the sample's run are those worked out by hand") {
  CHECK(stock_of("sky-card").sheets == 32);  // 63 bases 8 1/2 x 5 1/2 in, two to a sheet
  CHECK(stock_of("moss-card").sheets == 16); // 63 mats 4 x 5 1/4 in, four to a sheet
  // Where the planner leaves a gap it is one sheet, and said.
  for (const supply::StockSheets& stock : orchard_buying().sheets.stocks) {
    CHECK(stock.sheets - stock.at_least <= 1);
    CHECK((stock.proven || stock.words.find("the best possible is") != std::string::npos));
  }
}

TEST_CASE("ribbon and twine of the sample: eight spools given whole and one cut") {
  // 8 lengths of 36 in and 19 of 30 in are 858 in: the rest of 90 in and two spools of 360 in give
  // 810 at most, so it takes three.
  const supply::BuyingLine& ribbon =
      line_of(ItemKind::Ribbon, index_of(orchard_gate().ribbons, "rust-grosgrain"));
  CHECK(ribbon.bought == 3);
  // 13 kits of three knots of 6 in come from one spool of 720 in.
  const supply::BuyingLine& twine =
      line_of(ItemKind::Ribbon, index_of(orchard_gate().ribbons, "plain-twine"));
  CHECK(twine.needed == 9);
  CHECK(twine.bought == 9);
}

TEST_CASE("domes and envelopes of the sample are pooled into packs") {
  // 21 x 18 = 378 domes, 36 in hand: five packs of 80 leave 58. Envelopes 21 x 9 = 189: eight packs
  // of 25 leave 11.
  const supply::BuyingLine& domes =
      line_of(ItemKind::Embellishment, index_of(orchard_gate().embellishments, "dome"));
  CHECK(domes.needed == 378);
  CHECK(domes.bought == 400);
  CHECK(domes.left == 58);
  const supply::BuyingLine& envelopes =
      line_of(ItemKind::Envelope, index_of(orchard_gate().envelopes, "a2"));
  CHECK(envelopes.needed == 189);
  CHECK(envelopes.left == 11);
}

TEST_CASE("the cutting plan shows every pattern once, with a cut list as long as its settings") {
  const Document plan = cutting_plan(orchard_gate(), orchard_buying());
  std::size_t figures = 0, patterns = 0;
  for (const supply::StockSheets& stock : orchard_buying().sheets.stocks)
    patterns += stock.layouts.size();
  for (const Section& section : plan.sections)
    for (const Block& block : section.blocks)
      if (const auto* beside = std::get_if<Beside>(&block.what)) {
        ++figures;
        CHECK(!beside->figure.scene.alternative.empty());
      }
  CHECK(figures == patterns);
  const std::string text = dump(plan);
  CHECK(text.find("no straight-cut plan") != std::string::npos);
  CHECK(text.find("Score ") != std::string::npos);
}

TEST_CASE("every setting of the trimmer has a row with a box to tick and the number of its cuts") {
  for (const supply::StockSheets& stock : orchard_buying().sheets.stocks)
    for (const supply::SheetLayout& pattern : stock.layouts) {
      const Table table = cutting_table(orchard_gate(), orchard_buying().sheets, pattern);
      std::vector<int> numbers;
      for (const supply::Round& round : pattern.work.rounds)
        for (const supply::Setting& setting : round.settings) numbers.push_back(setting.number);
      REQUIRE(table.rows.size() == numbers.size());
      for (std::size_t i = 0; i < numbers.size(); ++i) {
        const Inlines& first = table.rows[i].cells.front();
        CHECK(std::holds_alternative<TickBox>(first.front()));
        CHECK(spoken(first).ends_with("\u00A0" + std::to_string(numbers[i])));
      }
    }
}

TEST_CASE("the shopping list goes from supplier to supplier, what one sells together") {
  const Document list = buying_list(orchard_gate(), orchard_buying());
  std::vector<std::string> groups;
  std::string of_windfall, of_stamps, group;
  for (const Block& block : list.sections.front().blocks)
    if (const auto* table = std::get_if<Table>(&block.what))
      for (const Row& row : table->rows) {
        const std::string first = spoken(row.cells.front());
        if (row.kind == Row::Kind::Group) groups.push_back(group = first);
        if (first.starts_with("Windfall dots")) of_windfall = group;
        if (first.starts_with("Orchard Gate stamp set")) of_stamps = group;
      }
  CHECK(groups == std::vector<std::string>{"Reed and Rule, papers", "The stamp cutter",
                                           "The counter on Market Square"});
  // It comes in the pack that they sell.
  CHECK(of_windfall == "Reed and Rule, papers");
  CHECK(of_stamps == "The stamp cutter");
}

TEST_CASE("where nobody is named, the shopping list goes by kinds of things") {
  Project project = orchard_gate();
  project.run.suppliers.clear();
  const std::string text = dump(buying_list(project, orchard_buying()));
  CHECK(text.find("Cardstock") != std::string::npos);
  CHECK(text.find("Reed and Rule") == std::string::npos);
}

TEST_CASE("what is taken in hand says where it came from, and only what is worth it is kept") {
  const Project& project = orchard_gate();
  bool strips = false, left = false;
  for (const supply::StockSheets& stock : orchard_buying().sheets.stocks)
    for (const supply::SheetLayout& pattern : stock.layouts) {
      bool keeps = false;
      const List order = cutting_order(project, orchard_buying().sheets, pattern);
      for (std::size_t i = 0; i < order.items.size(); ++i) {
        const std::string words = spoken(order.items[i]);
        CAPTURE(words);
        constexpr std::string_view from = "left from cut\u00A0";
        for (std::size_t at = words.find(from); at != std::string::npos;
             at = words.find(from, at + 1)) {
          left = true;
          CHECK(std::stoul(words.substr(at + from.size())) <= i); // an earlier cut
        }
        strips = strips || words.find(" strips of ") != std::string::npos;
        keeps = keeps || words.starts_with("Keep");
      }
      // Scraps are on neither list.
      CHECK(keeps == std::ranges::any_of(pattern.leftovers, [&](const Rect& rest) {
              return supply::worth_keeping(project, rest.size);
            }));
    }
  CHECK(strips);
  CHECK(left);
}

TEST_CASE("the buying list adds up to the money of its purchases") {
  const std::string text = dump(buying_list(orchard_gate(), orchard_buying()));
  CHECK(text.find(money_text(orchard_buying().total)) != std::string::npos);
  CHECK(text.find("Windfall paper pack") != std::string::npos);
  CHECK(text.find("rest of") == std::string::npos); // sentences begin with a capital
}

TEST_CASE("the data of the plan has every placed piece once") {
  std::size_t placed = 0;
  for (const supply::StockSheets& stock : orchard_buying().sheets.stocks)
    for (const supply::SheetLayout& pattern : stock.layouts) placed += pattern.pieces.size();
  CHECK(count(cutting_plan_csv(orchard_gate(), orchard_buying()), "\r\n") == placed + 1);
  const std::string json = cutting_plan_json(orchard_gate(), orchard_buying());
  CHECK(count(json, "\"turned\": ") == placed);
  CHECK(count(json, "{") == count(json, "}"));
}

TEST_CASE("true-size drawings measure what they show") {
  const auto patterns = true_size_patterns(orchard_gate(), orchard_buying().sheets);
  REQUIRE(!patterns.empty());
  CHECK(patterns.front().name == "kraft-1.svg");
  // A letter sheet is 8 1/2 x 11 in (ASME Y14.1 A).
  CHECK(patterns.front().lines.size == Size{inches(8, 1, 2), inches(11)});
  CHECK(!patterns.front().lines.cuts.empty());
  const auto shapes = true_size_shapes(orchard_gate());
  const auto net = std::find_if(shapes.begin(), shapes.end(), [](const TrueSizeFile& file) {
    return file.name == "net-gate.svg";
  });
  REQUIRE(net != shapes.end());
  // The gate's base: 8 1/2 x 5 1/2 in with scores at 2 1/8 and 6 3/8 in.
  CHECK(net->lines.size == Size{inches(8, 1, 2), inches(5, 1, 2)});
  REQUIRE(net->lines.scores.size() == 2);
  CHECK(net->lines.scores[0].line.from.x == inches(2, 1, 8));
  CHECK(net->lines.scores[1].line.from.x == inches(6, 3, 8));
}

TEST_CASE("the plan says how each piece lies on its sheet: upright, turned or either way") {
  const std::string json = cutting_plan_json(orchard_gate(), orchard_buying());
  CHECK(count(json, "\"lies\"") == orchard_buying().sheets.pieces.size());
  const auto free = std::count_if(
      orchard_buying().sheets.pieces.begin(), orchard_buying().sheets.pieces.end(),
      [](const auto& one) { return one.orientation == supply::SheetOrientation::Either; });
  CHECK(count(json, "\"lies\": \"either\"") == static_cast<std::size_t>(free));
}

TEST_CASE("one sheet is a sheet in the title of a true-size drawing") {
  for (const TrueSizeFile& file : true_size_patterns(orchard_gate(), orchard_buying().sheets))
    CHECK(file.lines.title.find(" 1 sheets") == std::string::npos);
}

TEST_CASE("the same project gives the same bytes") {
  const supply::Buying again =
      supply::buying_for(orchard_gate(), supply::planned_kits(orchard_gate()));
  CHECK(cutting_plan_json(orchard_gate(), again) ==
        cutting_plan_json(orchard_gate(), orchard_buying()));
  CHECK(buying_list_csv(orchard_gate(), again) ==
        buying_list_csv(orchard_gate(), orchard_buying()));
}
