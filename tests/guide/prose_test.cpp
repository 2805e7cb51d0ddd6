#include "workbench.h"

#include "guide/internal/prose/placement.h"
#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "model/form.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

using namespace leafwright;
using namespace leafwright::guide;
using namespace workbench;

namespace {

// As read aloud, with plain blanks for the no-break ones.
std::string said(const Prose& prose) {
  std::string text = spoken(prose.sentence());
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
    text.replace(at, 2, " ");
  return text;
}

std::string folded(Form::Kind form, Size finished = {inches(4, 1, 4), inches(5, 1, 2)},
                   int leaves = 0) {
  Project one = project();
  add_card(one, form, finished, leaves);
  return said(base_words({one, one.cards[0]}, false));
}

struct Bench {
  Project it = project();
  Card& card;
  explicit Bench(Form::Kind form = Form::Kind::TopFold)
      : card(it.cards[static_cast<std::size_t>(add_card(it, form))]) {}
  StepContext context() const { return {it, card}; }
  Piece& piece(int index) { return card.pieces[static_cast<std::size_t>(index)]; }
  std::string fixed(int index) const { return said(fixing(context(), {index}, false)); }
  std::string prepared(int index) const { return said(preparation(context(), {index}).prose); }
};

constexpr Size small_panel{inches(3, 1, 4), inches(3, 1, 4)};

// A row stamped without inking again, and fruit over each tree.
std::vector<Impression> fading_trees_with_fruit() {
  const std::vector<Point> row{
      {inches(0, 1, 8), inches(1)}, {inches(1, 1, 8), inches(1)}, {inches(2, 1, 8), inches(1)}};
  Impression trees = impression(tree, {moss, plum}, row);
  trees.fading = true;
  trees.arranged = Impression::Arranged::Row;
  return {trees, impression(fruit, {rust}, row)};
}

} // namespace

namespace {

Finish finish(Finish::Kind kind, int ink, std::string with = {}) {
  Finish one;
  one.kind = kind;
  one.ink = ink;
  one.with = std::move(with);
  return one;
}

} // namespace

TEST_CASE("every form of card tells its own folding") {
  CHECK(folded(Form::Kind::TopFold) ==
        "Score the kraft base (A) at 5 1/2 in from the top. Fold it in half, with the fold at the "
        "top. Burnish the fold with the bone folder.");
  CHECK(folded(Form::Kind::SideFold) ==
        "Score the kraft base (A) at 4 1/4 in from the left. Fold it in half, with the fold at the "
        "left. Burnish the fold with the bone folder.");
  CHECK(folded(Form::Kind::Gate) ==
        "Score the kraft base (A) at 2 1/8 in and 6 3/8 in from the left. Fold both gates in until "
        "they meet in the middle. Burnish the folds with the bone folder.");
  CHECK(folded(Form::Kind::Z) == "Score the kraft base (A) at 2 1/8 in and 4 1/4 in from the left. "
                                 "With the inside up, mountain fold at 2 1/8 in and valley fold at "
                                 "4 1/4 in. Burnish the folds with the bone folder.");
  CHECK(folded(Form::Kind::Accordion, {inches(3), inches(5)}, 4) ==
        "Score the kraft base (A) at 3 in, 6 in and 9 in from the left. With the inside up, fold "
        "it back and forth, starting with a valley fold at the left. Burnish the folds with the "
        "bone folder.");
  CHECK(folded(Form::Kind::Tent).find("with the fold at the top") != std::string::npos);
  CHECK(folded(Form::Kind::Flat) == "Begin with the kraft base (A) and leave it flat.");
}

TEST_CASE("a tag cut by hand tells its corners and its hole") {
  Bench bench(Form::Kind::Tag);
  bench.piece(0).shape.outline = Shape::Outline::Tag;
  bench.piece(0).shape.depth = inches(0, 1, 2);
  bench.piece(0).shape.radius = inches(0, 1, 8);
  CHECK(said(base_words(bench.context(), false)) ==
        "Cut off the two top corners of the kraft base (A) at 45°, 1/2 in along each edge. Punch "
        "a 1/4 in hole near the top, centered.");
}

TEST_CASE("a mat says how much of its carrier shows") {
  Bench bench;
  const int mat = add_mat(bench.it, bench.card, "dotted mat", dots, "front", inches(0, 1, 8));
  CHECK(bench.fixed(mat) ==
        "Tape the dotted mat (B) to the front, with 1/8 in of kraft all around.");
  const int uneven = add_panel(bench.card, "note", cream, on_face(bench.card, "inside"),
                               {inches(3, 3, 4), inches(4)}, {inches(0, 1, 4), inches(0, 3, 4)});
  CHECK(bench.fixed(uneven) == "Tape the note (C) to the inside, below the fold, centered.");
}

TEST_CASE("no reveal is claimed where another piece lies between") {
  Bench bench;
  add_mat(bench.it, bench.card, "dotted mat", dots, "front", inches(0, 1, 8));
  const int second = add_mat(bench.it, bench.card, "moss mat", moss_card, "front", inches(0, 1, 4));
  CHECK(bench.fixed(second) == "Tape the moss mat (C) to the front, centered.");
}

TEST_CASE("a place is told from the edge that the author named") {
  Bench bench;
  const int mat = add_mat(bench.it, bench.card, "dotted mat", dots, "front", inches(0, 1, 8));
  const int panel = add_panel(bench.card, "tree panel", cream, on_piece(mat), small_panel,
                              {inches(0, 3, 8), inches(1, 5, 8)});
  bench.piece(panel).position.down = Position::Down::FromBottom;
  CHECK(bench.fixed(panel) ==
        "Tape the tree panel (C) to the dotted mat (B), centered, 3/8 in from the bottom.");
  bench.piece(panel).position.down = Position::Down::FromTop;
  CHECK(bench.fixed(panel).find("1 5/8 in from the top.") != std::string::npos);
  bench.piece(panel).at = {inches(0, 1, 4), {}};
  bench.piece(panel).position.across = Position::Across::FromLeft;
  CHECK(
      bench.fixed(panel) ==
      "Tape the tree panel (C) to the dotted mat (B), 1/4 in from the left and even with the top.");
}

TEST_CASE("below the fold is told from the fold") {
  Bench bench;
  const int strip = add_panel(bench.card, "strip", cream, on_face(bench.card, "inside"),
                              {inches(3), inches(1)}, {inches(0, 1, 2), inches(0, 3, 4)});
  bench.piece(strip).position.down = Position::Down::FromTop;
  bench.piece(strip).position.across = Position::Across::FromLeft;
  CHECK(bench.fixed(strip) == "Tape the strip (B) to the inside, below the fold, 1/2 in from the "
                              "left and 3/4 in from the fold.");
}

TEST_CASE("each adhesive has its own verb and count") {
  Bench bench;
  const int panel = add_panel(bench.card, "label", cream, on_face(bench.card, "front"),
                              {inches(2), inches(2)}, {inches(1, 1, 8), inches(1, 3, 4)});
  Piece& label = bench.piece(panel);
  const std::string place =
      "centred: 1 1/8 in of kraft shows left and right, 1 3/4 in above and below.";
  label.attach.adhesive = glue;
  CHECK(bench.fixed(panel) == "Glue the label (B) to the front, centered.");
  label.attach.adhesive = foam;
  label.attach.raised = true;
  label.attach.count = 4;
  CHECK(bench.fixed(panel) == "Raise the label (B) on foam over the front, centered.");
  label.attach.layers = 2;
  label.attach.count = 4; // in each layer
  CHECK(bench.fixed(panel).find("on two layers of foam") != std::string::npos);
  label.attach = {};
  label.attach.adhesive = glue_dots;
  label.attach.count = 3;
  CHECK(bench.fixed(panel) == "Stick the label (B) to the front with small glue dots, centered.");
  label.attach = {};
  CHECK(bench.fixed(panel).find("Lay the label (B) loose on the front") != std::string::npos);
}

TEST_CASE("what is stuck in part says which part before it is pressed on") {
  Bench bench;
  const int at = add_panel(bench.card, "ticket pocket", cream, on_face(bench.card, "front"),
                           small_panel, {inches(0, 1, 2), inches(1)});
  const auto told = [&](int adhesive, Attach::Where where) {
    bench.piece(at).attach.adhesive = adhesive;
    bench.piece(at).attach.where = where;
    const std::string all = bench.fixed(at);
    return all.substr(0, all.find("Press it") + 8);
  };
  using Where = Attach::Where;
  CHECK(told(tape, Where::OpenTop) ==
        "Run tape behind three edges of the ticket pocket (B); its top stays open. Press it");
  CHECK(told(glue, Where::LeftHalf) ==
        "Spread glue behind the left half of the ticket pocket (B) only. Press it");
  CHECK(told(foam, Where::Middle) ==
        "Set foam squares behind the middle of the ticket pocket (B) only. Press it");
  CHECK(told(tape, Where::Frame) ==
        "Run tape behind the frame of the ticket pocket (B), all around. Press it");
  const std::string named = said(fixing(bench.context(), {at}, true));
  CHECK(named.starts_with("Run tape behind its frame, all around."));
  bench.it.language = "en-GB";
  CHECK(told(tape, Where::Frame) ==
        "Run tape behind the frame of the ticket pocket (B), all round. Press it");
}

TEST_CASE("what lies over a ribbon and what is turned say so") {
  Bench bench;
  RibbonUse use;
  use.ribbon = grosgrain;
  use.on = on_face(bench.card, "front");
  bench.card.ribbons.push_back(use);
  const int panel = add_panel(bench.card, "label", cream, on_face(bench.card, "front"),
                              {inches(2), inches(1)}, {inches(1), inches(3)});
  bench.piece(panel).position.over = "ribbon";
  CHECK(bench.fixed(panel) == "Tape the label (B) to the front, centered over the ribbon.");
  bench.piece(panel).position.over.clear();
  bench.piece(panel).position.across = Position::Across::FromLeft;
  bench.piece(panel).position.down = Position::Down::FromTop;
  bench.piece(panel).rotation = degrees(-6);
  CHECK(bench.fixed(panel) ==
        "Tape the label (B) to the front. Place the middle 2 in from the left and 3 1/2 "
        "in from the top, tilted slightly to the left.");
}

TEST_CASE("a band longer than the card is wrapped, not centred") {
  Bench bench;
  const int band =
      add_panel(bench.card, "kraft band", kraft, on_face(bench.card, "front"),
                {inches(9, 1, 2), inches(0, 3, 4)}, {inches(-2, -5, 8), inches(3, 1, 4)});
  bench.piece(band).role = Piece::Role::Band;
  bench.piece(band).position.down = Position::Down::FromTop;
  CHECK(bench.fixed(band) == "Wrap the kraft band (B) around the front, 3 1/4 in from the top. "
                             "Tape the ends where they overlap.");
}

TEST_CASE("a piece is cut, opened and finished in the order of the table") {
  Bench bench;
  const int panel = add_panel(bench.card, "label", cream, on_face(bench.card, "front"),
                              {inches(2, 1, 2), inches(0, 13, 16)}, {inches(1), inches(1)});
  Piece& label = bench.piece(panel);
  label.cut = Piece::CutBy::Die;
  label.die = 0;
  label.cut_from = {inches(2, 3, 4), inches(1)};
  label.stamped.push_back(impression(greeting, {plum}, {{inches(0, 1, 4), inches(0, 5, 32)}}));
  label.finishes.push_back(finish(Finish::Kind::EdgeInked, moss));
  CHECK(bench.prepared(panel) == "Die cut the label (B) from its cream piece. Stamp it with “come "
                                 "on in” in plum, centered. Ink its edges with moss.");
}

namespace {

Finish technique(Finish::Kind kind, std::size_t images) {
  Finish one;
  one.kind = kind;
  one.images = images;
  return one;
}

} // namespace

TEST_CASE("a wash is told before what is stamped on it, and how long it dries") {
  Bench bench;
  const int at = add_panel(bench.card, "sky panel", cream, on_face(bench.card, "front"),
                           small_panel, {inches(0, 1, 2), inches(1)});
  bench.piece(at).stamped = {impression(tree, {moss}, {{inches(1), inches(1)}})};
  Finish wash = technique(Finish::Kind::Washed, 0);
  wash.ink = rust;
  wash.area = "the sky";
  bench.piece(at).finishes = {technique(Finish::Kind::Torn, 1), wash};
  const std::string all = bench.prepared(at);
  CHECK(all.starts_with("Brush water over the sky of the sky panel (B). Touch in rust and let it "
                        "run. Let it dry for 10 minutes. Stamp"));
  CHECK(all.ends_with("Tear its edges toward you, so that the core shows."));
  bench.it.language = "en-GB";
  CHECK(bench.prepared(at).ends_with("Tear its edges towards you, so that the core shows."));
}

TEST_CASE("each technique has its own words") {
  Bench bench;
  const int at = add_panel(bench.card, "panel", cream, on_face(bench.card, "front"), small_panel,
                           {inches(0, 1, 2), inches(1)});
  Tool stencil;
  stencil.id = "leaves";
  stencil.name = "Leaf stencil";
  bench.it.tools.push_back(stencil);
  const auto told = [&](Finish one) {
    bench.piece(at).finishes = {std::move(one)};
    return bench.prepared(at);
  };
  Finish blend = technique(Finish::Kind::Blended, 0);
  blend.ink = moss;
  blend.with = "leaves";
  blend.tool = static_cast<int>(bench.it.tools.size()) - 1;
  CHECK(told(blend) == "Lay the leaf stencil on the panel (B). Blend moss through it with a light "
                       "hand. Let it dry for 2 minutes.");
  Finish colour = technique(Finish::Kind::Coloured, 0);
  colour.area = "the petals";
  CHECK(told(colour) == "Color the petals of the panel (B) with markers or pencils.");
  Finish stitch = technique(Finish::Kind::Stitched, 0);
  stitch.radius = inches(0, 1, 8);
  CHECK(told(stitch) == "Stitch around the panel (B), 1/8 in from the edge.");
  CHECK(told(technique(Finish::Kind::Glittered, 0)) ==
        "Dot liquid glitter onto the panel (B). Let it dry for 30 minutes.");
}

TEST_CASE("a window names its die or warns of the knife") {
  Bench bench;
  const int panel = add_mat(bench.it, bench.card, "frame", dots, "front", inches(0, 1, 8));
  Window window;
  window.shape.outline = Shape::Outline::Circle;
  window.size = {inches(2), inches(2)};
  window.at = {inches(1), inches(0, 1, 2)};
  window.die = 1;
  bench.piece(panel).windows.push_back(window);
  CHECK(bench.prepared(panel) ==
        "Die cut the window in the frame (B), centered, 1/2 in from the top.");
  bench.piece(panel).windows[0].die = -1;
  const Preparation by_hand = preparation(bench.context(), {panel});
  REQUIRE(by_hand.notices.size() == 1);
  CHECK(by_hand.notices[0].kind == Notice::Kind::Caution);
}

TEST_CASE("what own words do not replace is told round them") {
  Bench bench;
  const int index =
      add_panel(bench.card, "latch", moss_card, on_face(bench.card, "front"), small_panel, {});
  Piece& latch = bench.piece(index);
  latch.id = "latch";
  latch.cut = Piece::CutBy::Die;
  latch.die = 1;
  latch.size = {inches(2), inches(2)};
  latch.shape.outline = Shape::Outline::Circle;
  latch.finishes.push_back(finish(Finish::Kind::CornersRounded, -1));
  latch.finishes.push_back(finish(Finish::Kind::EdgeInked, moss));
  bench.card.build.push_back({Build::Kind::Piece, index});
  AuthorStep own;
  own.for_id = "latch";
  TextPart part;
  part.words = "Cut it and glue it on.";
  own.text = {part};
  const auto told = [&](std::optional<Works> instead_of) {
    own.instead_of = instead_of;
    bench.card.steps = {own};
    Prose text;
    text.append(steps_of(bench.context(), "card-one").steps.back().text.at(0));
    return said(text);
  };
  const std::string die = "Die cut the latch (B) from its moss square. ";
  // The words alone change nothing.
  CHECK(told(std::nullopt) == die + "Round its corners. Cut it and glue it on.");
  CHECK(told(Works{Work::Cut, Work::Round, Work::Ink, Work::Stick}) == "Cut it and glue it on.");
  CHECK(told(Works{Work::Cut, Work::Round, Work::Stick}) ==
        "Ink the edges of the latch (B) with moss. Cut it and glue it on.");
  CHECK(told(Works{Work::Cut, Work::Round, Work::Ink}).starts_with("Cut it and glue it on. "));
  CHECK(told(Works{Work::Cut, Work::Round, Work::Ink}) != "Cut it and glue it on. ");
}

TEST_CASE("what an author's step uses stands among what the step takes") {
  Bench bench;
  AuthorStep own;
  own.title = "Look";
  TextPart part;
  part.words = "Look at it.";
  own.text = {part};
  own.uses = {{ItemKind::Tool, 1}, {ItemKind::Adhesive, 3}};
  bench.card.steps = {own};
  bench.card.build = {{Build::Kind::Step, 0}};
  CHECK(spoken(steps_of(bench.context(), "card-one").steps.back().parts) ==
        "You need: bone folder, paper glue");
}

TEST_CASE("every method of stamping is told in its own way") {
  Bench bench;
  const int index =
      add_panel(bench.card, "tree panel", cream, on_face(bench.card, "front"), small_panel, {});
  Piece& panel = bench.piece(index);
  const Point centre{inches(1, 1, 8), inches(0, 15, 16)};
  const auto told = [&](std::vector<Impression> stamped) {
    panel.stamped = std::move(stamped);
    return bench.prepared(index);
  };
  Impression one = impression(tree, {moss}, {centre});
  CHECK(told({one}) == "Stamp the small tree in moss on the tree panel (B), centered.");
  one.method = Impression::Method::SecondGeneration;
  CHECK(told({one}) == "Stamp off the small tree once in moss. Without re-inking, stamp it on "
                       "the tree panel (B), centered.");
  one.method = Impression::Method::Sponged;
  CHECK(told({one}) ==
        "Dab moss onto the small tree with a sponge. Stamp it on the tree panel (B), centered.");
  one.method = Impression::Method::HeatEmbossed;
  CHECK(told({one}) == "Stamp the small tree in moss on the tree panel (B), centered. While the "
                       "ink is wet, cover it with clear embossing powder. Tap off what is loose "
                       "and melt the rest with the heat gun until it shines.");
  CHECK(preparation(bench.context(), {index}).notices.size() == 1);
  one.method = Impression::Method::Masked;
  one.image = palings;
  Impression before = impression(tree, {moss}, {centre});
  CHECK(told({before, one}) ==
        "Stamp the small tree in moss on the tree panel (B), centered. Cover the small tree with a "
        "mask: stamp it on scrap paper and cut it out. Stamp the five palings in moss across the "
        "edge of the mask, as drawn. Lift the mask.");
}

TEST_CASE("rows, fading, two inks and prints over prints are told shortly") {
  Bench bench;
  const int index =
      add_panel(bench.card, "tree panel", cream, on_face(bench.card, "front"), small_panel, {});
  bench.piece(index).stamped = fading_trees_with_fruit();
  CHECK(bench.prepared(index) ==
        "Ink the small tree once with moss and plum. Without re-inking, stamp it on the tree "
        "panel (B) at left, middle and right, 1 in from the top. Add the scattered fruit in rust "
        "over each small tree.");
}

TEST_CASE("a step that goes on with a piece names it anew and takes only what it uses") {
  Bench bench;
  const int index =
      add_panel(bench.card, "tree panel", cream, on_face(bench.card, "front"), small_panel, {});
  Piece& panel = bench.piece(index);
  panel.stamped = fading_trees_with_fruit();
  panel.stamped.push_back(impression(palings, {moss}, {{inches(1), inches(2)}}));
  panel.finishes.push_back(finish(Finish::Kind::EdgeInked, plum));
  const std::vector<Step> steps = steps_of(bench.context(), "card-one").steps;
  REQUIRE(steps.size() == 3); // the base, and two for the panel
  const auto text = [&](std::size_t i) {
    Prose prose;
    return said(prose.append(steps[i].text.at(0)));
  };
  CHECK(text(2).starts_with("Stamp the five palings in moss on the tree panel (B)"));
  CHECK(spoken(steps[1].parts) ==
        "You need: (B)\u00A0tree panel, small tree stamp, scattered fruit "
        "stamp, ▪\u00A0moss ink, ▪\u00A0plum ink, ▪\u00A0rust ink");
  CHECK(spoken(steps[2].parts) ==
        "You need: (B)\u00A0tree panel, five palings stamp, ▪\u00A0moss ink, ▪\u00A0plum "
        "ink, a sponge, tape runner");
}

TEST_CASE("ribbons are laid, wrapped, tied and threaded") {
  Bench bench;
  RibbonUse use;
  use.ribbon = grosgrain;
  use.on = on_face(bench.card, "front");
  use.at = inches(4, 1, 4);
  use.path = inches(4, 1, 4);
  use.extra = inches(1);
  use.adhesive = tape;
  CHECK(said(ribbon_words(bench.context(), use)) ==
        "Cut 5 1/4 in of rust grosgrain ribbon. Lay it across the front, with its middle 4 1/4 in "
        "from the top. Tape the ends behind the edges.");
  use.as = RibbonUse::As::Wrap;
  use.path = inches(8, 1, 2);
  CHECK(said(ribbon_words(bench.context(), use)) ==
        "Cut 9 1/2 in of rust grosgrain ribbon. Wrap it around the front, with its middle 4 1/4 in "
        "from the top. Tape the ends inside.");
  use.as = RibbonUse::As::Bow;
  use.ribbon = twine;
  use.given = inches(18);
  CHECK(said(ribbon_words(bench.context(), use)) ==
        "Cut 18 in of plain linen twine. Tie it in a bow around the front, 4 1/4 in from the top. "
        "Even the loops and trim the tails at a slant.");
  const int tag = add_panel(bench.card, "small tag", kraft, on_face(bench.card, "front"),
                            {inches(1), inches(2)}, {});
  bench.piece(tag).shape.outline = Shape::Outline::Tag;
  bench.piece(tag).shape.radius = inches(0, 1, 16);
  use.as = RibbonUse::As::Knot;
  use.on = on_piece(tag);
  CHECK(said(ribbon_words(bench.context(), use)) ==
        "Cut 18 in of plain linen twine. Thread it through the hole of the small tag (B) and knot "
        "it. Pull it "
        "tight and trim the ends of the twine.");
}

TEST_CASE("embellishments are counted") {
  Bench bench;
  EmbellishmentUse use;
  use.embellishment = 0;
  use.on = on_face(bench.card, "front");
  use.places = {{inches(1), inches(1)}, {inches(2), inches(3)}, {inches(3), inches(2)}};
  CHECK(said(embellishment_words(bench.context(), use)) ==
        "Stick three clear domes to the front, where the drawing shows.");
  CHECK(embellishment_title(bench.it, use) == "Add the clear domes");
}

TEST_CASE("panels that are alike and follow each other are told together") {
  Bench bench(Form::Kind::Gate);
  const int left = add_mat(bench.it, bench.card, "left gate panel", cream, "left", inches(0, 1, 8));
  const int right =
      add_mat(bench.it, bench.card, "right gate panel", cream, "right", inches(0, 1, 8));
  const std::vector<Moment> moments = moments_of(bench.context());
  REQUIRE(moments.size() == 2);
  CHECK(moments[1].builds.size() == 2);
  CHECK(said(fixing(bench.context(), {left, right}, false)) ==
        "Tape the left and right gate panels (B) and (C) to the left and right gates. Leave 1/8 in "
        "of kraft all around.");
  bench.piece(right).stock = moss_card;
  CHECK(moments_of(bench.context()).size() == 3);
}

TEST_CASE("the author's names get an article where one is missing") {
  Bench bench;
  const int mat = add_mat(bench.it, bench.card, "dotted mat", dots, "front", inches(0, 1, 8));
  const auto text = [&](const std::string& before, const std::string& after) {
    AuthorText parts(3);
    parts[0].words = before;
    parts[1].kind = TextPart::Kind::Thing;
    parts[1].piece = mat;
    parts[2].words = after;
    return spoken(author_text(bench.context(), parts));
  };
  CHECK(text("tape ", " down.") == "Tape the dotted mat\u00A0(B) down.");
  CHECK(text("Tape the ", ".") == "Tape the dotted mat\u00A0(B).");
  CHECK(text("Tape your finished ", ".") == "Tape your finished dotted mat\u00A0(B).");
  CHECK(text("Over the wet ink of ", ".") == "Over the wet ink of the dotted mat\u00A0(B).");
  CHECK(text("", " goes first.") == "The dotted mat\u00A0(B) goes first.");
}

TEST_CASE("names lose their capital and their detail changes place inside a sentence") {
  CHECK(in_sentence("Kraft") == "kraft");
  CHECK(in_sentence("Cream A2 envelope") == "cream A2 envelope");
  CHECK(in_sentence("Circle die, 2 3/4 in") == "2\u00A03/4\u00A0in circle die");
  CHECK(in_sentence("Paper glue, fine tip") == "paper glue");
  CHECK(in_sentence("A4 trimmer") == "A4 trimmer");
}
