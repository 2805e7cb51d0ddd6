#include "small_project.h"
#include "model/form.h"

#include <string_view>
#include <utility>

namespace leafwright::testing {

namespace {

Stock stock(std::string id, std::string name, Stock::Kind kind, SheetOffer sheet,
            std::string_view weight, Length caliper) {
  Stock one;
  one.id = std::move(id);
  one.name = std::move(name);
  one.kind = kind;
  one.sheets = {std::move(sheet)};
  one.grammage = parse_grammage(weight).value();
  one.caliper = caliper;
  return one;
}

SheetOffer sheet(std::string name, Size size) {
  SheetOffer one;
  one.name = std::move(name);
  one.size = size;
  return one;
}

Adhesive adhesive(std::string id, Adhesive::Kind kind, Adhesive::Measured measured) {
  Adhesive one;
  one.id = id;
  one.name = std::move(id);
  one.kind = kind;
  one.measured = measured;
  return one;
}

void add_supplies(Project& project) {
  const Size letter{inches(8, 1, 2), inches(11)}, twelve{inches(12), inches(12)};
  project.stocks = {
      stock("kraft", "Kraft", Stock::Kind::Cardstock, sheet("letter", letter), "80 lb cover",
            micrometres(300)),
      stock("cream", "Cream", Stock::Kind::Cardstock, sheet("letter", letter), "110 lb cover",
            micrometres(400)),
      stock("dots", "Dots", Stock::Kind::Patterned, sheet("12 × 12 in", twelve), "70 lb text",
            micrometres(100)),
  };
  project.stocks[kraft].grain = Stock::Grain::AlongWidth;
  project.stocks[dots].upright = true;

  Adhesive runner = adhesive("tape", Adhesive::Kind::Tape, Adhesive::Measured::ByLength);
  runner.length = inches(300);
  runner.thickness = micrometres(50);
  Adhesive squares = adhesive("foam", Adhesive::Kind::Foam, Adhesive::Measured::ByCount);
  squares.piece = {inches(0, 3, 8), inches(0, 3, 8)};
  squares.thickness = micrometres(1500);
  squares.per_pack = 100;
  Adhesive pot = adhesive("glue", Adhesive::Kind::Glue, Adhesive::Measured::ByMass);
  pot.spread = {40'000};
  project.adhesives = {runner, squares, pot};

  Die die;
  die.id = die.name = "label-die";
  die.size = {inches(2, 1, 2), inches(0, 13, 16)};
  project.dies = {die};
  StampSet set;
  set.id = set.name = "orchard";
  set.images.resize(2);
  set.images[0].id = set.images[0].name = "tree";
  set.images[0].size = {inches(1), inches(1, 3, 8)};
  set.images[1].id = set.images[1].name = "apple";
  set.images[1].size = {inches(0, 1, 2), inches(0, 5, 8)};
  project.stamp_sets = {set};
  Ink ink;
  ink.id = ink.name = "moss";
  project.inks = {ink};
  Ribbon ribbon;
  ribbon.id = ribbon.name = "rust";
  ribbon.width = inches(0, 3, 8);
  ribbon.spool = inches(360);
  project.ribbons = {ribbon};
  Embellishment dome;
  dome.id = dome.name = "dome";
  dome.size = {millimetres(4), millimetres(4)};
  project.embellishments = {dome};
  Tool trimmer;
  trimmer.id = trimmer.name = "trimmer";
  trimmer.risk = Tool::Risk::Blade;
  trimmer.works = {Work::Trim};
  trimmer.cut_length = inches(12);
  trimmer.smallest_strip = inches(0, 3, 8);
  project.tools = {trimmer};
  Envelope envelope;
  envelope.id = envelope.name = "A2 envelope";
  envelope.size = {inches(4, 3, 8), inches(5, 3, 4)};
  envelope.grammage = parse_grammage("70 lb text").value();
  project.envelopes = {envelope};
}

Card small_card() {
  Card card;
  card.id = "trees";
  card.title = "Trees";
  card.form = {Form::Kind::TopFold, 0};
  card.finished = {inches(4, 1, 4), inches(5, 1, 2)};
  card.plan = plan_of(card.form, card.finished);
  card.envelope = 0;

  Piece folded = panel("base", kraft, on_face(front), card.plan.unfolded, {});
  folded.role = Piece::Role::Base;
  folded.scores = card.plan.scores;
  folded.attach = {};
  add(card, folded);

  Piece matted = panel("mat", dots, on_face(front), {inches(4), inches(5, 1, 4)},
                       {inches(0, 1, 8), inches(0, 1, 8)});
  matted.equal_reveal_wanted = true;
  add(card, matted);

  Piece view = panel("scene", cream, on_piece(mat), {inches(3, 1, 4), inches(3, 1, 4)},
                     {inches(0, 3, 8), inches(0, 3, 8)});
  Impression trees;
  trees.set = trees.image = 0;
  trees.inks = {0};
  trees.times = 3;
  trees.fading = true;
  trees.arranged = Impression::Arranged::Row;
  trees.places = {
      {inches(0, 1, 16), inches(1)}, {inches(1, 1, 8), inches(1)}, {inches(2, 3, 16), inches(1)}};
  view.stamped = {trees};
  view.attach = stuck_with(glue);
  add(card, view);

  Piece sign = panel("label", cream, on_face(front), {inches(2, 1, 2), inches(0, 13, 16)},
                     {inches(0, 7, 8), inches(4)});
  sign.cut = Piece::CutBy::Die;
  sign.die = 0;
  sign.cut_from = {inches(2, 3, 4), inches(1)};
  sign.attach = stuck_with(foam);
  add(card, sign);

  Piece words = panel("note", cream, on_face(inside), {inches(3, 3, 4), inches(5)},
                      {inches(0, 1, 4), inches(0, 1, 4)});
  words.equal_reveal_wanted = true;
  add(card, words);

  RibbonUse wrap;
  wrap.id = "wrap";
  wrap.ribbon = 0;
  wrap.as = RibbonUse::As::Wrap;
  wrap.on = on_face(front);
  wrap.at = inches(4, 3, 8);
  wrap.path = inches(8, 1, 2);
  wrap.extra = inches(1);
  wrap.adhesive = tape;
  card.ribbons = {wrap};
  card.build.push_back({Build::Kind::Ribbon, 0});

  EmbellishmentUse domes;
  domes.embellishment = 0;
  domes.on = on_piece(scene);
  domes.places = {{inches(0, 1, 2), inches(2, 3, 4)}, {inches(2), inches(2, 3, 4)}};
  card.embellishments = {domes};
  card.build.push_back({Build::Kind::Embellishment, 0});
  return card;
}

} // namespace

Piece panel(std::string id, int stock, Carrier on, Size size, Point at) {
  Piece piece;
  piece.id = id;
  piece.name = std::move(id);
  piece.stock = stock;
  piece.on = on;
  piece.size = piece.cut_from = size;
  piece.at = at;
  piece.attach.adhesive = tape;
  return piece;
}

Attach stuck_with(int adhesive) {
  Attach attach;
  attach.adhesive = adhesive;
  attach.raised = adhesive == foam;
  return attach;
}

int add(Card& card, Piece piece) {
  const int index = static_cast<int>(card.pieces.size());
  card.pieces.push_back(std::move(piece));
  card.build.push_back({Build::Kind::Piece, index});
  return index;
}

void refold(Card& card, Form form) {
  card.form = form;
  card.plan = plan_of(form, card.finished);
  card.pieces.at(base).size = card.pieces.at(base).cut_from = card.plan.unfolded;
  card.pieces.at(base).scores = card.plan.scores;
}

Project small_project() {
  Project project;
  project.id = "small";
  project.title = "Small";
  add_supplies(project);
  project.cards = {small_card()};
  return project;
}

} // namespace leafwright::testing
