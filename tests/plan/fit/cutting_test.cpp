#include "found.h"

using namespace leafwright;
using namespace leafwright::testing;

TEST_CASE("a die larger than the rectangle it cuts from is told what to cut first") {
  const auto from = [](Size size) {
    return changed([size](Project&, Card& card) { card.pieces[label].cut_from = size; });
  };
  CHECK_FALSE(says(from({inches(2, 1, 2), inches(0, 13, 16)}), "fit-die"));
  CHECK_FALSE(says(from({inches(1), inches(3)}), "fit-die")); // plain card may be turned
  const Findings some = found(from({inches(2), inches(1)}), "fit-die");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix) == "cut 2 1/2 × 13/16 in first");
}

TEST_CASE("a die-cut piece has the size of its die") {
  const Project project =
      changed([](Project&, Card& card) { card.pieces[label].size.width = inches(2); });
  CHECK(plain(found(project, "fit-die-size").at(0).fix) == "make it 2 1/2 × 13/16 in");
  CHECK_FALSE(says(small_project(), "fit-die-size"));
}

namespace {

Project with_window(Size size, Point at) {
  return changed([=](Project&, Card& card) {
    Window window;
    window.id = "pane";
    window.size = size;
    window.at = at;
    card.pieces[mat].windows = {window};
  });
}

} // namespace

TEST_CASE("a window past the edge of its piece is an error, a thin rim a warning") {
  const Size pane{inches(2), inches(2)};
  CHECK_FALSE(says(with_window(pane, {inches(1), inches(1)}), "fit-window"));
  const Findings some = found(with_window(pane, {inches(2, 1, 4), inches(1)}), "fit-window");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix) == "move it 1/4 in to the left");
  CHECK(plain(found(with_window({inches(5), inches(1)}, {}), "fit-window").at(0).fix) ==
        "make it no larger than 3 3/4 × 5 in");
  const Findings thin = found(with_window(pane, {inches(1, 15, 16), inches(1)}), "fit-window-rim");
  REQUIRE(thin.size() == 1);
  CHECK(plain(thin[0].found).find("a rim of 1/16 in") != std::string::npos);
  CHECK_FALSE(says(with_window(pane, {inches(1, 7, 8), inches(1)}), "fit-window-rim"));
}

TEST_CASE("a die whose outline fills only part of its size is told with what is drawn") {
  const auto die_drawn_to = [](Length right) {
    return changed([right](Project& p, Card&) {
      Die& die = p.dies.at(0);
      die.size = {inches(2), inches(1)};
      die.shape = {};
      die.shape.outline = Shape::Outline::Free;
      die.shape.path_size = {inches(2), inches(1)};
      die.shape.path.push_back({Segment::Kind::Move, {}, {}, {}});
      for (const Point at : {Point{right, {}}, Point{right, inches(1)}, Point{{}, inches(1)}})
        die.shape.path.push_back({Segment::Kind::Line, {}, {}, at});
      die.shape.path.push_back({Segment::Kind::Close, {}, {}, {}});
    });
  };
  CHECK_FALSE(says(die_drawn_to(inches(1, 31, 32)), "fit-outline"));
  const Findings some = found(die_drawn_to(inches(1, 3, 4)), "fit-outline");
  REQUIRE(some.size() == 1);
  CHECK(
      plain(some[0].found).ends_with("is said to be 2 × 1 in, but what is drawn is 1 3/4 × 1 in"));
  CHECK(says(die_drawn_to(inches(2, 1, 4)), "fit-outline"));
}

TEST_CASE("a strip narrower than the trimmer holds is warned of") {
  const auto strip = [](Length width) {
    return changed([width](Project&, Card& card) {
      add(card, panel("strip", cream, on_face(front), {inches(4), width},
                      {inches(0, 1, 8), inches(0, 1, 8)}));
    });
  };
  CHECK_FALSE(says(strip(inches(0, 3, 8)), "fit-strip"));
  const Findings some = found(strip(inches(0, 1, 4)), "fit-strip");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix).find("make it 3/8 in wide") != std::string::npos);
  Project no_trimmer = strip(inches(0, 1, 4));
  no_trimmer.tools.clear();
  CHECK_FALSE(says(no_trimmer, "fit-strip"));
}

TEST_CASE("a piece that fits on no sheet names the sheet that would do") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[mat].cut_from = {inches(4), inches(13)};
  });
  const Findings some = found(project, "fit-sheet");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix).find("a sheet of at least 4 × 13 in") != std::string::npos);
  const supply::CuttingPlan sheets = supply::sheets_for(project);
  CHECK(found(project, "fit-sheet", &sheets).size() == 1); // said once with a layout too
}

TEST_CASE("a directed pattern that would fit turned says so") {
  const Project project = changed([](Project& p, Card& card) {
    p.stocks[dots].sheets[0].size = {inches(6), inches(12)};
    card.pieces[mat].cut_from = {inches(8), inches(5)};
  });
  CHECK(found(project, "fit-sheet").at(0).fix.find("upright") != std::string::npos);
}

TEST_CASE("a cut longer than the trimmer's is found in the layout") {
  Project project = small_project();
  CHECK(found(project, "fit-cut-length").empty());
  project.tools[0].cut_length = inches(8);
  const supply::CuttingPlan sheets = supply::sheets_for(project);
  const Findings some = found(project, "fit-cut-length", &sheets);
  CHECK_FALSE(some.empty());
  CHECK(plain(some[0].found).find("11 in") != std::string::npos);
}

TEST_CASE("a cut that leaves a sliver is noted from the layout") {
  supply::CuttingPlan sheets;
  supply::SheetLayout layout;
  layout.stock = kraft;
  layout.moves.push_back({1, false, {{}, {inches(8, 1, 2), inches(11)}}, inches(8, 1, 4), {}});
  sheets.stocks.emplace_back();
  sheets.stocks[0].stock = kraft;
  sheets.stocks[0].layouts = {layout};
  const Findings some = found(small_project(), "fit-margin", &sheets);
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].found).find("only 1/4 in") != std::string::npos);
  sheets.stocks[0].layouts[0].moves[0].at = inches(8);
  CHECK(found(small_project(), "fit-margin", &sheets).empty());
}

TEST_CASE("an image that fills only part of its size is told with what is drawn") {
  const auto image_drawn_to = [](Length right, bool over_another) {
    return changed([&](Project& p, Card& card) {
      PathArt line;
      line.path.push_back({Segment::Kind::Move, {}, {}, {}});
      line.path.push_back({Segment::Kind::Line, {}, {}, {right, inches(1)}});
      StampImage image;
      image.name = "leaf";
      image.size = {inches(2), inches(1)};
      image.artwork.push_back({line, 1.0, 0});
      StampImage below = image;
      std::get<PathArt>(below.artwork[0].what).path[1].end.x = inches(2);
      p.stamp_sets.resize(1);
      p.stamp_sets[0].images = {image, below};
      for (Piece& piece : card.pieces) piece.stamped.clear();
      Impression first, second;
      first.set = second.set = 0;
      first.image = 1;
      second.image = 0;
      first.places = second.places = {{}};
      card.pieces.at(1).stamped.push_back(second);
      if (over_another) card.pieces.at(1).stamped.push_back(first);
    });
  };
  CHECK_FALSE(says(image_drawn_to(inches(1, 3, 4), false), "fit-outline"));
  const Findings some = found(image_drawn_to(inches(1), false), "fit-outline");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].found) ==
        "the image “leaf” is said to be 2 × 1 in, but what is drawn is 1 × 1 in");
  // It lies where it must on the image below.
  CHECK_FALSE(says(image_drawn_to(inches(1), true), "fit-outline"));
}

TEST_CASE("the batch's sheets are looked at for narrow margins like the kit's") {
  supply::CuttingPlan sheets;
  supply::StockSheets stock;
  stock.stock = 0;
  supply::SheetLayout layout;
  layout.moves.push_back({1, true, {{}, {inches(8), inches(11)}}, inches(10, 31, 32), {}});
  stock.layouts.push_back(layout);
  sheets.stocks.push_back(stock);
  const Findings some = fit::check_batch(small_project(), sheets);
  REQUIRE(some.size() == 1);
  CHECK(some[0].code == "fit-margin");
  CHECK(some[0].found.starts_with("of the sheets for the whole batch"));
}
