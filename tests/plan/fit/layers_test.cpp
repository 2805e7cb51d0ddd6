#include "found.h"

#include "model/form.h"

#include <algorithm>
#include <random>

using namespace leafwright;
using namespace leafwright::testing;

TEST_CASE("nothing is wrong with the small project but what the post may say") {
  for (const Finding& finding : fit::check(small_project())) {
    CAPTURE(finding.found);
    CHECK(finding.code.starts_with("fit-mail"));
    CHECK(finding.severity == Severity::Note);
  }
}

TEST_CASE("a mat wider than its base is told by how much and how wide it may be") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[mat].size.width = inches(4, 1, 2);
    card.pieces[mat].at.x = {};
  });
  const Findings some = found(project, "fit-mat-wider");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Error);
  CHECK(plain(some[0].found) == "the mat of “Trees” is 1/4 in wider than the front: "
                                "4 1/2 × 5 1/4 in on 4 1/4 × 5 1/2 in");
  CHECK(plain(some[0].fix) == "make it 4 in wide or less, and 1/8 in shows on both sides");
  REQUIRE(some[0].trace.size() == 1);
  CHECK(plain(some[0].trace[0].text) == "the front is 4 1/4 × 5 1/2 in");
}

TEST_CASE("a mat that is too wide is mended by the size that its fix tells") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[mat].size.width = inches(4, 1, 2);
    card.pieces[mat].at.x = {};
  });
  const auto mend = found(project, "fit-mat-wider").at(0).mend;
  REQUIRE(mend);
  CHECK(mend->attribute == "size");
  CHECK(plain(mend->value) == "4 in x 5 1/4 in");
}

TEST_CASE("what a die cuts is not mended by another size") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[mat].size.width = inches(4, 1, 2);
    card.pieces[mat].at.x = {};
    card.pieces[mat].die = 0;
  });
  CHECK_FALSE(found(project, "fit-mat-wider").at(0).mend);
}

TEST_CASE("a mat too large both ways is told the largest size that would do") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[mat].size = {inches(5), inches(6)};
    card.pieces[mat].at = {};
  });
  CHECK(plain(found(project, "fit-mat-wider").at(0).fix) ==
        "make it 4 × 5 1/4 in or smaller, and 1/8 in shows on every side");
}

TEST_CASE("a mat that is exactly as large as the front is not larger") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[mat].size = card.finished;
    card.pieces[mat].at = {};
  });
  CHECK_FALSE(says(project, "fit-mat-wider"));
}

TEST_CASE("a layer that fits but lies past the edge of the card is moved back") {
  const Project project =
      changed([](Project&, Card& card) { card.pieces[label].at.x = inches(2); });
  const Findings some = found(project, "fit-off-card");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].found) ==
        "the label of “Trees” sticks out 1/4 in past the right edge of the card");
  CHECK(plain(some[0].fix) == "move it 1/4 in to the left");
}

TEST_CASE("a layer on a layer may leave its carrier, but not unsaid, and not the card") {
  const auto hang = [](Length by) {
    return changed([by](Project&, Card& card) { card.pieces[scene].at.x = inches(0, 3, 4) + by; });
  };
  CHECK_FALSE(says(hang({}), "fit-overhang"));
  const Findings some = found(hang(inches(0, 1, 16)), "fit-overhang");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Warning);
  CHECK(plain(some[0].found).find("1/16 in past the right edge of the mat") != std::string::npos);
  CHECK(says(hang(inches(0, 1, 2)), "fit-off-card"));
  Project wanted = hang(inches(0, 1, 16));
  wanted.cards[0].pieces[scene].may_overhang = true;
  CHECK_FALSE(says(wanted, "fit-overhang"));
}

TEST_CASE("a panel on one gate may reach over the other, and is then named") {
  const Project project = changed([](Project&, Card& card) {
    refold(card, {Form::Kind::Gate, 0});
    card.pieces.resize(1);
    card.ribbons.clear();
    card.embellishments.clear();
    add(card, panel("latch", cream, on_face(1), {inches(2), inches(2)}, {inches(1), inches(2)}));
  });
  CHECK(says(project, "fit-overhang"));
  CHECK_FALSE(says(project, "fit-off-card"));
  CHECK_FALSE(says(project, "fit-mat-wider"));
}

TEST_CASE("what the flap of a Z fold carries may reach over the inside behind it") {
  const auto lamp = [](Length left) {
    return changed([left](Project&, Card& card) {
      refold(card, {Form::Kind::Z, 0});
      card.pieces.resize(1);
      card.ribbons.clear();
      card.embellishments.clear();
      add(card, panel("lamp", cream, on_face(1), {inches(3), inches(3)}, {left, inches(1)}));
    });
  };
  CHECK_FALSE(says(lamp(inches(1)), "fit-overhang")); // the flap is 2 1/8 wide, the card 4 1/4
  CHECK(says(lamp(inches(2)), "fit-mat-wider"));
}

TEST_CASE("a turned layer is measured by its outline") {
  const Project round = changed([](Project&, Card& card) {
    card.pieces[scene].shape.outline = Shape::Outline::Circle;
    card.pieces[scene].size = {inches(4), inches(4)};
    card.pieces[scene].at = {{}, inches(0, 1, 2)};
    card.pieces[scene].rotation = degrees(45);
    card.pieces[scene].stamped.clear();
  });
  CHECK_FALSE(says(round, "fit-overhang"));
  Project square = round;
  square.cards[0].pieces[scene].shape.outline = Shape::Outline::Rectangle;
  CHECK((says(square, "fit-off-card") || says(square, "fit-overhang")));
}

TEST_CASE("a layer turned with its carrier is followed down to the card") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces[label].rotation = degrees(90); // 13/16 wide, 2 1/2 high, about (2 1/8, 4 13/32)
    Piece small = panel("small", cream, on_piece(label), {inches(0, 1, 2), inches(0, 1, 2)}, {});
    add(card, small);
  });
  // The label's right end now points down past the edge of the front.
  CHECK(found(project, "fit-off-card").size() == 1);
}

TEST_CASE("an inset that shows unequally is told what shows and what size would be equal") {
  const Project project =
      changed([](Project&, Card& card) { card.pieces[mat].at.x = inches(0, 1, 16); });
  const Findings some = found(project, "fit-reveal");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].found).find("1/16 in at the left, 3/16 in at the right, 1/8 in above") !=
        std::string::npos);
}

TEST_CASE("opposite edges that nearly agree are named, plain differences are not") {
  const auto shifted = [](Length by) {
    return changed([by](Project&, Card& card) {
      card.pieces[mat].equal_reveal_wanted = false;
      card.pieces[mat].at.x = inches(0, 1, 8) + by;
    });
  };
  CHECK_FALSE(says(shifted({}), "fit-reveal-slip"));
  CHECK(says(shifted(inches(0, 1, 32)), "fit-reveal-slip"));
  CHECK_FALSE(says(shifted(inches(0, 1, 8)), "fit-reveal-slip"));
}

TEST_CASE("a layer across the fold needs a score of its own") {
  const auto liner = [](Length score_at) {
    return changed([score_at](Project&, Card& card) {
      Piece sheet = panel("lining", cream, on_face(4), {inches(4), inches(10)},
                          {inches(0, 1, 8), inches(0, 1, 2)});
      sheet.role = Piece::Role::Liner;
      if (score_at > Length{}) sheet.scores = {{.vertical = false, .at = score_at}};
      add(card, sheet);
    });
  };
  REQUIRE(small_project().cards[0].plan.faces[4].id == "opened");
  const Findings some = found(liner({}), "fit-over-fold");
  REQUIRE(some.size() == 1);
  CHECK(plain(some[0].fix) == "score it 5 in from its top edge");
  CHECK(says(liner(inches(4)), "fit-over-fold"));
  CHECK_FALSE(says(liner(inches(5)), "fit-over-fold"));
}

TEST_CASE("a band may be longer than the front it goes round") {
  const Project project = changed([](Project&, Card& card) {
    Piece band = panel("band", kraft, on_face(front), {inches(9, 1, 2), inches(0, 3, 4)},
                       {-inches(2, 5, 8), inches(3)});
    band.role = Piece::Role::Band;
    add(card, band);
  });
  CHECK_FALSE(says(project, "fit-mat-wider"));
  CHECK_FALSE(says(project, "fit-off-card"));
  CHECK_FALSE(says(project, "fit-envelope"));
}

TEST_CASE("shrinking a panel in place never makes it larger than what carries it") {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> sixteenths(1, 120), which(mat, note), by(0, 40);
  for (int round = 0; round < 300; ++round) {
    Project project = small_project();
    Piece& piece = project.cards[0].pieces[static_cast<std::size_t>(which(random))];
    piece.size = {inches(0, sixteenths(random), 16), inches(0, sixteenths(random), 16)};
    piece.at = {inches(0, sixteenths(random) / 4, 16), inches(0, sixteenths(random) / 4, 16)};
    const auto count = [&] {
      return found(project, "fit-mat-wider").size() + found(project, "fit-off-card").size();
    };
    const std::size_t before = count();
    piece.size.width = std::max(piece.size.width - inches(0, by(random), 16), inches(0, 1, 16));
    piece.size.height = std::max(piece.size.height - inches(0, by(random), 16), inches(0, 1, 16));
    CHECK(count() <= before);
  }
}

TEST_CASE("own words that speak of cutting without saying what they replace are told") {
  Project project = small_project();
  Card& card = project.cards[0];
  AuthorStep step;
  step.for_id = card.pieces[label].id;
  TextPart part;
  part.words = "Cut it, and glue it on.";
  step.text = {part};
  card.steps = {step};
  CHECK(says(project, "fit-step-work"));
  card.steps[0].instead_of = Works{Work::Stick};
  CHECK_FALSE(says(project, "fit-step-work"));
  card.steps[0].instead_of.reset();
  card.steps[0].for_id = card.pieces[mat].id; // which is only trimmed
  CHECK_FALSE(says(project, "fit-step-work"));
}

namespace {

// A panel on the left gate that reaches 1 in past it, stuck there or there.
Project over_the_gate(Attach::Where where) {
  return changed([where](Project&, Card& card) {
    refold(card, {Form::Kind::Gate, 0});
    Piece latch = panel("latch", cream, on_face(face_index(card.plan, "left")),
                        {inches(2), inches(1)}, {inches(1, 1, 8), inches(2)});
    latch.attach = stuck_with(tape);
    latch.attach.where = where;
    add(card, latch);
  });
}

} // namespace

TEST_CASE("a layer may reach past what it is stuck to when only that part is stuck") {
  const auto of_the_latch = [](Attach::Where where) {
    const Findings some = found(over_the_gate(where), "fit-overhang");
    return std::ranges::any_of(
        some, [](const Finding& one) { return one.found.starts_with("the latch"); });
  };
  CHECK(of_the_latch(Attach::Where::AllOver));
  CHECK_FALSE(of_the_latch(Attach::Where::LeftHalf));
  CHECK_FALSE(says(over_the_gate(Attach::Where::LeftHalf), "fit-stuck-past"));
}

TEST_CASE("adhesive on the part that reaches past keeps the card shut") {
  const Findings some = found(over_the_gate(Attach::Where::RightHalf), "fit-stuck-past");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Error);
  CHECK(plain(some[0].found) ==
        "the latch of “Trees” is stuck behind the right half, which reaches 1 in past the right "
        "edge of the left gate");
}

TEST_CASE("a layer over a mountain fold lies free when it is stuck to one side of it") {
  const auto over_fold = [](Attach::Where where) {
    return changed([where](Project&, Card& card) {
      refold(card, {Form::Kind::Z, 0});
      Piece sheet = panel("sheet", cream, on_face(face_index(card.plan, "opened")),
                          {inches(2), inches(1)}, {inches(1, 1, 8), inches(2)});
      sheet.attach = stuck_with(tape);
      sheet.attach.where = where;
      add(card, sheet);
    });
  };
  CHECK(says(over_fold(Attach::Where::AllOver), "fit-over-fold"));
  CHECK_FALSE(says(over_fold(Attach::Where::LeftEdge), "fit-over-fold"));
}
