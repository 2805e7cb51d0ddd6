#include "workbench.h"
#include "model/form.h"

#include <algorithm>
#include <utility>

namespace workbench {

using namespace leafwright;

namespace {

Stock stock(std::string id, std::string name, Stock::Kind kind) {
  Stock out;
  out.id = std::move(id);
  out.name = std::move(name);
  out.kind = kind;
  out.caliper = micrometres(250);
  SheetOffer letter;
  letter.name = "letter";
  letter.size = {inches(8, 1, 2), inches(11)};
  out.sheets.push_back(letter);
  return out;
}

StampImage image(std::string id, std::string name, Size size, bool words) {
  StampImage out;
  out.id = std::move(id);
  out.name = std::move(name);
  out.size = size;
  Art art;
  if (words) {
    art.what = TextArt{out.name, "display-italic", inches(0, 1, 4), {}};
  } else {
    art.what = ShapeArt{{}, {{}, size}, true, {}};
  }
  out.artwork.push_back(art);
  return out;
}

Adhesive adhesive(std::string id, std::string name, Adhesive::Kind kind,
                  Adhesive::Measured measured) {
  Adhesive out;
  out.id = std::move(id);
  out.name = std::move(name);
  out.kind = kind;
  out.measured = measured;
  out.piece = {inches(0, 3, 8), inches(0, 3, 8)};
  out.spread = {40'000};
  return out;
}

Tool tool(std::string id, std::string name, Tool::Risk risk, Works works) {
  Tool out;
  out.id = std::move(id);
  out.name = std::move(name);
  out.risk = risk;
  out.works = works;
  return out;
}

template <class T>
T named(const std::string& id, const std::string& name) {
  T out;
  out.id = id;
  out.name = name;
  return out;
}

} // namespace

Project project() {
  Project out;
  out.id = "orchard";
  out.title = "Small orchard";
  out.maker.name = "Fenmoor Paper Room";
  out.stocks = {stock("kraft", "Kraft", Stock::Kind::Cardstock),
                stock("cream", "Cream", Stock::Kind::Cardstock),
                stock("moss-card", "Moss", Stock::Kind::Cardstock),
                stock("dots", "Windfall dots", Stock::Kind::Patterned)};
  out.stocks[dots].upright = true;
  out.inks = {named<Ink>("moss", "Moss"), named<Ink>("rust", "Rust"), named<Ink>("plum", "Plum")};
  StampSet set = named<StampSet>("set", "Orchard stamp set");
  set.images = {image("tree", "small tree", {inches(1), inches(1, 3, 8)}, false),
                image("palings", "five palings", {inches(1, 1, 2), inches(3)}, false),
                image("hello", "come on in", {inches(2), inches(0, 1, 2)}, true),
                image("fruit", "scattered fruit", {inches(1), inches(1, 3, 8)}, false)};
  out.stamp_sets.push_back(std::move(set));
  Die label = named<Die>("label", "Rounded label die");
  label.size = {inches(2, 1, 2), inches(0, 13, 16)};
  Die circle = named<Die>("circle", "Circle die, 2 in");
  circle.size = {inches(2), inches(2)};
  circle.shape.outline = Shape::Outline::Circle;
  out.dies = {label, circle};
  out.ribbons = {named<Ribbon>("grosgrain", "Rust grosgrain ribbon"),
                 named<Ribbon>("twine", "Plain linen twine")};
  out.ribbons[grosgrain].width = inches(0, 3, 8);
  out.ribbons[twine].kind = Ribbon::Kind::Twine;
  Embellishment dome = named<Embellishment>("dome", "Clear dome");
  dome.size = {millimetres(4), millimetres(4)};
  out.embellishments.push_back(dome);
  using Kind = Adhesive::Kind;
  using Measured = Adhesive::Measured;
  out.adhesives = {adhesive("tape", "Tape runner", Kind::Tape, Measured::ByLength),
                   adhesive("foam", "Foam squares", Kind::Foam, Measured::ByCount),
                   adhesive("glue-dots", "Small glue dots", Kind::Dots, Measured::ByCount),
                   adhesive("glue", "Paper glue, fine tip", Kind::Glue, Measured::ByMass),
                   adhesive("sheet", "Adhesive sheet", Kind::Sheet, Measured::ByCount)};
  out.tools = {tool("trimmer", "Straight trimmer, 12 in", Tool::Risk::Blade, {Work::Trim}),
               tool("folder", "Bone folder", Tool::Risk::None, {Work::Fold}),
               tool("gun", "Heat gun", Tool::Risk::Heat, {Work::Heat}),
               tool("powder", "Clear embossing powder", Tool::Risk::None, {Work::Powder})};
  Envelope a2 = named<Envelope>("a2", "Cream A2 envelope");
  a2.size = {inches(5, 3, 4), inches(4, 3, 8)};
  out.envelopes.push_back(a2);
  return out;
}

int add_card(Project& project, Form::Kind form, Size finished, int leaves) {
  Card card;
  card.id = "card-" + std::to_string(project.cards.size() + 1);
  card.title = "Card " + std::to_string(project.cards.size() + 1);
  card.form = {form, leaves};
  card.finished = finished;
  card.size_name = "A2";
  card.plan = plan_of(card.form, finished);
  card.envelope = 0;
  Piece base;
  base.id = "base";
  base.name = "kraft base";
  base.letter = "A";
  base.role = Piece::Role::Base;
  base.stock = kraft;
  base.size = base.cut_from = card.plan.unfolded;
  base.scores = card.plan.scores;
  card.pieces.push_back(base);
  card.build.push_back({Build::Kind::Piece, 0});
  project.cards.push_back(std::move(card));
  return static_cast<int>(project.cards.size()) - 1;
}

int face(const Card& card, const std::string& id) {
  const auto& faces = card.plan.faces;
  const auto found =
      std::find_if(faces.begin(), faces.end(), [&](const Face& one) { return one.id == id; });
  return found == faces.end() ? -1 : static_cast<int>(found - faces.begin());
}

Carrier on_face(const Card& card, const std::string& id) {
  return {Carrier::Kind::Face, face(card, id)};
}

int add_panel(Card& card, const std::string& name, int stock_index, Carrier on, Size size,
              Point at) {
  Piece piece;
  const int index = static_cast<int>(card.pieces.size());
  piece.id = "piece-" + std::to_string(index);
  piece.name = name;
  piece.letter = std::string(1, static_cast<char>('A' + index));
  piece.stock = stock_index;
  piece.on = on;
  piece.size = piece.cut_from = size;
  piece.at = at;
  piece.attach.adhesive = tape;
  card.pieces.push_back(std::move(piece));
  card.build.push_back({Build::Kind::Piece, index});
  return index;
}

int add_mat(Project&, Card& card, const std::string& name, int stock_index,
            const std::string& face_id, Length reveal) {
  const Size size = card.plan.faces.at(static_cast<std::size_t>(face(card, face_id))).size;
  return add_panel(card, name, stock_index, on_face(card, face_id),
                   {size.width - reveal * 2, size.height - reveal * 2}, {reveal, reveal});
}

Impression impression(int image_index, std::vector<int> inks, std::vector<Point> places) {
  Impression out;
  out.set = 0;
  out.image = image_index;
  out.inks = std::move(inks);
  out.times = static_cast<int>(places.size());
  out.places = std::move(places);
  return out;
}

} // namespace workbench
