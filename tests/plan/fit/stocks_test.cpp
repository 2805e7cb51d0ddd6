#include "found.h"

using namespace leafwright;
using namespace leafwright::testing;

namespace {

// The scene of the small card, stamped, on another kind of stock.
template <class Change>
Project scene_of(Stock::Kind kind, Change change) {
  return changed([&](Project& project, Card& card) {
    project.stocks[cream].kind = kind;
    change(project, card.pieces[scene]);
  });
}

void nothing(Project&, Piece&) {}
void heat(Project&, Piece& piece) { piece.stamped.at(0).method = Impression::Method::HeatEmbossed; }

// A technique after so many of the images of its piece.
Finish finish(Finish::Kind kind, std::size_t images) {
  Finish one;
  one.kind = kind;
  one.images = images;
  one.ink = 0;
  return one;
}

} // namespace

TEST_CASE("heat on acetate is told with its reason") {
  const Findings some = found(scene_of(Stock::Kind::Clear, heat), "fit-stock-work");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Warning);
  CHECK(some[0].found == "the scene of “Trees” is acetate and takes heat embossing: acetate warps "
                         "and melts in hot air");
  CHECK_FALSE(says(scene_of(Stock::Kind::Cardstock, heat), "fit-stock-work"));
}

TEST_CASE("what a stock bears with care is a note") {
  const Findings some = found(scene_of(Stock::Kind::Vellum, heat), "fit-stock-care");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Note);
}

TEST_CASE("a base of chipboard does not fold") {
  const Project project =
      changed([](Project& all, Card&) { all.stocks[kraft].kind = Stock::Kind::Chipboard; });
  CHECK(says(project, "fit-stock-work"));
}

TEST_CASE("dye ink wipes off a mirror, solvent ink does not") {
  const auto stamped_in = [](Ink::Kind ink) {
    return scene_of(Stock::Kind::Mirror,
                    [ink](Project& project, Piece&) { project.inks[0].kind = ink; });
  };
  CHECK(says(stamped_in(Ink::Kind::Dye), "fit-ink-wet"));
  CHECK_FALSE(says(stamped_in(Ink::Kind::Solvent), "fit-ink-wet"));
}

TEST_CASE("of an ink whose kind is not said nothing is claimed") {
  CHECK_FALSE(says(scene_of(Stock::Kind::Mirror, nothing), "fit-ink-wet"));
}

TEST_CASE("a wash comes before what it would dissolve") {
  const auto washed = [](std::size_t after, Ink::Kind ink) {
    return scene_of(Stock::Kind::Watercolour, [&](Project& project, Piece& piece) {
      project.inks[0].kind = ink;
      piece.finishes.push_back(finish(Finish::Kind::Washed, after));
    });
  };
  CHECK(says(washed(1, Ink::Kind::Dye), "fit-wash-order"));
  CHECK_FALSE(says(washed(0, Ink::Kind::Dye), "fit-wash-order"));
  CHECK_FALSE(says(washed(1, Ink::Kind::Solvent), "fit-wash-order"));
}

TEST_CASE("only watercolor paper takes a wash without buckling") {
  const auto washed = [](Stock::Kind kind) {
    return scene_of(kind, [](Project&, Piece& piece) {
      piece.finishes.push_back(finish(Finish::Kind::Washed, 0));
    });
  };
  CHECK(says(washed(Stock::Kind::Cardstock), "fit-wash-paper"));
  CHECK_FALSE(says(washed(Stock::Kind::Watercolour), "fit-wash-paper"));
}

TEST_CASE("dry embossing comes after heat embossing") {
  const auto embossed = [](std::size_t after) {
    return scene_of(Stock::Kind::Cardstock, [after](Project& project, Piece& piece) {
      heat(project, piece);
      piece.finishes.push_back(finish(Finish::Kind::Embossed, after));
    });
  };
  CHECK(says(embossed(0), "fit-emboss-order"));
  CHECK_FALSE(says(embossed(1), "fit-emboss-order"));
}

TEST_CASE("a folder is as large as its piece, whichever way it is turned") {
  const auto folder = [](Size size) {
    return scene_of(Stock::Kind::Cardstock, [size](Project& project, Piece& piece) {
      Tool tool;
      tool.id = tool.name = "leaf folder";
      tool.size = size;
      project.tools.push_back(tool);
      Finish one = finish(Finish::Kind::Embossed, 1);
      one.tool = static_cast<int>(project.tools.size()) - 1;
      piece.finishes.push_back(one);
      piece.size = {inches(3), inches(4)};
    });
  };
  CHECK_FALSE(says(folder({inches(4), inches(3)}), "fit-folder"));
  CHECK(says(folder({inches(3), inches(3, 7, 8)}), "fit-folder"));
}
