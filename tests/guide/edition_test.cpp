#include "guide/dump.h"
#include "guide/handout.h"
#include "guide/internal/handout/class_counts.h"
#include "guide/internal/section/chapters.h"
#include "guide/prose.h"
#include "guide/tutorial.h"
#include "plan/supply/needs.h"
#include "plan/supply/shortfall.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

using namespace leafwright;

namespace {

struct Prepared {
  Project project;
  supply::CuttingPlan sheets;
};

// The cut list alone is enough here: how pieces lie on sheets is tested where it is worked out.
const Prepared& orchard() {
  static const Prepared prepared = [] {
    Reading reading =
        read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/orchard-gate/project.xml");
    REQUIRE(reading.ok());
    supply::CuttingPlan sheets;
    sheets.lines = supply::cut_list(reading.project);
    return Prepared{std::move(reading.project), std::move(sheets)};
  }();
  return prepared;
}

int tier_named(const Project& project, const std::string& id) {
  const auto found = std::ranges::find(project.tiers, id, &Tier::id);
  REQUIRE(found != project.tiers.end());
  return static_cast<int>(found - project.tiers.begin());
}

guide::Document edition_for(const std::string& tier) {
  guide::TutorialOptions options;
  options.tier = tier_named(orchard().project, tier);
  return guide::tutorial(orchard().project, orchard().sheets, options);
}

std::set<std::string> names_of(const guide::Document& document) {
  std::set<std::string> names;
  for (const guide::Section& section : document.sections) names.insert(section.name);
  return names;
}

const guide::Section& section_of(const guide::Document& document, const std::string& name) {
  const auto found = std::ranges::find(document.sections, name, &guide::Section::name);
  REQUIRE(found != document.sections.end());
  return *found;
}

std::vector<const guide::Table*> tables_of(const guide::Section& section) {
  std::vector<const guide::Table*> tables;
  for (const guide::Block& block : section.blocks)
    if (const auto* table = std::get_if<guide::Table>(&block.what)) tables.push_back(table);
  return tables;
}

std::string plain_blanks(std::string text) {
  for (std::size_t at = 0; (at = text.find("\u00A0", at)) != std::string::npos;)
    text.replace(at, 2, " ");
  return text;
}

} // namespace

TEST_CASE("a buyer whose parts come cut gets envelopes in place of cutting") {
  const guide::Document document = edition_for("full");
  CHECK_FALSE(names_of(document).contains("cut-diagrams"));
  CHECK_FALSE(names_of(document).contains("tiers"));
  const guide::Section& envelopes = section_of(document, "cut-list");
  CHECK(envelopes.running == "Your envelopes");
  const std::string text = guide::dump(envelopes);
  for (const Card& card : orchard().project.cards)
    for (const Piece& piece : card.pieces) {
      CAPTURE(piece.letter);
      CHECK(text.find("(" + piece.letter + ")") != std::string::npos);
    }
}

TEST_CASE("a buyer of the booklet alone gets the sheets and how they are cut") {
  const guide::Document document = edition_for("booklet");
  CHECK(section_of(document, "cut-list").running == "What to cut");
  // Nothing came with it: there is one list, of all that the cards take.
  CHECK(tables_of(section_of(document, "supplies")).size() == 1);
}

TEST_CASE("what came with a kit and what is added are the whole of what the cards take, once") {
  const supply::Needs needs = supply::needs_of_kit(orchard().project);
  for (const Tier& tier : orchard().project.tiers) {
    CAPTURE(tier.id);
    std::size_t rows = 0;
    const guide::Document document = edition_for(tier.id);
    for (const guide::Table* table : tables_of(section_of(document, "supplies")))
      rows += static_cast<std::size_t>(
          std::ranges::count(table->rows, guide::Row::Kind::Plain, &guide::Row::kind));
    const supply::Needs beside = supply::needs_beside_parts(orchard().project, tier);
    const auto wanted = std::ranges::count_if(needs, [&](const supply::Need& need) {
      return guide::holds_some(orchard().project, tier, need) ||
             supply::find(beside, need.item) != nullptr;
    });
    const auto short_of = supply::shortfalls_of(orchard().project, tier).size();
    CHECK(rows == static_cast<std::size_t>(wanted) + short_of); // in part came, in part to add
  }
}

TEST_CASE("whose parts come die-cut adds no die, no die-cutting machine and no trimmer") {
  for (const std::string tier : {"full", "cut-parts"}) {
    CAPTURE(tier);
    const std::string text = guide::dump(section_of(edition_for(tier), "supplies"));
    const std::string added = text.substr(text.find("What you add"));
    CHECK(added.find(" die,") == std::string::npos);
    CHECK(added.find("Die-cutting machine") == std::string::npos);
    CHECK(added.find("trimmer") == std::string::npos);
    CHECK(added.find("Bone folder") != std::string::npos);
  }
  // Cut to rectangles only, the dies are still the buyer's to add.
  Project uncut = orchard().project;
  const auto full = static_cast<std::size_t>(tier_named(uncut, "full"));
  uncut.tiers[full].die_cut = false;
  const std::string text = guide::dump(
      guide::owned_supplies_section(uncut, supply::needs_of_kit(uncut), uncut.tiers[full]));
  CHECK(text.find("Die-cutting machine") != std::string::npos);
  CHECK(text.find("Scalloped circle die") != std::string::npos);
}

TEST_CASE("parts that come die-cut are listed and told as they lie in the envelope") {
  const guide::Document document = edition_for("full");
  const std::string envelopes = guide::dump(section_of(document, "cut-list"));
  CHECK(plain_blanks(envelopes).find("2 × 2 in") == std::string::npos);
  CHECK(plain_blanks(envelopes).find("1 3/4 in across") != std::string::npos);
  const std::string gate = guide::dump(section_of(document, "card-gate"));
  CHECK(gate.find("Take the die-cut rust latch") != std::string::npos);
  const std::string window = guide::dump(section_of(document, "card-window"));
  CHECK(window.find("Take the die-cut striped frame") != std::string::npos);
  for (const Card& card : orchard().project.cards) {
    CAPTURE(card.id);
    const std::string steps = guide::dump(section_of(document, "card-" + card.id));
    CHECK(steps.find("Die cut ") == std::string::npos);
    CHECK(steps.find("Cut a window,") == std::string::npos);
    CHECK(steps.find("If you have no die") == std::string::npos);
  }
}

TEST_CASE("what a share of the papers falls short of is listed as the buyer's to add") {
  // One kit is cut from six sheets of cream, five are sent; of the patterned papers a sheet and a
  // half are sent, where 114 and 63 square inches are cut.
  const guide::Document document = edition_for("paper");
  const auto tables = tables_of(section_of(document, "supplies"));
  REQUIRE(tables.size() == 2);
  guide::Section own{"own", "own", {}};
  own.blocks.push_back({*tables[1], {}});
  const std::string text = plain_blanks(guide::dump(own));
  const auto row = [&](const std::string& name) {
    const std::size_t at = text.find(name);
    return at == std::string::npos ? std::string() : text.substr(at, text.find('\n', at) - at);
  };
  CHECK(row("Cream, 110").find("1 sheet more") != std::string::npos);
  CHECK(row("Hedge stripes").empty());
  CHECK(row("Windfall dots").empty());
  CHECK(row("Kraft").empty());
  const std::string cutting = guide::dump(section_of(document, "cut-diagrams"));
  CHECK(cutting.find("for whole sheets") != std::string::npos);
  CHECK(guide::dump(section_of(edition_for("booklet"), "cut-diagrams")).find("for whole sheets") ==
        std::string::npos);
}

TEST_CASE("a piece that is cut larger first has its blank and its finished size under two heads") {
  guide::HandoutOptions options;
  options.teacher = true;
  const guide::Document document = guide::handouts(orchard().project, orchard().sheets, options);
  const guide::Section& trees = section_of(document, "card-trees");
  const auto check = [](const guide::Table& table) {
    CAPTURE(table.caption);
    const auto column = [&](const std::string& head) {
      const auto found = std::ranges::find_if(
          table.columns, [&](const guide::Column& one) { return guide::spoken(one.head) == head; });
      REQUIRE(found != table.columns.end());
      return static_cast<std::size_t>(found - table.columns.begin());
    };
    const std::size_t cut = column("Cut"), finished = column("Finished");
    for (const guide::Row& row : table.rows) {
      const std::string letter = guide::spoken(row.cells.at(0));
      CAPTURE(letter);
      const std::string blank = plain_blanks(guide::spoken(row.cells.at(cut)));
      const std::string after = plain_blanks(guide::spoken(row.cells.at(finished)));
      if (letter == "(D)") { // the label, die-cut
        CHECK(blank == "2 3/4 × 1 1/16 in");
        CHECK(after == "2 1/2 × 13/16 in");
      } else {
        CHECK_FALSE(blank.empty());
        CHECK(after.empty());
      }
    }
  };
  const auto* beside = std::get_if<guide::Beside>(&trees.blocks.at(1).what);
  REQUIRE(beside != nullptr);
  const auto* pieces = std::get_if<guide::Table>(&beside->blocks.at(0).what);
  REQUIRE(pieces != nullptr);
  check(*pieces);
  check(*tables_of(trees).back()); // what is prepared before class
  // The blank in the other unit, too.
  CHECK(plain_blanks(guide::spoken(pieces->rows.at(3).cells.at(3))) == "≈70 × 27 mm");
}

TEST_CASE("a handout sends nobody to a drawing that it has not") {
  const guide::Document document = guide::handouts(orchard().project, orchard().sheets, {});
  const std::string text = guide::dump(document);
  CHECK(text.find("drawing shows") == std::string::npos);
  CHECK(text.find("as in the picture of the card") != std::string::npos);
  CHECK(guide::dump(edition_for("booklet")).find("where the drawing shows") != std::string::npos);
}

TEST_CASE("a handout warns of what its card uses, and of nothing else") {
  const guide::Document document = guide::handouts(orchard().project, orchard().sheets, {});
  const auto text = [&](const std::string& card) {
    return guide::dump(section_of(document, "card-" + card));
  };
  CHECK(text("window").find("hot tools") != std::string::npos);
  CHECK(text("gate").find("hot tools") == std::string::npos);
  CHECK(text("trees").find("Clear domes can be swallowed") != std::string::npos);
  CHECK(text("gate").find("swallowed") == std::string::npos);
}

TEST_CASE("a handout with a light warns of flames and batteries") {
  Reading reading =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/kelp-lantern/project.xml");
  REQUIRE(reading.ok());
  supply::CuttingPlan sheets;
  sheets.lines = supply::cut_list(reading.project);
  const guide::Document document = guide::handouts(reading.project, sheets, {});
  const std::string lit = guide::dump(section_of(document, "card-night-light"));
  CHECK(lit.find("never a flame") != std::string::npos);
  CHECK(lit.find("Batteries") != std::string::npos);
  CHECK(guide::dump(section_of(document, "card-forest")).find("Batteries") == std::string::npos);
}

TEST_CASE("a single score stands under its piece's size, several have a column") {
  const guide::Document document = guide::handouts(orchard().project, orchard().sheets, {});
  const std::string gate = plain_blanks(guide::dump(section_of(document, "card-gate")));
  CHECK(gate.find("Score at") == std::string::npos);
  CHECK(gate.find("8 1/2 × 5 1/2 in, score at 2 1/8 in and 6 3/8 in") != std::string::npos);
  Project project = orchard().project;
  for (Piece& piece : project.cards[1].pieces)
    if (piece.id == "welcome") piece.scores.push_back({true, inches(1), false});
  CHECK(guide::dump(guide::handouts(project, orchard().sheets, {}).sections[1]).find("Score at") !=
        std::string::npos);
}

TEST_CASE("an edition says whose it is") {
  CHECK(edition_for("full").edition == "Edition\u00A03 · March 2, 2027 · Full kit");
  guide::TutorialOptions options;
  options.students = 12;
  const guide::Document taught = guide::tutorial(orchard().project, orchard().sheets, options);
  CHECK(taught.edition == "Edition\u00A03 · March 2, 2027 · for a class of 12");
  CHECK(names_of(taught).contains("class"));
}

TEST_CASE("a handout is one section a card with every piece, every step and room to write") {
  const guide::Document document = guide::handouts(orchard().project, orchard().sheets, {});
  REQUIRE(document.sections.size() == orchard().project.cards.size());
  for (std::size_t i = 0; i < document.sections.size(); ++i) {
    const Card& card = orchard().project.cards[i];
    const std::string text = guide::dump(document.sections[i]);
    CHECK(document.sections[i].name == "card-" + card.id);
    for (const Piece& piece : card.pieces)
      CHECK(text.find("(" + piece.letter + ")") != std::string::npos);
    CHECK(text.find("lines: Notes") != std::string::npos);
    CHECK(text.find("Fold the ") != std::string::npos);
  }
}

TEST_CASE("the teacher's counts are the kit's times the students, by table and in all") {
  guide::HandoutOptions options;
  options.teacher = true;
  options.students = 10;
  options.tables = 3;
  const guide::Document document = guide::handouts(orchard().project, orchard().sheets, options);
  const auto tables = tables_of(section_of(document, "card-trees"));
  REQUIRE(tables.size() >= 1);
  const guide::Table& counts = *tables.back();
  for (const guide::Row& row : counts.rows) {
    const std::size_t each = row.cells.size() - 3;
    CHECK(guide::spoken(row.cells.at(each)) == "3"); // three of each card
    // Ten students at three tables: four at the fullest.
    CHECK(guide::spoken(row.cells.at(each + 1)) == "12");
    CHECK(guide::spoken(row.cells.at(each + 2)) == "30");
  }
}

TEST_CASE("spare pieces are counted once for the whole class") {
  Project project = orchard().project;
  project.run.spare_percent = 10;
  project.run.spare_pieces = 1;
  guide::HandoutOptions options;
  options.teacher = true;
  options.students = 9;
  options.tables = 1;
  const guide::Document document = guide::handouts(project, orchard().sheets, options);
  const guide::Table& counts = *tables_of(section_of(document, "card-trees")).back();
  // 27 pieces, a tenth more rounded up, and one: 27 + 3 + 1.
  CHECK(guide::spoken(counts.rows.at(0).cells.back()) == "31");
}
