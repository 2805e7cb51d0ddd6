#include "found.h"

using namespace leafwright;
using namespace leafwright::testing;

TEST_CASE("an image past its panel is named with the number of impressions") {
  const auto at = [](Length y) {
    return changed([y](Project&, Card& card) {
      for (Point& place : card.pieces[scene].stamped[0].places) place.y = y;
    });
  };
  CHECK_FALSE(says(at(inches(1, 7, 8)), "fit-image")); // 1 7/8 + 1 3/8 = 3 1/4
  const Findings some = found(at(inches(2)), "fit-image");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].found).find("1/8 in past the bottom edge") != std::string::npos);
  CHECK(some[0].found.find("3 of 3 impressions") != std::string::npos);
}

TEST_CASE("an image where its own piece has a window is stamped on nothing") {
  const auto with_window = [](Point at) {
    return changed([at](Project& p, Card& card) {
      Piece& piece = card.pieces[scene];
      piece.stamped[0].places = {{inches(1), inches(1)}};
      Window window;
      window.id = "view";
      const Size image = p.stamp_sets[0].images[0].size;
      window.size = {image.width + inches(0, 1, 8), image.height + inches(0, 1, 8)};
      window.at = at;
      piece.windows = {window};
    });
  };
  CHECK_FALSE(says(with_window({inches(1, 1, 8), inches(1)}), "fit-image-window"));
  const Findings some = found(with_window({inches(1), inches(0, 15, 16)}), "fit-image-window");
  REQUIRE(some.size() == 1);
  CHECK(some[0].fix == "stamp it beside the window, or on what shows through it");
}

TEST_CASE("a turned image takes the room that its corners take") {
  const auto with = [](Angle turn) {
    return changed([turn](Project&, Card& card) {
      Impression& tree = card.pieces[scene].stamped[0];
      tree.places = {{inches(2, 1, 4), inches(1)}}; // exactly at the right edge
      tree.rotation = turn;
    });
  };
  CHECK_FALSE(says(with({}), "fit-image"));
  CHECK(says(with(degrees(30)), "fit-image"));
  CHECK(says(with(degrees(90)), "fit-image")); // 1 3/8 wide, 3/16 too far
}

TEST_CASE("an image larger than its panel is told the piece that would do") {
  const Project project = changed([](Project& p, Card&) {
    p.stamp_sets[0].images[0].size = {inches(4), inches(1)};
  });
  CHECK(plain(found(project, "fit-image").at(0).fix) == "stamp it on a piece of at least 4 × 1 in");
}

TEST_CASE("an image on the envelope stays on the envelope as it is addressed") {
  const auto stamped_at = [](Point at) {
    return changed([at](Project& p, Card& card) {
      p.envelopes[0].size = {inches(5, 3, 4), inches(4, 3, 8)}; // as the reader lays an A2
      FaceStamping stamping;
      stamping.on = {Carrier::Kind::EnvelopeFront, 0};
      stamping.impression.set = 0;
      stamping.impression.image = 1;
      stamping.impression.places = {at};
      card.face_stampings = {stamping};
    });
  };
  CHECK_FALSE(says(stamped_at({inches(5), inches(3, 1, 2)}), "fit-image")); // 5 3/4 x 4 3/8
  CHECK(says(stamped_at({inches(5, 1, 2), inches(3)}), "fit-image"));
}

TEST_CASE("an embellishment past the edge is moved back") {
  const Project project = changed([](Project&, Card& card) {
    card.embellishments[0].places[1].x = inches(3, 1, 4) - millimetres(2);
  });
  const Findings some = found(project, "fit-embellishment");
  REQUIRE(some.size() == 1);
  CHECK(some[0].fix.find("to the left") != std::string::npos);
  CHECK_FALSE(says(small_project(), "fit-embellishment"));
}

namespace {

Project with_cut(Length given) {
  return changed([given](Project&, Card& card) { card.ribbons[0].given = given; });
}

} // namespace

TEST_CASE("a ribbon shorter than its way is an error, one with short ends a warning") {
  const Findings some = found(with_cut(inches(8)), "fit-ribbon");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix) == "cut 9 1/2 in"); // 8 1/2 round and 1 over
  CHECK(says(with_cut(inches(9)), "fit-ribbon-ends"));
  CHECK_FALSE(says(with_cut(inches(9)), "fit-ribbon"));
  CHECK_FALSE(says(with_cut(inches(9, 1, 2)), "fit-ribbon-ends"));
}

TEST_CASE("one cut is no longer than a spool") {
  const Project project = changed([](Project& p, Card&) { p.ribbons[0].spool = inches(9); });
  CHECK(plain(found(project, "fit-ribbon-spool").at(0).fix).find("at least 9 1/2 in") !=
        std::string::npos);
  Project unknown = project;
  unknown.ribbons[0].spool = {};
  CHECK_FALSE(says(unknown, "fit-ribbon-spool"));
}

TEST_CASE("a ribbon lies on the card with its whole width") {
  const auto at = [](Length y) {
    return changed([y](Project&, Card& card) { card.ribbons[0].at = y; });
  };
  CHECK_FALSE(says(at(inches(0, 3, 16)), "fit-ribbon-edge"));
  CHECK(says(at(inches(0, 1, 8)), "fit-ribbon-edge"));
  CHECK(says(at(inches(5, 3, 8)), "fit-ribbon-edge"));
}

TEST_CASE("a paper band goes round and overlaps") {
  const auto band = [](Length length) {
    return changed([length](Project&, Card& card) {
      Piece strip =
          panel("band", kraft, on_face(front), {length, inches(0, 3, 4)}, {{}, inches(3)});
      strip.role = Piece::Role::Band;
      add(card, strip);
    });
  };
  CHECK_FALSE(says(band(inches(9)), "fit-band"));
  CHECK(plain(found(band(inches(8)), "fit-band").at(0).fix) == "cut it 9 in long");
  CHECK_FALSE(says(band(inches(4)), "fit-band")); // across the front only
}

TEST_CASE("an image drawn in one color is not stamped in two inks") {
  const auto inked = [](int colours) {
    return changed([colours](Project& project, Card& card) {
      Impression& one = card.pieces[scene].stamped.at(0);
      one.inks = {0, 0};
      StampImage& image = project.stamp_sets[0].images[as_index(one.image)];
      image.artwork.clear();
      for (int i = 0; i < colours; ++i) image.artwork.emplace_back().ink = i;
    });
  };
  CHECK(says(inked(1), "fit-image-inks"));
  CHECK_FALSE(says(inked(2), "fit-image-inks"));
}
