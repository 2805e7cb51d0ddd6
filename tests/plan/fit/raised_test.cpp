#include "found.h"

using namespace leafwright;
using namespace leafwright::testing;

TEST_CASE("a piece narrower than its foam is told how wide it must be") {
  const auto sign = [](Length height) {
    return changed([height](Project&, Card& card) {
      card.pieces[label].size.height = height;
      card.pieces[label].cut = Piece::CutBy::Trimmer;
    });
  };
  CHECK_FALSE(says(sign(inches(0, 3, 8)), "fit-adhesive"));
  const Findings some = found(sign(inches(0, 1, 4)), "fit-adhesive");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix).find("no wider than 1/4 in") != std::string::npos);
}

TEST_CASE("the rim of a square window is as narrow as the piece gets") {
  const auto rim = [](Length left) {
    return changed([left](Project&, Card& card) {
      Window window;
      window.at = {left, inches(1)};
      window.size = {inches(1), inches(1)};
      card.pieces[mat].attach = stuck_with(foam);
      card.pieces[mat].windows = {window};
    });
  };
  CHECK(says(rim(inches(0, 1, 4)), "fit-adhesive"));
  CHECK_FALSE(says(rim(inches(0, 1, 2)), "fit-adhesive"));
}

namespace {

// A strip over the label, which stands on foam.
Project with_strip(Carrier on, Point at, Attach attach) {
  return changed([&](Project&, Card& card) {
    Piece strip = panel("strip", cream, on, {inches(0, 1, 2), inches(1)}, at);
    strip.attach = attach;
    add(card, strip);
  });
}

} // namespace

TEST_CASE("a layer half on a raised one and half on nothing is warned of") {
  const Carrier on = on_face(front);
  const Point half{inches(3), inches(4, 1, 4)}; // the label ends at 3 3/8
  const Findings some = found(with_strip(on, half, stuck_with(tape)), "fit-hollow");
  REQUIRE(some.size() == 1);
  CHECK(some[0].fix.find("raise the strip by") != std::string::npos);
  CHECK_FALSE(says(with_strip(on, half, stuck_with(foam)), "fit-hollow"));
  CHECK_FALSE(says(with_strip(on, {inches(3, 1, 2), inches(4)}, stuck_with(tape)), "fit-hollow"));
  CHECK_FALSE(
      says(with_strip(on_piece(label), {inches(2, 1, 4), {}}, stuck_with(tape)), "fit-hollow"));
}

TEST_CASE("what a window leaves free does not carry") {
  const Project project = changed([](Project&, Card& card) {
    Piece frame = panel("frame", cream, on_face(front), {inches(4), inches(5)},
                        {inches(0, 1, 8), inches(0, 1, 4)});
    Window window;
    window.at = {inches(0, 1, 2), inches(3, 1, 2)};
    window.size = {inches(3), inches(1, 1, 4)};
    frame.windows = {window};
    add(card, frame);
  });
  CHECK_FALSE(says(project, "fit-hollow"));
}

TEST_CASE("a layer wholly under a later one is noted, unless it can be seen") {
  const auto cover = [](int stock, Shape::Outline outline) {
    return changed([=](Project& project, Card& card) {
      project.stocks[kraft].kind = Stock::Kind::Vellum;
      Piece sheet = panel("cover", stock, on_face(front), {inches(4), inches(5)}, {});
      sheet.shape.outline = outline;
      add(card, sheet);
    });
  };
  CHECK(says(cover(cream, Shape::Outline::Rectangle), "fit-hidden"));
  CHECK_FALSE(says(cover(kraft, Shape::Outline::Rectangle), "fit-hidden"));
  CHECK_FALSE(says(cover(cream, Shape::Outline::Oval), "fit-hidden"));
  CHECK_FALSE(says(small_project(), "fit-hidden"));
}

TEST_CASE("a paper of unknown thickness is named once for each card in an envelope") {
  const Project project = changed([](Project& p, Card&) { p.stocks[cream].caliper = {}; });
  const Findings some = found(project, "fit-thickness");
  REQUIRE(some.size() == 1);
  CHECK(some[0].found.find("Cream") != std::string::npos);
  Project loose = project;
  loose.cards[0].envelope = -1;
  CHECK_FALSE(says(loose, "fit-thickness"));
}

TEST_CASE("an image wholly under a later layer is told, one beside it is not") {
  const auto stamped_at = [](Point corner) {
    return changed([corner](Project&, Card& card) {
      Impression one = card.pieces[scene].stamped.at(0);
      one.places = {corner};
      one.times = 1;
      card.pieces[scene].stamped = {one};
      add(card, panel("cover", cream, on_piece(scene), {inches(2), inches(2)}, {}));
    });
  };
  const Size image = small_project().stamp_sets[0].images[0].size;
  REQUIRE(fits(image, Size{inches(2), inches(2)}));
  CHECK(says(stamped_at({}), "fit-image-hidden"));
  CHECK_FALSE(says(stamped_at({inches(1, 7, 8), {}}), "fit-image-hidden"));
}

TEST_CASE("what shows through the window of a later layer is not hidden") {
  const Project project = changed([](Project&, Card& card) {
    Impression one = card.pieces[scene].stamped.at(0);
    one.places = {{inches(0, 1, 2), inches(0, 1, 2)}};
    card.pieces[scene].stamped = {one};
    Piece frame = panel("frame", cream, on_piece(scene), card.pieces[scene].size, {});
    Window window;
    window.at = {inches(0, 1, 4), inches(0, 1, 4)};
    window.size = {inches(2), inches(2)};
    frame.windows = {window};
    add(card, frame);
  });
  CHECK_FALSE(says(project, "fit-image-hidden"));
}

namespace {

Project with_pane(Size pane, Point at) {
  return changed([=](Project& project, Card& card) {
    Window window;
    window.at = {inches(0, 1, 2), inches(0, 1, 2)};
    window.size = {inches(1), inches(1)};
    Piece frame = panel("frame", cream, on_face(inside), {inches(3), inches(3)}, {});
    frame.windows = {window};
    add(card, frame);
    project.stocks[dots].kind = Stock::Kind::Clear;
    add(card, panel("pane", dots, on_face(inside), pane, at));
  });
}

} // namespace

TEST_CASE("a pane smaller than the window it backs is told the size that would do") {
  const Point corner{inches(0, 3, 8), inches(0, 3, 8)};
  CHECK_FALSE(says(with_pane({inches(1, 1, 4), inches(1, 1, 4)}, corner), "fit-pane"));
  const Findings some = found(with_pane({inches(1, 1, 4), inches(0, 3, 4)}, corner), "fit-pane");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix).find("1 1/4 × 1 1/4 in") != std::string::npos);
  // Beside the window it is no pane.
  CHECK_FALSE(says(with_pane({inches(1), inches(1)}, {inches(2), inches(2)}), "fit-pane"));
}

// The base lies with its inside up: 1 in below the fold, which is 5 1/2 in from the top.
TEST_CASE("a pane smaller than a window of the base is told, too") {
  const auto backed = [](Size pane) {
    return changed([=](Project& project, Card& card) {
      Window window;
      window.at = {inches(0, 1, 2), inches(6, 1, 2)};
      window.size = {inches(1), inches(1)};
      card.pieces[base].windows = {window};
      project.stocks[dots].kind = Stock::Kind::Clear;
      add(card, panel("pane", dots, on_face(inside), pane, {inches(0, 3, 8), inches(0, 7, 8)}));
    });
  };
  CHECK_FALSE(says(backed({inches(1, 1, 4), inches(1, 1, 4)}), "fit-pane"));
  CHECK(says(backed({inches(1, 1, 4), inches(0, 3, 4)}), "fit-pane"));
}

TEST_CASE("a layer glued across the meeting edge of two gates keeps the card shut") {
  const auto gate = [](Point at, bool step) {
    return changed([=](Project&, Card& card) {
      card.pieces.resize(1);
      card.build.resize(1);
      card.ribbons.clear();
      card.embellishments.clear();
      card.face_stampings.clear();
      refold(card, {Form::Kind::Gate, 0});
      Piece latch = panel("latch", cream, on_face(front), {inches(1), inches(1)}, at);
      latch.attach = stuck_with(tape);
      add(card, latch);
      if (step) card.steps.emplace_back().for_id = "latch";
    });
  };
  const Point across{inches(1, 1, 2), inches(2)}; // the gates meet at 2 1/8 in
  CHECK(says(gate(across, false), "fit-glued-shut"));
  CHECK_FALSE(says(gate(across, true), "fit-glued-shut"));
  CHECK_FALSE(says(gate({inches(0, 1, 2), inches(2)}, false), "fit-glued-shut"));
  Project half = gate(across, false);
  half.cards[0].pieces.back().attach.where = Attach::Where::LeftHalf;
  CHECK_FALSE(says(half, "fit-glued-shut"));
  half.cards[0].pieces.back().attach.where = Attach::Where::TopHalf;
  CHECK(says(half, "fit-glued-shut"));
}
