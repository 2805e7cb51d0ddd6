#include "found.h"

#include "model/form.h"
#include "plan/fit/internal/case.h"
#include "plan/fit/internal/cover.h"
#include "plan/fit/internal/thickness.h"

#include <cmath>
#include <random>
#include <vector>

using namespace leafwright;
using namespace leafwright::testing;

namespace {

Length thickest(const Project& project) {
  return fit::thickness_of(project, project.cards[0]).most;
}

Rect rect(std::int64_t x, std::int64_t y, std::int64_t w, std::int64_t h) {
  return {{{x}, {y}}, {{w}, {h}}};
}

} // namespace

TEST_CASE("the small card is thickest at its label, all leaves counted") {
  const Project project = small_project();
  const fit::Thickness card = fit::thickness_of(project, project.cards[0]);
  // Two leaves 0.3 each; note 0.4 + tape 0.05; mat 0.1 + tape 0.05; ribbon twice 0.3; label 0.4 on
  // foam 1.5 = 3.7 mm. (The dome, 2 mm, is 0.6 + 0.45 + 0.15 + scene 0.4 + 2 = 3.6 mm.)
  CHECK(card.most == micrometres(3700));
  Length sum{};
  for (const fit::Layer& layer : card.layers) sum += layer.thickness;
  CHECK(sum == card.most);
  CHECK(card.uneven);
  CHECK(card.rigid);
  CHECK(card.unknown.empty());
}

TEST_CASE("things that do not overlap in plan do not add up") {
  Project project = small_project();
  const Length before = thickest(project);
  project.cards[0].ribbons[0].at = inches(0, 1, 4);      // away from the label
  CHECK(thickest(project) == before - micrometres(100)); // now the dome is thickest
}

TEST_CASE("what lies above the fold inside meets what lies below it") {
  const auto two = [](Point above, Point below) {
    return changed([=](Project&, Card& card) {
      card.pieces.resize(1);
      card.build.resize(1);
      card.ribbons.clear();
      card.embellishments.clear();
      add(card, panel("above", cream, on_face(2), {inches(1), inches(1)}, above));
      add(card, panel("below", cream, on_face(inside), {inches(1), inches(1)}, below));
    });
  };
  REQUIRE(small_project().cards[0].plan.faces[2].id == "inside-top");
  // Near the fold on both halves: folded, they lie on each other.
  CHECK(thickest(two({{}, inches(4, 1, 2)}, {{}, {}})) == micrometres(600 + 900));
  // At the top of both halves: folded, one is at the top and one at the bottom.
  CHECK(thickest(two({{}, {}}, {{}, {}})) == micrometres(600 + 450));
}

TEST_CASE("a window is not thick where it is open") {
  const Project project = changed([](Project&, Card& card) {
    Piece frame = panel("frame", cream, on_face(front), {inches(4), inches(1, 1, 2)},
                        {inches(0, 1, 8), inches(3, 13, 16)});
    frame.attach = stuck_with(foam);
    Window window;
    window.at = {inches(0, 1, 4), inches(0, 1, 8)};
    window.size = {inches(3, 1, 2), inches(1, 1, 8)};
    frame.windows = {window};
    add(card, frame);
  });
  // The label stands wholly in the opening, and the rim over the ribbon is no thicker: 3.7 mm.
  CHECK(thickest(project) == micrometres(3700));
}

TEST_CASE("beads in a round well lie beside the foam round it, and the thicker of the two counts") {
  const auto well = [](Point bead) {
    return changed([bead](Project& project, Card& card) {
      card.pieces.resize(1);
      card.build.resize(1);
      card.ribbons.clear();
      card.embellishments.clear();
      Piece frame = panel("frame", cream, on_face(front), {inches(3), inches(3)}, {});
      frame.attach = stuck_with(foam);
      Window window;
      window.shape.outline = Shape::Outline::Circle;
      window.at = {inches(0, 1, 2), inches(0, 1, 2)};
      window.size = {inches(2), inches(2)};
      frame.windows = {window};
      add(card, frame);
      project.embellishments[0].size = {inches(0, 1, 16), inches(0, 1, 16)};
      project.embellishments[0].height = micrometres(1000);
      EmbellishmentUse use;
      use.embellishment = 0;
      use.on = on_face(front);
      use.places = {bead};
      card.embellishments = {use};
      card.build.push_back({Build::Kind::Embellishment, 0});
    });
  };
  // Leaves 0.3 twice, foam 1.5, frame 0.4: 2.5 mm. In the well a bead of 1 mm changes nothing.
  const Length flat = micrometres(2500);
  CHECK(thickest(well({inches(1, 1, 2), inches(1, 1, 2)})) == flat);
  // 7/8 of the radius to the right of the centre, beyond the square in the circle.
  CHECK(thickest(well({inches(2, 5, 16), inches(1, 15, 32)})) == flat);
  CHECK(thickest(well({inches(2, 3, 4), inches(1, 1, 2)})) == flat + micrometres(1000));
}

TEST_CASE("a bow that reaches past the card makes it thicker but no larger") {
  const auto tied = [](Length at) {
    return changed([at](Project&, Card& card) {
      card.ribbons[0].as = RibbonUse::As::Bow;
      card.ribbons[0].at = at;
    });
  };
  const auto outer = [](const Project& project) {
    return fit::closed_card(project, project.cards[0]).outer;
  };
  const Project project = tied(inches(0, 1, 4));
  CHECK(outer(project) == project.cards[0].finished);
}

TEST_CASE("a gate folds its two leaves side by side over the middle") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces.resize(1);
    card.build.resize(1);
    card.ribbons.clear();
    card.embellishments.clear();
    refold(card, {Form::Kind::Gate, 0});
  });
  CHECK(thickest(project) == micrometres(600));
}

TEST_CASE("an accordion is as many leaves thick as it has") {
  const Project project = changed([](Project&, Card& card) {
    card.pieces.resize(1);
    card.build.resize(1);
    card.ribbons.clear();
    card.embellishments.clear();
    refold(card, {Form::Kind::Accordion, 5});
  });
  CHECK(thickest(project) == micrometres(1500));
}

TEST_CASE("every form closes to the size of its front") {
  const Size card{inches(4, 1, 4), inches(5, 1, 2)};
  for (const Form::Kind kind :
       {Form::Kind::TopFold, Form::Kind::SideFold, Form::Kind::Tent, Form::Kind::Gate,
        Form::Kind::Z, Form::Kind::Accordion, Form::Kind::Flat, Form::Kind::Tag}) {
    const Form form{kind, 0};
    const FormPlan plan = plan_of(form, card);
    for (const Leaf& leaf : plan.leaves) CHECK(Rect{{}, card}.contains(folded(leaf, leaf.on_base)));
  }
}

TEST_CASE("the envelope adds both of its sides") {
  const Project project = small_project();
  const Length bare = thickest(project);
  const Length posted = fit::thickness_in_envelope(project, project.cards[0]);
  // 70 lb text is 104 g/m²; at 1.25 cm³/g a side is 0.13 mm.
  CHECK(in_mm(posted - bare) == doctest::Approx(0.26).epsilon(0.02));
}

TEST_CASE("the sum of rectangles is greatest where the most weight overlaps") {
  const fit::Cover cover = fit::cover_of({{rect(0, 0, 100, 100), {2}},
                                          {rect(50, 50, 100, 100), {3}},
                                          {rect(60, 60, 20, 20), {-3}},
                                          {rect(100, 0, 50, 50), {4}}});
  CHECK(cover.most == Length{5});
  CHECK(cover.at.x == Length{55});
  REQUIRE_FALSE(cover.profile.empty());
  CHECK(cover.profile.front().from == Length{0});
  CHECK(cover.profile.back().to == Length{150});
}

TEST_CASE("random sums agree with adding up every cell") {
  std::mt19937 random(19);
  std::uniform_int_distribution<std::int64_t> place(0, 20), side(0, 12), weight(-2, 9);
  for (int round = 0; round < 200; ++round) {
    std::vector<fit::Weighted> boxes;
    for (int i = 0; i < 12; ++i)
      boxes.push_back(
          {rect(place(random), place(random), side(random), side(random)), {weight(random)}});
    std::int64_t most = 0;
    std::vector<std::int64_t> columns(40, 0);
    for (std::int64_t x = 0; x < 40; ++x)
      for (std::int64_t y = 0; y < 40; ++y) {
        std::int64_t sum = 0;
        for (const fit::Weighted& item : boxes)
          if (item.box.left().nm <= x && x < item.box.right().nm && item.box.top().nm <= y &&
              y < item.box.bottom().nm)
            sum += item.weight.nm;
        most = std::max(most, sum);
        columns[static_cast<std::size_t>(x)] = std::max(columns[static_cast<std::size_t>(x)], sum);
      }
    const fit::Cover cover = fit::cover_of(boxes);
    CHECK(cover.most.nm == most);
    for (const fit::Interval& stretch : cover.profile)
      for (std::int64_t x = stretch.from.nm; x < stretch.to.nm; ++x)
        CHECK(std::max<std::int64_t>(stretch.most.nm, 0) == columns[static_cast<std::size_t>(x)]);
  }
}

TEST_CASE("half the girth of a plain sheet is its width and its thickness") {
  CHECK(fit::half_girth({{{}, millimetres(100), millimetres(2)}}) == millimetres(102));
  CHECK(fit::half_girth({}) == Length{});
}

TEST_CASE("half the girth of a raised middle is a thread pulled tight over it") {
  // 100 mm wide and flat; 40 mm in the middle stand 3 mm high: two slopes of 30 and 3 mm.
  const Length girth = fit::half_girth({{{}, millimetres(30), {}},
                                        {millimetres(30), millimetres(70), millimetres(3)},
                                        {millimetres(70), millimetres(100), {}}});
  const double expected = (100 + 40 + 2 * std::hypot(30, 3)) / 2;
  CHECK(in_mm(girth) == doctest::Approx(expected));
}
