#include "../orchard.h"

#include "guide/block.h"
#include "guide/business/business.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"
#include "guide/tutorial.h"
#include "measure/index.h"
#include "plan/supply/sheets.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

// What a buyer finds in her parcel she was told of before, and finds in her booklet: whatever the
// tiers hold. Tiers at random over random cards of the large samples; numbers of the standard's own
// generator, alike on every machine.

using namespace leafwright;
using namespace leafwright::guide;

using leafwright::test::orchard_gate;

namespace {

std::string plain_blanks(std::string text) {
  for (std::size_t at = 0; (at = text.find("\u00A0", at)) != std::string::npos;)
    text.replace(at, 2, " ");
  return text;
}

class Dice {
 public:
  explicit Dice(unsigned seed) : random_(seed) {}
  int below(std::size_t limit) { return static_cast<int>(random_() % limit); }
  bool one_in(unsigned n) { return random_() % n == 0; }

 private:
  std::mt19937 random_;
};

Amount share(int numerator, int denominator) {
  Amount amount;
  amount.kind = Amount::Kind::Share;
  amount.numerator = numerator;
  amount.denominator = denominator;
  return amount;
}

Amount of_kind(Amount::Kind kind, int count = 1) {
  Amount amount;
  amount.kind = kind;
  amount.count = count;
  return amount;
}

Amount paper_amount(Dice& dice, ItemKind kind) {
  switch (dice.below(4)) {
  case 0: return of_kind(Amount::Kind::Whole);
  case 1: {
    Amount cut = of_kind(Amount::Kind::Sheets, 1 + dice.below(3));
    cut.piece = {inches(3 + dice.below(2)), inches(5)};
    return cut;
  }
  case 2:
    if (kind == ItemKind::Stock) return of_kind(Amount::Kind::Count, 1 + dice.below(3));
    [[fallthrough]];
  default: return share(1, 2 + dice.below(4));
  }
}

Inclusion random_thing(const Project& project, Dice& dice) {
  Inclusion one;
  one.amount = of_kind(Amount::Kind::Whole);
  const auto pick = [&](ItemKind kind, const auto& list) {
    one.item = {kind, dice.below(list.size())};
  };
  switch (dice.below(8)) {
  case 0:
  case 1:
    pick(ItemKind::Stock, project.stocks);
    one.amount = paper_amount(dice, one.item.kind);
    break;
  case 2:
  case 3:
    if (project.packs.empty())
      pick(ItemKind::Stock, project.stocks);
    else
      pick(ItemKind::Pack, project.packs);
    one.amount = paper_amount(dice, one.item.kind);
    break;
  case 4: pick(ItemKind::Ribbon, project.ribbons); break;
  case 5:
    pick(ItemKind::Embellishment, project.embellishments);
    one.amount = of_kind(Amount::Kind::Count, 1 + dice.below(9));
    break;
  case 6: pick(ItemKind::Die, project.dies); break;
  default: pick(ItemKind::Ink, project.inks); break;
  }
  one.gift = dice.one_in(4);
  return one;
}

Tier random_tier(const Project& project, Dice& dice, int number) {
  Tier tier;
  tier.id = "t" + std::to_string(number);
  tier.name = "Tier " + std::to_string(number);
  tier.price = Money{2000, project.currency};
  tier.parts_cut = dice.one_in(2);
  if (!dice.one_in(3)) tier.includes.push_back({{ItemKind::Tutorial, -1}, {}, false, {}, {}, {}});
  if (!dice.one_in(3)) {
    Inclusion parts{{ItemKind::Parts, -1}, {}, false, {}, {}, {}};
    if (dice.one_in(3)) parts.cards = {dice.below(project.cards.size())};
    tier.includes.push_back(std::move(parts));
  }
  for (int n = 1 + dice.below(5); n > 0; --n) {
    Inclusion one = random_thing(project, dice);
    const auto again = std::ranges::find(tier.includes, one.item, &Inclusion::item);
    if (again == tier.includes.end()) tier.includes.push_back(std::move(one));
  }
  return tier;
}

// Any of the large samples, with any of its cards, in any order of papers and of kits.
Project random_base(Dice& dice) {
  Project project = dice.one_in(2) ? leafwright::test::kelp_lantern() : orchard_gate();
  while (project.cards.size() > 1 && dice.one_in(2))
    project.cards.erase(project.cards.begin() + dice.below(project.cards.size()));
  project.run.of_each = 1 + dice.below(3);
  return project;
}

Project random_project(unsigned seed) {
  Dice dice(seed);
  Project project = random_base(dice);
  // A paper, an ink and a die that no card uses.
  Stock stock = project.stocks.front();
  stock.id = "unused";
  stock.name = "Unused paper";
  project.stocks.push_back(stock);
  project.dies.push_back(project.dies.front());
  project.dies.back().name = "Unused die";
  project.tiers.clear();
  project.run.orders.clear();
  for (int number = 0; number < 3; ++number) {
    project.tiers.push_back(random_tier(project, dice, number));
    Order order;
    order.name = "Buyer " + std::to_string(number);
    order.tier = number;
    if (!dice.one_in(3)) project.run.orders.push_back(std::move(order));
  }
  return project;
}

// Rows of all tables of a document, cells parted by bars; of one column alone beside the first when
// it is given.
std::vector<std::string> rows_of(const Document& document, std::string_view section,
                                 std::string_view column = {}) {
  std::vector<std::string> rows;
  for (const Section& one : document.sections) {
    if (one.name != section) continue;
    for (const Block& block : one.blocks) {
      const auto* table = std::get_if<Table>(&block.what);
      if (!table) continue;
      for (const Row& row : table->rows) {
        std::string text;
        for (std::size_t i = 0; i < row.cells.size(); ++i)
          if (i == 0 || column.empty() || spoken(table->columns.at(i).head) == column)
            text += spoken(row.cells[i]) + " | ";
        rows.push_back(plain_blanks(std::move(text)));
      }
    }
  }
  return rows;
}

bool some_row(const std::vector<std::string>& rows, const std::vector<std::string>& parts,
              const std::vector<std::string>& never = {}) {
  return std::ranges::any_of(rows, [&](const std::string& row) {
    const auto holds = [&](const std::string& part) {
      return row.find(plain_blanks(part)) != std::string::npos;
    };
    return std::ranges::all_of(parts, holds) && std::ranges::none_of(never, holds);
  });
}

const std::vector<std::string> not_held = {"your own", "| no |", "not needed"};

class SlipReader {
 public:
  SlipReader(const Project& project, const PackingList& list, int tier,
             const orders::Contents& contents, const supply::CuttingPlan& sheets)
      : project_(project), list_(list), tier_(tier), contents_(contents), sheets_(sheets) {}

  void found_in_offer() const {
    const Document document =
        offer(project_, supply::needs_of_kit(project_), Tier::Audience::Anyone);
    const auto rows = rows_of(document, "offer-holds", tier_at(project_, tier_).name);
    for (const orders::PartLine& part : contents_.parts) {
      CAPTURE(part.letter);
      const std::string stock = item_name(project_, {ItemKind::Stock, part.stock});
      CHECK(some_row(rows, {stock, is_share(part) ? "(" + part.letter + ")" : "cut"}, not_held));
    }
    for (const orders::SupplyLine& line : contents_.supplies) {
      const std::string name = item_name(project_, line.taking.item);
      CAPTURE(name);
      CHECK(some_row(rows, {name}, not_held));
    }
  }

  void found_in_edition() const {
    TutorialOptions options;
    options.tier = tier_;
    const Document document = tutorial(project_, sheets_, options);
    std::vector<std::string> rows = rows_of(document, "supplies");
    for (const orders::SupplyLine& line : contents_.supplies) {
      const std::string name = item_name(project_, line.taking.item);
      CAPTURE(name);
      CHECK(some_row(rows, {name}, not_held));
    }
    for (const std::string& row : rows_of(document, "cut-list")) rows.push_back(row);
    letters_in(rows);
  }

  void found_in_key() const {
    letters_in(rows_of(letter_key(project_, sheets_, tier_), "letters"));
  }

 private:
  bool is_share(const orders::PartLine& part) const {
    return at(list_.pieces.lines, part.line).piece.card < 0;
  }
  void letters_in(const std::vector<std::string>& rows) const {
    for (const orders::PartLine& part : contents_.parts) {
      CAPTURE(part.letter);
      std::vector<std::string> said{"(" + part.letter + ")"};
      if (is_share(part)) {
        said.push_back(item_name(project_, {ItemKind::Stock, part.stock}));
        said.push_back("| " + std::to_string(part.count) + " |");
        said.push_back(size_text(part.size, project_.printing));
      }
      std::string with_letter;
      for (const std::string& row : rows)
        if (row.find(said.front()) != std::string::npos) with_letter += row + "\n";
      CAPTURE(with_letter);
      CAPTURE(said.back());
      CHECK(some_row(rows, said));
    }
  }

  const Project& project_;
  const PackingList& list_;
  int tier_;
  const orders::Contents& contents_;
  const supply::CuttingPlan& sheets_; // of a kit
};

} // namespace

TEST_CASE("what lies in a parcel is found in the offer of its tier and in its booklet, by letter") {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    CAPTURE(seed);
    const Project project = random_project(seed);
    const PackingList list = packing_list(project, orders::parcels_of(project));
    const supply::CuttingPlan sheets = supply::sheets_for(project);
    for (const orders::Parcel& parcel : list.parcels.parcels) {
      const int tier = at(project.run.orders, parcel.order).tier;
      CAPTURE(tier);
      const SlipReader slip(project, list, tier, at(list.contents, parcel.kind), sheets);
      slip.found_in_offer();
      if (holds_tutorial(at(project.tiers, tier))) slip.found_in_edition();
      if (wants_letter_key(at(project.tiers, tier))) slip.found_in_key();
    }
  }
}

TEST_CASE("a share keeps its letter whoever orders") {
  for (unsigned seed = 1; seed <= 40; ++seed) {
    CAPTURE(seed);
    Project project = random_project(seed);
    if (project.run.orders.size() < 2) continue;
    const PackingList all = packing_list(project, orders::parcels_of(project));
    const Order last = project.run.orders.back();
    project.run.orders = {last};
    const PackingList alone = packing_list(project, orders::parcels_of(project));
    const auto letters = [&](const PackingList& list, int kind) {
      std::vector<std::string> found;
      for (const orders::PartLine& part : at(list.contents, kind).parts)
        found.push_back(part.letter);
      return found;
    };
    CHECK(letters(alone, 0) == letters(all, all.parcels.parcels.back().kind));
  }
}

TEST_CASE("two shares of one paper lie in one envelope and are one row") {
  Project project = orchard_gate();
  const ItemRef dots{ItemKind::Stock, 5};
  REQUIRE(item_name(project, dots) == "Windfall dots");
  Inclusion half; // of the three sheets: one sheet and a piece, like half of the pack
  half.item = dots;
  half.amount = of_kind(Amount::Kind::Sheets, 1);
  half.amount.piece = {inches(6), inches(12)};
  project.tiers.at(2).includes.push_back(half); // the paper kit
  const PackingList list = packing_list(project, orders::parcels_of(project));
  const supply::CuttingPlan sheets = supply::sheets_for(project);
  SlipReader(project, list, 2, list.contents.at(2), sheets).found_in_edition();
}

TEST_CASE("a share beside cut parts is told with its letter, and so is a gift") {
  const PackingList list = packing_list(orchard_gate(), orders::parcels_of(orchard_gate()));
  const supply::CuttingPlan supply_sheets = supply::sheets_for(orchard_gate());
  const SlipReader full(orchard_gate(), list, 0, list.contents.at(0), supply_sheets);
  full.found_in_offer();
  full.found_in_edition();
  const auto rows =
      rows_of(offer(orchard_gate(), supply::needs_of_kit(orchard_gate()), Tier::Audience::Anyone),
              "offer-holds", "Full kit");
  CHECK(some_row(rows, {"Windfall", "cut + half of the pack, (S1) (gift)"}));
}

TEST_CASE("buyers of parts alone get a key to the letters, and the slip packs it") {
  Project project = orchard_gate();
  Tier& tier = project.tiers.at(1); // the parts kit
  std::erase_if(tier.includes,
                [](const Inclusion& one) { return one.item.kind == ItemKind::Tutorial; });
  const supply::CuttingPlan sheets = supply::sheets_for(project);
  const std::string key = dump(letter_key(project, sheets, 1));
  CHECK(key.find("Which letter is which") != std::string::npos);
  for (const Card& card : project.cards) {
    CHECK(key.find(card.title) != std::string::npos);
    for (const Piece& piece : card.pieces)
      CHECK(key.find("(" + piece.letter + ")") != std::string::npos);
  }
  CHECK(letter_key(project, sheets, 0).sections.empty());
  const PackingList list = packing_list(project, orders::parcels_of(project));
  const std::string slips = dump(packing_slips(project, list));
  CHECK(slips.find("Letter key: the page letters-cut-parts") != std::string::npos);
  CHECK(slips.find("letters-full") == std::string::npos);
}
