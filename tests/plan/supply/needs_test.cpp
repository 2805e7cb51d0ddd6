#include "../../measure/show.h"
#include "small_project.h"

#include "plan/supply/internal/tool_use.h"
#include "plan/supply/needs.h"

#include <doctest/doctest.h>

#include <random>
#include <string>
#include <vector>

using namespace leafwright;
using namespace leafwright::testing;
using supply::Need;
using supply::Needs;

namespace {

const Need& need(const Needs& needs, ItemKind kind, int index = 0) {
  const Need* found = supply::find(needs, {kind, index});
  if (!found) FAIL("it is not among the needs");
  return *found;
}

} // namespace

TEST_CASE("paper is counted by rectangles cut, their area and their sizes") {
  const Project project = small_project();
  const Needs needs = supply::needs_of(project, 0);
  const Need& paper = need(needs, ItemKind::Stock, cream);
  // Scene 3 1/4 x 3 1/4, label cut from 2 3/4 x 1, note 3 3/4 x 5.
  CHECK(paper.count == 3);
  CHECK(paper.area == area({inches(3, 1, 4), inches(3, 1, 4)}) +
                          area({inches(2, 3, 4), inches(1)}) + area({inches(3, 3, 4), inches(5)}));
  REQUIRE(paper.parts.size() == 3);
  CHECK(paper.parts.front().size == Size{inches(3, 3, 4), inches(5)});
  CHECK(paper.parts.back().size == Size{inches(2, 3, 4), inches(1)});
}

TEST_CASE("copies of a piece count each, with all that is on them") {
  Project project = small_project();
  Piece& sign = project.cards[0].pieces[label];
  sign.copies = 3;
  sign.more_at = {{}, {}};
  sign.stamped = project.cards[0].pieces[scene].stamped;
  project.cards[0].pieces[scene].stamped.clear();
  const Needs needs = supply::needs_of(project, 0);
  CHECK(need(needs, ItemKind::Die).count == 3);
  CHECK(need(needs, ItemKind::StampSet).count == 9);
  CHECK(need(needs, ItemKind::Stock, cream).count == 5);
}

TEST_CASE("a fading row is inked once and stamped as often as it shows") {
  Project project = small_project();
  CHECK(need(supply::needs_of(project, 0), ItemKind::Ink).count == 1);
  CHECK(need(supply::needs_of(project, 0), ItemKind::StampSet).count == 3);
  project.cards[0].pieces[scene].stamped[0].fading = false;
  CHECK(need(supply::needs_of(project, 0), ItemKind::Ink).count == 3);
}

TEST_CASE("ribbon is counted by cuts and length, the author's own length first") {
  Project project = small_project();
  CHECK(need(supply::needs_of(project, 0), ItemKind::Ribbon).length == inches(9, 1, 2));
  project.cards[0].ribbons[0].given = inches(12);
  const Needs needs = supply::needs_of(project, 0);
  CHECK(need(needs, ItemKind::Ribbon).length == inches(12));
  CHECK(need(needs, ItemKind::Ribbon).count == 1);
  CHECK(need(needs, ItemKind::Ribbon).parts.front().length == inches(12));
}

TEST_CASE("tape runs along the edges, a quarter of an inch less at each corner") {
  const Project project = small_project();
  const auto taken = supply::consumption_of(project.adhesives[tape], stuck_with(tape),
                                            {inches(4), inches(5, 1, 4)});
  CHECK(taken.length == inches(17, 1, 2)); // 2 x (4 + 5 1/4) - 4 x 1/4
  const auto strip = supply::consumption_of(project.adhesives[tape], stuck_with(tape),
                                            {inches(4), inches(0, 3, 8)});
  CHECK(strip.length == inches(3, 1, 2));
}

TEST_CASE("foam stands about every spacing, never fewer than four, two on a strip") {
  const Project project = small_project();
  const auto squares = [&](Size size) {
    return supply::consumption_of(project.adhesives[foam], stuck_with(foam), size).count;
  };
  CHECK(squares({inches(1), inches(1)}) == 4);
  CHECK(squares({inches(3), inches(0, 1, 2)}) ==
        3); // a strip 76 mm long, one for every 30 mm begun
  CHECK(squares({inches(1), inches(0, 1, 2)}) == 2);
  CHECK(squares({millimetres(90), millimetres(90)}) == 9);
}

TEST_CASE("what the author says about adhesive comes first") {
  const Project project = small_project();
  Attach attach = stuck_with(foam);
  attach.layers = 2;
  attach.count = 5;
  CHECK(supply::consumption_of(project.adhesives[foam], attach, {inches(4), inches(4)}).count ==
        10);
  attach = stuck_with(tape);
  attach.length = inches(3);
  CHECK(supply::consumption_of(project.adhesives[tape], attach, {inches(4), inches(4)}).length ==
        inches(3));
}

TEST_CASE("glue is weighed by the area it covers") {
  const Project project = small_project();
  // 40 g/m² over a tenth of a metre square is 0.4 g.
  CHECK(supply::consumption_of(project.adhesives[glue], stuck_with(glue),
                               {millimetres(100), millimetres(100)})
            .mass == Mass{400});
}

TEST_CASE("a kit takes of_each cards of every design, and n kits n times that") {
  Project project = small_project();
  project.run.of_each = 2;
  const Needs one = supply::needs_of_kit(project, 1);
  const Needs set = supply::needs_of_set(project);
  for (const int kits : {2, 7, 1000}) {
    const Needs many = supply::needs_of_kit(project, kits);
    REQUIRE(many.size() == one.size());
    for (std::size_t i = 0; i < one.size(); ++i) {
      CHECK(many[i].item == one[i].item);
      CHECK(many[i].count == one[i].count * kits);
      CHECK(many[i].area == one[i].area * kits);
      CHECK(many[i].length == one[i].length * kits);
      CHECK(many[i].mass == one[i].mass * kits);
      CHECK(one[i].count == set[i].count * 2);
    }
  }
  for (const Need& none : supply::needs_of_kit(project, 0)) CHECK(none.count == 0);
}

TEST_CASE("a set is the sum of its cards") {
  Project project = small_project();
  project.cards.push_back(project.cards[0]);
  project.cards[1].pieces.pop_back();
  project.cards[1].build.clear();
  const Needs set = supply::needs_of_set(project);
  for (const Need& whole : set) {
    std::int64_t count = 0;
    Length length{};
    for (const int card : whole.cards) {
      const Needs part = supply::needs_of(project, card);
      count += need(part, whole.item.kind, whole.item.index).count;
      length += need(part, whole.item.kind, whole.item.index).length;
    }
    CHECK(whole.count == count);
    CHECK(whole.length == length);
  }
  CHECK(need(set, ItemKind::Stock, kraft).cards == std::vector<int>{0, 1});
}

TEST_CASE("needs stand group after group as the trade lists them") {
  const Needs needs = supply::needs_of_set(small_project());
  for (std::size_t i = 1; i < needs.size(); ++i) CHECK(needs[i - 1].group <= needs[i].group);
  CHECK(supply::group_words(needs.front().group) == "Cardstock");
  CHECK(supply::group_words(needs.back().group) == "Envelopes");
  CHECK(need(needs, ItemKind::Stock, dots).group == supply::Group::Patterned);
}

TEST_CASE("dies, stamps, inks and tools are owned and used, the rest is used up") {
  for (const Need& one : supply::needs_of_set(small_project())) {
    const bool owned = one.item.kind == ItemKind::Die || one.item.kind == ItemKind::StampSet ||
                       one.item.kind == ItemKind::Ink || one.item.kind == ItemKind::Tool;
    CHECK(one.consumed != owned);
  }
}

TEST_CASE("a reference to nothing takes nothing") {
  Project project = small_project();
  Card& card = project.cards[0];
  card.envelope = 99;
  card.ribbons[0].ribbon = -1;
  card.pieces[mat].stock = 99;
  card.pieces[scene].stamped[0].inks = {99};
  card.pieces[scene].stamped[0].set = 99;
  const Needs needs = supply::needs_of(project, 0);
  for (const ItemKind kind :
       {ItemKind::Envelope, ItemKind::Ribbon, ItemKind::Ink, ItemKind::StampSet})
    for (const Need& one : needs) CHECK(one.item.kind != kind);
  CHECK(supply::needs_of(project, 5).empty());
}

TEST_CASE("tools serve the cards whose making calls for them") {
  Project project = small_project();
  Card& card = project.cards[0];
  const auto added = [&](std::string name, Works works) {
    Tool tool;
    tool.name = std::move(name);
    tool.works = works;
    project.tools.push_back(tool);
    return static_cast<int>(project.tools.size()) - 1;
  };
  const int heat = added("hot tool", {Work::Heat});
  const int press = added("press", {Work::DieCut, Work::Emboss});
  const int knife = added("knife", {Work::Knife});
  const int powder = added("Dust", {Work::Powder});
  const int folder = added("Spoon", {Work::Fold});
  const auto use = [&](int tool) { return supply::tool_use(project, card, tool); };
  using enum supply::ToolUse;
  CHECK(use(heat) == No);
  CHECK(use(press) == Yes); // the label is die-cut
  CHECK(use(knife) == No);
  CHECK(use(powder) == No);
  CHECK(use(folder) == Yes);
  CHECK(use(0) == Yes); // the trimmer
  card.pieces[scene].stamped[0].method = Impression::Method::HeatEmbossed;
  card.pieces[mat].windows.push_back({});
  CHECK(use(heat) == Yes);
  CHECK(use(powder) == Yes);
  CHECK(use(knife) == Yes);
}

TEST_CASE("what a step or an alternative uses is needed, counted things once for each time") {
  Project project = small_project();
  Card& card = project.cards[0];
  Tool pencil;
  pencil.name = "Pencil";
  project.tools.push_back(pencil);
  const ItemRef item{ItemKind::Tool, static_cast<int>(project.tools.size()) - 1};
  Embellishment gem;
  gem.id = "gem";
  project.embellishments.push_back(gem);
  const ItemRef gems{ItemKind::Embellishment, static_cast<int>(project.embellishments.size()) - 1};
  CHECK(supply::find(supply::needs_of(project, 0), gems) == nullptr);
  AuthorStep step;
  step.uses = {gems};
  card.steps = {step, step};
  card.pieces[label].alternative_uses = {item};
  const Needs needs = supply::needs_of(project, 0);
  CHECK(need(needs, ItemKind::Embellishment, gems.index).count == 2);
  CHECK(need(needs, ItemKind::Tool, item.index).cards == std::vector<int>{0});
}

TEST_CASE("a tool of which nothing is known is listed for no card, until one calls for it") {
  Project project = small_project();
  project.cards.push_back(project.cards[0]);
  Tool tweezers;
  tweezers.name = "Tweezers";
  project.tools.push_back(tweezers);
  const ItemRef item{ItemKind::Tool, static_cast<int>(project.tools.size()) - 1};
  const auto cards = [&] {
    const Needs needs = supply::needs_of_set(project);
    const Need* need = supply::find(needs, item);
    REQUIRE(need);
    return need->cards;
  };
  CHECK(cards().empty());
  TextPart part;
  part.kind = TextPart::Kind::Thing;
  part.thing = item;
  AuthorStep step;
  step.text = {part};
  project.cards[1].steps.push_back(step);
  CHECK(cards() == std::vector<int>{1});
  CHECK(supply::find(supply::needs_of(project, 0), item) == nullptr);
}

// Mass by definition: grammage (ISO 536) times area.
TEST_CASE("a kit weighs its paper by grammage and names what has no mass") {
  Project project = small_project();
  project.run.of_each = 1;
  Needs needs = supply::needs_of_kit(project);
  const supply::KitMass mass = supply::mass_of_needs(project, needs);
  // Foam, tape, domes and ribbon have no mass; the envelope's is estimated from its weight.
  CHECK(mass.unknown.size() == 4);
  CHECK(mass.estimated);
  const double m2 = 0.0254 * 0.0254;
  const double kraft_g = 4.25 * 11 * m2 * 216.3, dots_g = 4 * 5.25 * m2 * 103.6;
  const double cream_g = (3.25 * 3.25 + 2.75 + 3.75 * 5) * m2 * 297.5;
  const double glue_g = 3.25 * 3.25 * m2 * 40;
  const double envelope_g = 2.5 * 4.375 * 5.75 * m2 * 103.6;
  CHECK(static_cast<double>(mass.known.mg) / 1000 ==
        doctest::Approx(kraft_g + dots_g + cream_g + glue_g + envelope_g).epsilon(0.002));
}

TEST_CASE("ribbon weighs its share of a spool") {
  Project project = small_project();
  project.ribbons[0].sold.each = {36'000};
  Needs ribbon;
  ribbon.push_back(need(supply::needs_of(project, 0), ItemKind::Ribbon));
  CHECK(supply::mass_of_needs(project, ribbon).known == Mass{950}); // 9 1/2 of 360 in
}

namespace {

supply::Consumption taken_by(Attach::Where where, int adhesive) {
  Project project = small_project();
  Card& card = project.cards[0];
  Piece piece = panel("pocket", cream, on_face(front), {inches(4), inches(3)}, {});
  piece.attach = stuck_with(adhesive);
  piece.attach.where = where;
  return supply::consumption_of(project, card, piece);
}

} // namespace

TEST_CASE("a half takes what a piece of that size would") {
  const Project project = small_project();
  CHECK(taken_by(Attach::Where::LeftHalf, tape).length ==
        supply::consumption_of(project.adhesives[tape], stuck_with(tape), {inches(2), inches(3)})
            .length);
}

TEST_CASE("a pocket takes tape along three edges, less at the two corners where they meet") {
  // 3 + 4 + 3 in, 1/4 in less at two corners.
  CHECK(taken_by(Attach::Where::OpenTop, tape).length == inches(9, 1, 2));
}

TEST_CASE("one edge takes tape as long as it is, less at both ends") {
  CHECK(taken_by(Attach::Where::TopEdge, tape).length == inches(3, 1, 2));
  CHECK(taken_by(Attach::Where::LeftEdge, tape).length == inches(2, 1, 2));
}

TEST_CASE("under the frame goes as much tape as all round") {
  CHECK(taken_by(Attach::Where::Frame, tape).length == inches(13));
}

TEST_CASE("in the middle sticks one square") {
  CHECK(taken_by(Attach::Where::Middle, foam).count == 1);
}

TEST_CASE("glue of a pocket covers its three lines and no more") {
  // Lines of 3 mm: 4 in at the foot, twice 3 in less that above it.
  const Project project = small_project();
  const Length bead = millimetres(3);
  const Area lines = area({inches(4), bead}) + area({bead, inches(3) - bead}) * 2;
  CHECK(taken_by(Attach::Where::OpenTop, glue).mass ==
        mass_of(lines, project.adhesives[glue].spread));
}
