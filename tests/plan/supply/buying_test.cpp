#include "plan/supply/buying.h"

#include "kits_bought.h"
#include "plan/supply/sheets.h"
#include "small_project.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <random>

using namespace leafwright;
using namespace leafwright::supply;
using namespace leafwright::testing;

namespace {

Money dollars(std::int64_t cents) { return {cents, Currency{}}; }

Inclusion include(ItemKind kind, int index, Amount::Kind how, int count = 1) {
  Inclusion inclusion;
  inclusion.item = {kind, index};
  inclusion.amount.kind = how;
  inclusion.amount.count = count;
  return inclusion;
}

// One tier whose kits hold the cut parts of the small project; two of its card in a kit.
Project shop() {
  Project project = small_project();
  project.run.of_each = 2;
  for (Stock& stock : project.stocks) {
    stock.sheets.front().sold.count = 25;
    stock.sheets.front().sold.price = dollars(850);
  }
  project.ribbons.front().sold.price = dollars(800);
  project.embellishments.front().sold = {80, dollars(500), {}};
  project.envelopes.front().sold = {25, dollars(600), {}};
  project.adhesives[foam].sold.price = dollars(450);
  Tier tier;
  tier.id = tier.name = "parts";
  tier.parts_cut = true;
  tier.includes = {include(ItemKind::Parts, -1, Amount::Kind::AsNeeded)};
  project.tiers = {tier};
  return project;
}

const BuyingLine* line_of(const Buying& buying, ItemKind kind, int index) {
  for (const BuyingLine& line : buying.lines)
    if (line.item == ItemRef{kind, index}) return &line;
  return nullptr;
}

Buying buy(const Project& project, int kits) {
  const std::vector<int> orders(project.tiers.size(), kits);
  cut::Effort effort;
  effort.seconds = 5;
  return buying_for(project, orders, effort);
}

bool told(const Findings& findings, std::string_view code) {
  return std::any_of(findings.begin(), findings.end(),
                     [code](const Finding& finding) { return finding.code == code; });
}

} // namespace

TEST_CASE("a quarter of a pack of two sheets of each pattern is one half sheet of each") {
  // Common practice among those who share out paper: 6 x 12 in from a 12 x 12 in sheet.
  const SheetShare share = share_of_sheets(2, {inches(12), inches(12)}, 1, 4);
  CHECK(share.whole == 0);
  CHECK(share.pieces == 1);
  CHECK(share.piece == Size{inches(6), inches(12)});
}

TEST_CASE("a share gives whole sheets first and the rest as one size of piece") {
  const SheetShare three_eighths =
      share_of_sheets(6, {inches(12), inches(12)}, 3, 8); // 2 1/4 sheets
  CHECK(three_eighths.whole == 2);
  CHECK(three_eighths.pieces == 1);
  CHECK(three_eighths.piece == Size{inches(6), inches(6)});
  const SheetShare third = share_of_sheets(2, {millimetres(210), millimetres(297)}, 1, 3); // 2/3
  CHECK(third.pieces == 2);
  CHECK(third.piece == Size{millimetres(210), millimetres(99)});
  CHECK(share_of_sheets(4, {inches(12), inches(12)}, 1, 2).whole == 2);
}

TEST_CASE("two A2 bases come from one letter sheet, and packs are rounded up") {
  // Common practice: 4 1/4 x 11 in twice from 8 1/2 x 11 in. 30 kits of two cards: 60 bases, 30
  // sheets, 2 packs of 25 = 17.00.
  const Buying buying = buy(shop(), 30);
  const BuyingLine* line = line_of(buying, ItemKind::Stock, kraft);
  REQUIRE(line);
  CHECK(line->needed == 30);
  CHECK(line->bought == 50);
  CHECK(line->left == 20);
  REQUIRE(!buying.sheets.stocks.empty());
  CHECK(buying.sheets.stocks.front().words ==
        "30 sheets; no straight-cut plan can use fewer than 30");
  const auto bought =
      std::find_if(buying.purchases.begin(), buying.purchases.end(), [](const Purchase& one) {
        return one.item == ItemRef{ItemKind::Stock, kraft};
      });
  REQUIRE(bought != buying.purchases.end());
  CHECK(bought->packs == 2);
  CHECK(bought->cost == dollars(1700));
}

TEST_CASE("sheets in hand are not bought again") {
  Project project = shop();
  StockInHand hand;
  hand.item = {ItemKind::Stock, kraft};
  hand.count = 12;
  project.run.in_hand = {hand};
  const Buying buying = buy(project, 18); // 18 sheets of bases
  const BuyingLine* line = line_of(buying, ItemKind::Stock, kraft);
  REQUIRE(line);
  CHECK(line->in_hand == 12);
  CHECK(line->needed == 18);
  CHECK(line->bought == 25);
}

TEST_CASE("an offcut in hand saves a sheet where it can") {
  Project project = shop();
  StockInHand hand;
  hand.item = {ItemKind::Stock, kraft};
  hand.offcut = {inches(5), inches(11)};
  project.run.in_hand = {hand};
  project.run.of_each = 1;
  const Buying buying = buy(project, 3); // three bases: one sheet and the offcut
  REQUIRE(!buying.sheets.stocks.empty());
  const StockSheets& stock = buying.sheets.stocks.front();
  CHECK(stock.sheets == 1);
  CHECK(stock.offcuts == 1);
  CHECK(stock.proven);
}

TEST_CASE("spare pieces are a share of what is wanted, rounded up, and so many more") {
  Project project = shop();
  project.run.spare_percent = 5;
  project.run.spare_pieces = 1;
  const std::vector<int> kits{10};
  const CuttingPlan run = sheets_for_run(project, kits);
  REQUIRE(!run.pieces.empty());
  CHECK(run.pieces.front().wanted == 20);
  CHECK(run.pieces.front().spare == 2); // 5 % of 20, and one
}

TEST_CASE("spare pieces are cut for each size of a stock, not for each letter") {
  Project project = shop();
  project.run.spare_pieces = 1;
  Card& card = project.cards.front();
  Piece twin = card.pieces[label]; // another letter, the same size and paper
  twin.id = "twin";
  twin.letter = "Z";
  add(card, twin);
  const std::vector<int> kits{10};
  const CuttingPlan run = sheets_for_run(project, kits);
  std::int64_t spare = 0;
  for (const std::int64_t one : run.spare) spare += one;
  CHECK(spare == static_cast<std::int64_t>(run.pieces.size()));
  for (const CutPiece& piece : run.pieces) CHECK(piece.spare == 1);
  CHECK(run.pieces.size() < run.lines.size());
}

TEST_CASE("ribbon promised by the length comes from whole spools") {
  // By hand: 360 in give fifteen lengths of 24 in; 31 kits need three spools though 744 in
  // are 2.07.
  Project project = shop();
  Inclusion ribbon = include(ItemKind::Ribbon, 0, Amount::Kind::Length);
  ribbon.amount.length = inches(24);
  project.tiers.front().includes.push_back(ribbon);
  const Buying buying = buy(project, 31);
  const BuyingLine* line = line_of(buying, ItemKind::Ribbon, 0);
  REQUIRE(line);
  CHECK(line->needed == 3);
  CHECK(line->bought == 3);
  REQUIRE(!line->lengths_left.empty());
  CHECK(line->lengths_left.front().length == inches(336));
}

TEST_CASE("ribbon promised beyond a spool is a finding that names the spool that would do") {
  Project project = shop();
  Inclusion ribbon = include(ItemKind::Ribbon, 0, Amount::Kind::Length);
  ribbon.amount.length = inches(400);
  project.tiers.front().includes.push_back(ribbon);
  const Buying buying = buy(project, 1);
  REQUIRE(told(buying.findings, "buy-ribbon-too-long"));
  for (const Finding& finding : buying.findings)
    if (finding.code == "buy-ribbon-too-long")
      CHECK(finding.fix.find("400\u00A0in") != std::string::npos);
}

TEST_CASE("loose pieces share packs, packs given unopened do not") {
  Project project = shop();
  project.tiers.front().includes.push_back(
      include(ItemKind::Embellishment, 0, Amount::Kind::Count, 12));
  Tier whole = project.tiers.front();
  whole.id = whole.name = "whole";
  whole.includes = {include(ItemKind::Embellishment, 0, Amount::Kind::Whole)};
  project.tiers.push_back(whole);
  const Buying buying = buy(project, 7); // 84 loose = 2 packs of 80, and 7 unopened
  const BuyingLine* line = line_of(buying, ItemKind::Embellishment, 0);
  REQUIRE(line);
  CHECK(line->needed == 84 + 7 * 80);
  CHECK(line->bought == 9 * 80);
  CHECK(line->left == 76);
}

TEST_CASE(
    "shares that leave part of a pack to nobody are told, with how many more would use it up") {
  Project project = shop();
  Pack pack;
  pack.id = "pair";
  pack.name = "Pair pack";
  pack.lines = {{dots, 3}, {cream, 3}};
  pack.price = dollars(550);
  project.packs = {pack};
  Inclusion share = include(ItemKind::Pack, 0, Amount::Kind::Share);
  share.amount.numerator = 1;
  share.amount.denominator = 3;
  project.tiers.front().includes = {share};
  const Buying thirteen = buy(project, 13);
  REQUIRE(told(thirteen.findings, "buy-share-stranded"));
  for (const Finding& finding : thirteen.findings)
    if (finding.code == "buy-share-stranded") {
      CHECK(finding.found == "13 shares of Pair pack come to 4 1/3 packs");
      CHECK(finding.fix == "2/3 of a pack is left; 2 more shares would use it up");
    }
  CHECK_FALSE(told(buy(project, 12).findings, "buy-share-stranded"));
}

// A third of 11 in is no whole number of nanometres; by hand, nine thirds are three sheets.
TEST_CASE("three thirds of a sheet are cut from one sheet, and nothing is left of it") {
  Project project = shop();
  Inclusion share = include(ItemKind::Stock, kraft, Amount::Kind::Share);
  share.amount.numerator = 1;
  share.amount.denominator = 3;
  project.tiers.front().includes = {share};
  const Buying nine = buy(project, 9);
  const auto stock = std::find_if(nine.sheets.stocks.begin(), nine.sheets.stocks.end(),
                                  [](const StockSheets& one) { return one.stock == kraft; });
  REQUIRE(stock != nine.sheets.stocks.end());
  CHECK(stock->sheets == 3);
  REQUIRE(stock->layouts.size() == 1);
  const SheetLayout& layout = stock->layouts.front();
  CHECK(layout.leftovers.empty());
  CHECK(layout.moves.size() == 2);
  CHECK(layout.sheet == Size{inches(8, 1, 2), inches(11)});
  for (const Placed& placed : layout.pieces)
    CHECK(placed.box.size == Size{inches(8, 1, 2), inches(11) / 3});
}

TEST_CASE("a pack of several papers is bought once for all of them") {
  // By hand: a third of three sheets is one sheet of each, and 12 thirds are four packs.
  Project project = shop();
  for (const int stock : {dots, cream})
    project.stocks[static_cast<std::size_t>(stock)].sheets.front().sold = {};
  Pack pack;
  pack.id = pack.name = "pair";
  pack.lines = {{dots, 3}, {cream, 3}};
  pack.price = dollars(550);
  project.packs = {pack};
  Inclusion share = include(ItemKind::Pack, 0, Amount::Kind::Share);
  share.amount.denominator = 3;
  project.tiers.front().includes = {share};
  const Buying buying = buy(project, 12);
  REQUIRE(buying.purchases.size() == 1);
  CHECK(buying.purchases.front().packs == 4);
  CHECK(buying.total == dollars(2200));
  CHECK(buying.unpriced.empty());
}

// A pack has three sheets of each: 12 thirds are four packs opened, and one more is given whole to
// each of the 12. One pack in hand goes first.
TEST_CASE("packs that are opened for shares are needed like those given unopened") {
  Project project = shop();
  for (const int stock : {dots, cream})
    project.stocks[static_cast<std::size_t>(stock)].sheets.front().sold = {};
  Pack pack;
  pack.id = pack.name = "pair";
  pack.lines = {{dots, 3}, {cream, 3}};
  pack.price = dollars(550);
  project.packs = {pack};
  Inclusion share = include(ItemKind::Pack, 0, Amount::Kind::Share);
  share.amount.denominator = 3;
  project.tiers.front().includes = {share};
  StockInHand hand;
  hand.item = {ItemKind::Pack, 0};
  hand.count = 1;
  project.run.in_hand = {hand};

  const Buying shares = buy(project, 12);
  const BuyingLine* line = line_of(shares, ItemKind::Pack, 0);
  REQUIRE(line);
  CHECK(line->needed == 4);
  CHECK(line->in_hand == 1);
  CHECK(line->bought == 3);
  CHECK(line->left == 0);

  project.tiers.front().includes.push_back(include(ItemKind::Pack, 0, Amount::Kind::Whole));
  const Buying both = buy(project, 12);
  REQUIRE(line_of(both, ItemKind::Pack, 0));
  CHECK(line_of(both, ItemKind::Pack, 0)->needed == 16);
  CHECK(line_of(both, ItemKind::Pack, 0)->bought == 15);
}

TEST_CASE("a pack in hand that nobody needs stays closed, and its sheets are not left twice") {
  Project project = shop();
  Pack pack;
  pack.id = pack.name = "pair";
  pack.lines = {{dots, 3}, {cream, 3}};
  project.packs = {pack};
  Inclusion share = include(ItemKind::Pack, 0, Amount::Kind::Share);
  share.amount.denominator = 3;
  project.tiers.front().includes = {share};
  StockInHand hand;
  hand.item = {ItemKind::Pack, 0};
  hand.count = 3;
  project.run.in_hand = {hand};
  const Buying buying = buy(project, 3); // three thirds are one pack
  REQUIRE(line_of(buying, ItemKind::Pack, 0));
  CHECK(line_of(buying, ItemKind::Pack, 0)->needed == 1);
  CHECK(line_of(buying, ItemKind::Pack, 0)->left == 2);
  REQUIRE(line_of(buying, ItemKind::Stock, dots));
  CHECK(line_of(buying, ItemKind::Stock, dots)->in_hand == 3);
  CHECK(line_of(buying, ItemKind::Stock, dots)->left == 0);
}

TEST_CASE("what another plan might save is never told too low") {
  CHECK(most_saved(1000, 999) == "0.1 %");
  CHECK(most_saved(3000, 2999) == "0.1 %");  // 0.033 %
  CHECK(most_saved(3000, 2600) == "13.4 %"); // 13.33 %
  CHECK(most_saved(3000, 3000) == "0.0 %");
  CHECK(most_saved(0, 0) == "0.0 %");
}

TEST_CASE("a thing without a price is told and not counted as free") {
  Project project = shop();
  project.stocks[kraft].sheets.front().sold.price.reset();
  const Buying buying = buy(project, 2);
  CHECK(told(buying.findings, "buy-no-price"));
  REQUIRE(!buying.unpriced.empty());
  CHECK(buying.unpriced.front() == ItemRef{ItemKind::Stock, kraft});
}

TEST_CASE("whatever is ordered, enough is bought, nothing goes missing and the money adds up") {
  std::mt19937 random(5);
  for (int round = 0; round < 12; ++round) {
    Project project = shop();
    project.tiers.front().includes.push_back(
        include(ItemKind::Envelope, 0, Amount::Kind::Count, 1 + static_cast<int>(random() % 9)));
    project.tiers.front().includes.push_back(include(ItemKind::Ribbon, 0, Amount::Kind::AsNeeded));
    project.tiers.front().includes.push_back(
        include(ItemKind::Adhesive, static_cast<int>(random() % 2), Amount::Kind::AsNeeded));
    project.run.spare_percent = static_cast<int>(random() % 12);
    StockInHand hand;
    hand.item = {ItemKind::Stock, static_cast<int>(random() % 3)};
    hand.count = static_cast<int>(random() % 9);
    project.run.in_hand = {hand};
    const Buying buying = buy(project, 1 + static_cast<int>(random() % 40));
    Money sum{0, project.currency};
    for (const Purchase& one : buying.purchases) {
      sum = sum + one.cost;
      CHECK(one.packs > 0);
    }
    CHECK(sum == buying.total);
    for (const BuyingLine& line : buying.lines) {
      CHECK(line.needed <= line.in_hand + line.bought);
      CHECK(line.left == line.in_hand + line.bought - line.needed);
    }
    // Every piece is cut as often as it is wanted, no more.
    std::map<int, std::int64_t> placed;
    for (const StockSheets& stock : buying.sheets.stocks)
      for (const SheetLayout& pattern : stock.layouts)
        for (const Placed& one : pattern.pieces) placed[one.piece] += pattern.times;
    for (std::size_t i = 0; i < buying.sheets.pieces.size(); ++i)
      CHECK(placed[static_cast<int>(i)] ==
            buying.sheets.pieces[i].wanted + buying.sheets.pieces[i].spare);
  }
}

TEST_CASE("no plan buys for less than a hasty one says it takes for certain") {
  std::mt19937 random(20270316);
  Project project = shop();
  int known = 0;
  for (int round = 0; round < 40; ++round) {
    const std::vector<int> kits{1 + static_cast<int>(random() % 60)};
    cut::Effort hasty;
    hasty.work = round % 2 == 0 ? 1'000 : 200'000;
    const Buying in_haste = buying_for(project, kits, hasty);
    const Buying whole = buying_for(project, kits);
    CAPTURE(kits.front());
    if (!in_haste.at_least) continue;
    ++known;
    CHECK(in_haste.at_least->minor <= whole.total.minor);
    CHECK(whole.total.minor <= in_haste.total.minor);
    REQUIRE(whole.at_least);
    CHECK(whole.at_least->minor <= whole.total.minor);
  }
  CHECK(known > 20);
}

TEST_CASE("the quick cost is exact for the kits it was prepared with, and grows with them") {
  Project project = shop();
  project.run.planned = {{0, 20, {}}};
  const RunCost cost(project);
  const std::vector<int> planned{20};
  CHECK(cost(planned) == buying_for(project, planned).total);
  Money before{0, project.currency};
  for (int kits = 0; kits <= 60; kits += 5) {
    const Money now = cost(std::vector<int>{kits});
    CHECK(now.minor >= before.minor);
    before = now;
  }
}

TEST_CASE("the quick cost may lean on the sheets of a list that is there already") {
  Project project = shop();
  const std::vector<int> kits{17};
  const Buying buying = buying_for(project, kits);
  CHECK(RunCost(project, buying.sheets)(kits) == buying.total);
}

TEST_CASE("a run whose sheets are only counted costs what the run that is cut costs") {
  const Project project = shop();
  for (const int kits : {1, 4, 13, 30}) {
    CAPTURE(kits);
    const std::vector<int> of_tier{kits};
    const Buying cut_by = buying_for(project, of_tier);
    const Buying counted = buying_for(project, of_tier, {}, cut::Objective::SheetCount);
    CHECK(counted.total == cut_by.total);
    CHECK(counted.at_least == cut_by.at_least);
    CHECK(counted.least_cost == cut_by.least_cost);
  }
}
