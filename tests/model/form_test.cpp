#include "model/card.h"
#include "model/form.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

using namespace leafwright;

namespace {

constexpr Size a2{inches(4, 1, 4), inches(5, 1, 2)};

const Face* face(const FormPlan& plan, const std::string& id) {
  const auto found = std::find_if(plan.faces.begin(), plan.faces.end(),
                                  [&](const Face& one) { return one.id == id; });
  return found == plan.faces.end() ? nullptr : &*found;
}

FormPlan plan(Form::Kind kind, int leaves = 0) { return plan_of({kind, leaves}, a2); }

} // namespace

// Common practice for an A2 card, 4 1/4 x 5 1/2 in: two bases from one letter sheet.
TEST_CASE("a top-fold A2 base is 4 1/4 x 11 in, scored at 5 1/2") {
  const FormPlan top = plan(Form::Kind::TopFold);
  CHECK(top.unfolded == Size{inches(4, 1, 4), inches(11)});
  CHECK(top.scores == std::vector<Score>{{.vertical = false, .at = inches(5, 1, 2)}});
}

TEST_CASE("a side-fold A2 base is 8 1/2 x 5 1/2 in, scored at 4 1/4") {
  const FormPlan side = plan(Form::Kind::SideFold);
  CHECK(side.unfolded == Size{inches(8, 1, 2), inches(5, 1, 2)});
  CHECK(side.scores == std::vector<Score>{{.vertical = true, .at = inches(4, 1, 4)}});
}

TEST_CASE("a gate A2 base is scored 2 1/8 in from each end") {
  const FormPlan gate = plan(Form::Kind::Gate);
  CHECK(gate.unfolded == Size{inches(8, 1, 2), inches(5, 1, 2)});
  REQUIRE(gate.scores.size() == 2);
  CHECK(gate.scores[0].at == inches(2, 1, 8));
  CHECK(gate.unfolded.width - gate.scores[1].at == inches(2, 1, 8));
}

TEST_CASE("a Z fold is scored at a quarter and at the middle, once each way") {
  const FormPlan z = plan(Form::Kind::Z);
  CHECK(z.unfolded == Size{inches(8, 1, 2), inches(5, 1, 2)});
  REQUIRE(z.scores.size() == 2);
  CHECK(z.scores[0] == Score{true, inches(2, 1, 8), true});
  CHECK(z.scores[1] == Score{true, inches(4, 1, 4), false});
}

TEST_CASE("an accordion folds to and fro, beginning as a book opens") {
  const FormPlan folded = plan(Form::Kind::Accordion, 5);
  CHECK(folded.unfolded == Size{inches(21, 1, 4), inches(5, 1, 2)});
  REQUIRE(folded.scores.size() == 4);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(folded.scores[i].at == a2.width * static_cast<std::int64_t>(i + 1));
    CHECK(folded.scores[i].mountain == (i % 2 == 1));
  }
}

TEST_CASE(
    "an accordion without a number has four leaves and one of a million does not fill memory") {
  CHECK(plan(Form::Kind::Accordion).unfolded.width == a2.width * 4);
  CHECK(plan(Form::Kind::Accordion, 1'000'000).faces.size() < 2000);
}

TEST_CASE("a flat card and a tag do not fold") {
  for (const Form::Kind kind : {Form::Kind::Flat, Form::Kind::Tag}) {
    CHECK(plan(kind).unfolded == a2);
    CHECK(plan(kind).scores.empty());
    CHECK(plan(kind).inside_view == Size{});
  }
}

TEST_CASE("the two gates are together as wide as the card, also when its width is odd") {
  for (const std::int64_t nm : {107'950'000LL, 107'950'001LL, 3LL}) {
    const Size card{{nm}, inches(5)};
    const FormPlan gate = plan_of({Form::Kind::Gate, 0}, card);
    const Face* left = face(gate, "left");
    const Face* right = face(gate, "right");
    REQUIRE(left);
    REQUIRE(right);
    CHECK(left->size.width + right->size.width == card.width);
    CHECK(right->seen.front().at.x == left->size.width);
  }
}

TEST_CASE("every face lies inside the views that show it") {
  for (const Form::Kind kind :
       {Form::Kind::TopFold, Form::Kind::SideFold, Form::Kind::Tent, Form::Kind::Gate,
        Form::Kind::Z, Form::Kind::Accordion, Form::Kind::Flat, Form::Kind::Tag}) {
    const FormPlan one = plan(kind);
    for (const Face& each : one.faces) {
      CAPTURE(each.id);
      CHECK_FALSE(each.seen.empty());
      CHECK_FALSE(each.words.empty());
      for (const Face::Seen& seen : each.seen) {
        const Size view = seen.view == View::Front    ? one.front_view
                          : seen.view == View::Inside ? one.inside_view
                                                      : one.back_view;
        CHECK(Rect{{}, view}.contains({seen.at, each.size}));
      }
    }
  }
}

TEST_CASE("face names are unique within a form") {
  for (const Form::Kind kind :
       {Form::Kind::TopFold, Form::Kind::Gate, Form::Kind::Z, Form::Kind::Accordion}) {
    std::vector<std::string> ids;
    for (const Face& each : plan(kind).faces) ids.push_back(each.id);
    std::sort(ids.begin(), ids.end());
    CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
  }
}

TEST_CASE("a form of its own names its leaves row by row between the given scores") {
  const FormPlan own = plan_of({Form::Kind::Custom, 0}, a2, {inches(10), inches(8)},
                               {{true, inches(6), false}, {false, inches(3), false}});
  REQUIRE(face(own, "leaf-4"));
  CHECK(face(own, "leaf-1")->size == Size{inches(6), inches(3)});
  CHECK(face(own, "leaf-2")->size == Size{inches(4), inches(3)});
  CHECK(face(own, "leaf-4")->seen.front().at == Point{inches(6), inches(3)});
  CHECK_FALSE(face(own, "leaf-5"));
}

TEST_CASE("a score outside the sheet makes no leaf") {
  const FormPlan own =
      plan_of({Form::Kind::Custom, 0}, a2, {inches(4), inches(4)},
              {{true, inches(9), false}, {true, inches(2), false}, {true, inches(2), false}});
  CHECK(face(own, "leaf-2"));
  CHECK_FALSE(face(own, "leaf-3"));
}

TEST_CASE("forms are named as one would say them") {
  CHECK(form_words({Form::Kind::TopFold, 0}) == "top fold");
  CHECK(form_words({Form::Kind::Gate, 0}) == "gate fold");
  CHECK(form_words({Form::Kind::Accordion, 4}) == "accordion of four leaves");
  CHECK(form_words({Form::Kind::Accordion, 15}) == "accordion of 15 leaves");
}

TEST_CASE("the closed gates lie side by side and cover the front") {
  const FormPlan gate = plan(Form::Kind::Gate);
  REQUIRE(gate.front_leaves == std::vector<int>{0, 2});
  const Leaf &left = gate.leaves.at(0), &right = gate.leaves.at(2);
  CHECK(folded(left, left.on_base) == Rect{{}, {inches(2, 1, 8), inches(5, 1, 2)}});
  CHECK(folded(right, right.on_base) ==
        Rect{{inches(2, 1, 8), {}}, {inches(2, 1, 8), inches(5, 1, 2)}});
}

TEST_CASE("a front of two leaves opens between them, one with a flap beside it, others nowhere") {
  CHECK(opening_edge(plan(Form::Kind::Gate)) == inches(2, 1, 8));
  CHECK(opening_edge(plan(Form::Kind::Z)) == inches(2, 1, 8));
  for (const Form::Kind kind :
       {Form::Kind::TopFold, Form::Kind::SideFold, Form::Kind::Accordion, Form::Kind::Flat})
    CHECK_FALSE(opening_edge(plan(kind)));
}

TEST_CASE("every form's front leaves lie within its closed front") {
  for (const FormRow& row : form_rows()) {
    const FormPlan made = plan(row.kind);
    for (const int index : made.front_leaves) {
      const Leaf& leaf = made.leaves.at(static_cast<std::size_t>(index));
      const Rect front{{}, made.front_view};
      CHECK_MESSAGE(front.contains(folded(leaf, leaf.on_base)), row.word);
    }
  }
}

TEST_CASE("a form whose leaves are counted says how many") {
  CHECK(form_words({Form::Kind::Accordion, 0}) == "accordion of four leaves");
  CHECK(form_words({Form::Kind::Accordion, 3}) == "accordion of three leaves");
  CHECK(form_words({Form::Kind::Custom, 0}) == "fold of its own");
  CHECK(form_words({Form::Kind::Z, 0}) == "Z fold");
}

TEST_CASE("behind a leaf of the closed front lies its inner side, mirrored in the fold") {
  const Rect box{{millimetres(1), millimetres(2)}, {millimetres(10), millimetres(5)}};
  const auto check = [&](Form::Kind kind, const char* id, const char* inner, Point at) {
    const FormPlan form = plan(kind, kind == Form::Kind::Accordion ? 4 : 0);
    const auto found = behind(form, *face(form, id), box);
    CAPTURE(inner);
    REQUIRE(found);
    CHECK(found->face == face_index(form, inner));
    CHECK(found->box == Rect{at, box.size});
  };
  const Length from_right = a2.width - millimetres(11), gate_right = a2.width / 2 - millimetres(11);
  check(Form::Kind::TopFold, "front", "inside-top", {box.left(), a2.height - millimetres(7)});
  check(Form::Kind::SideFold, "front", "inside-left", {from_right, box.top()});
  check(Form::Kind::Accordion, "front", "leaf-1", {from_right, box.top()});
  check(Form::Kind::Gate, "left", "inside-left", {gate_right, box.top()});
  check(Form::Kind::Gate, "right", "inside-right", {gate_right, box.top()});
}

TEST_CASE("nothing lies behind a front of several leaves, an unturned flap or a flat card") {
  const auto none = [](Form::Kind kind, const char* id) {
    const FormPlan form = plan(kind);
    return !behind(form, *face(form, id), {{}, {millimetres(1), millimetres(1)}});
  };
  CHECK(none(Form::Kind::Gate, "front"));
  CHECK(none(Form::Kind::Z, "front"));
  CHECK(none(Form::Kind::Z, "flap"));
  CHECK(none(Form::Kind::Flat, "front"));
}
