#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/internal/staging.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/sticking.h"

#include <algorithm>
#include <array>
#include <utility>

namespace leafwright::figure {

namespace {

const Embellishment* embellishment_of(const Project& project, const EmbellishmentUse& use) {
  if (use.embellishment < 0 || use.embellishment >= static_cast<int>(project.embellishments.size()))
    return nullptr;
  return &project.embellishments.at(as_index(use.embellishment));
}

const Stock& base_stock(const Project& project, const Card& card) {
  static const Stock plain; // a card without a base is a finding elsewhere
  const Piece* base = find_at(card.pieces, 0);
  const Stock* stock = base ? find_at(project.stocks, base->stock) : nullptr;
  return stock ? *stock : plain;
}

Colour envelope_colour(const Project& project, const Card& card) {
  const Envelope* envelope = find_at(project.envelopes, card.envelope);
  return envelope ? envelope->colour : Envelope().colour;
}

// A fold seen from its inner side: the paper falls away from the light into a valley, and rises on
// a mountain.
void draw_fold(Items& into, const Score& score, Size size, Colour paper) {
  const auto strip = [&](Length from, Length to) {
    const Rect rect = score.vertical ? Rect{{score.at + from, {}}, {to - from, size.height}}
                                     : Rect{{{}, score.at + from}, {size.width, to - from}};
    return rectangle(rect);
  };
  const Length wide = micrometres(2600);
  const Length narrow = micrometres(900);
  const Colour dark{40, 30, 20};
  if (score.mountain) {
    fill(into, strip({}, wide), dark, 0.05);
    fill(into, strip({}, narrow), dark, 0.07);
    fill(into, strip(-narrow, {}), {255, 255, 255}, 0.30);
  } else {
    fill(into, strip(-wide, {}), dark, 0.05);
    fill(into, strip(-narrow, {}), dark, 0.08);
    fill(into, strip({}, narrow), {255, 255, 255}, 0.30);
  }
  const Path line = score.vertical ? segment({score.at, {}}, {score.at, size.height})
                                   : segment({{}, score.at}, {size.width, score.at});
  drawn_stroke(into, line, edge_colour(paper), points(0.4), 0.8);
}

// The leaves behind the front of a folded card, as they peep out, and the round of the fold.
void draw_leaves_behind(Items& into, const Project& project, const Card& card, Size size) {
  const int behind = card.plan.leaves_behind;
  const Stock& stock = base_stock(project, card);
  for (int i = behind; i > 0; --i) {
    const Length off = micrometres(380) * i;
    const Path path = rectangle({{off, off}, size});
    if (i == behind) soft_shadow(into, path, 1);
    fill(into, path, mixed(stock.colour, {40, 30, 20}, 0.10), 1.0);
    drawn_stroke(into, path, edge_colour(stock.colour), points(0.35), 0.9);
  }
}

void draw_round_of_fold(Items& into, const Card& card, Size size, Colour paper) {
  const Length in = micrometres(420);
  const Colour light = mixed(paper, {255, 255, 255}, 0.75);
  const auto line = [&](Point from, Point to) {
    real_stroke(into, segment(from, to), light, micrometres(520), 0.7);
  };
  // A leaf that was turned over hangs on a fold at the outer edge.
  for (const int index : card.plan.front_leaves) {
    const Leaf& leaf = at(card.plan.leaves, index);
    const Rect box = folded(leaf, leaf.on_base);
    if (leaf.sign_y < 0) line({{}, in}, {size.width, in});
    if (leaf.sign_x < 0 && box.left() == Length{}) line({in, {}}, {in, size.height});
    if (leaf.sign_x < 0 && box.left() > Length{})
      line({size.width - in, {}}, {size.width - in, size.height});
  }
}

// The hole of a tag.
std::optional<Rect> hole_of(const Piece& piece) {
  if (piece.shape.outline != Shape::Outline::Tag || piece.shape.radius.nm <= 0) return std::nullopt;
  const Path outline = outline_path(piece.shape, piece.size);
  Path ring;
  for (const Segment& part : outline) { // the second ring is the hole
    if (part.kind == Segment::Kind::Move) ring.clear();
    ring.push_back(part);
  }
  return bounds(ring);
}

void draw_loop_of_twine(Items& into, Rect hole) {
  const Point c = hole.centre();
  const Length up = millimetres(11);
  const Length out = micrometres(3200);
  using Kind = Segment::Kind;
  const Path loop{{Kind::Move, {}, {}, c},
                  {Kind::Curve,
                   {c.x - out, c.y - up / 2},
                   {c.x - out / 2, c.y - up},
                   {c.x - out / 3, c.y - up - micrometres(3500)}},
                  {Kind::Move, {}, {}, c},
                  {Kind::Curve,
                   {c.x + out, c.y - up / 2},
                   {c.x + out / 2, c.y - up},
                   {c.x + out / 4, c.y - up - micrometres(2500)}}};
  real_stroke(into, loop, {120, 98, 66}, micrometres(1150), 1.0, {}, Stroke::Cap::Round);
  real_stroke(into, loop, {200, 180, 143}, micrometres(850), 1.0, {}, Stroke::Cap::Round);
  real_stroke(into, loop, {233, 220, 194}, micrometres(420), 0.8,
              {micrometres(600), micrometres(500)});
}

// A card that is a tag hangs by a loop of twine when its maker says nothing of one.
std::optional<Rect> unsaid_loop(const Card& card) {
  if (card.form.kind != Form::Kind::Tag || card.pieces.empty() || !card.ribbons.empty())
    return std::nullopt;
  return hole_of(card.pieces.front());
}

const Impression* impression_of(const Card& card, const Build& build) {
  if (build.kind != Build::Kind::Stamping || build.index < 0 ||
      build.index >= static_cast<int>(card.face_stampings.size()))
    return nullptr;
  return &card.face_stampings.at(as_index(build.index)).impression;
}

// The paper that a carrier is made of.
Colour paper_of(const Project& project, const Card& card, const Carrier& on) {
  if (is_envelope(on)) return envelope_colour(project, card);
  const Piece* piece = piece_of(card, on);
  const Stock* stock = piece ? find_at(project.stocks, piece->stock) : nullptr;
  return stock ? stock->colour : base_stock(project, card).colour;
}

// Everything of one level in build order.
bool on_level(const Card& card, const Staging& staging, const Build& build, int level) {
  const std::optional<Carrier> on = carrier_of(card, build);
  if (!on) return false;
  const std::optional<Standing> standing = staging.carrier(*on);
  return standing && standing->level == level;
}

} // namespace

// As built, but what is tucked into a pocket lies under it.
std::vector<std::size_t> drawing_order(const Card& card, std::size_t count) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < count; ++i) {
    auto place = order.end();
    if (const int pocket = pocket_of_build(card, card.build.at(i)); pocket >= 0)
      place = std::ranges::find_if(order, [&](std::size_t earlier) {
        const Build& one = card.build.at(earlier);
        return one.kind == Build::Kind::Piece && one.index == pocket;
      });
    order.insert(place, i);
  }
  return order;
}

int pocket_of_build(const Card& card, const Build& build) {
  const Piece* piece =
      build.kind == Build::Kind::Piece ? find_at(card.pieces, build.index) : nullptr;
  return piece ? pocket_of(card, *piece) : -1;
}

void draw_leaves(Items& into, const Project& project, const Card& card, const Staging& staging,
                 int level) {
  if (staging.levels() <= level) return;
  const Stage stage = staging.stage();
  if (stage == Stage::EnvelopeFront)
    return draw_envelope_front(into, envelope_colour(project, card), staging.size());
  if (stage == Stage::EnvelopeInside)
    return draw_envelope_inside(into, envelope_colour(project, card), staging.size());

  const Stock& stock = base_stock(project, card);
  begin_thing(into, {Build::Kind::Piece, 0});
  if (level == 0 && stage != Stage::Inside) draw_leaves_behind(into, project, card, staging.size());
  for (const SeenLeaf& leaf : staging.leaves(level)) {
    PaperStyle style;
    style.shadow = true;
    draw_sheet(into, stock, moved(leaf.outline, {-leaf.box.left(), -leaf.box.top()}),
               {{}, leaf.box.size}, shifted(leaf.box.origin), style);
  }
  for (const Score& fold : staging.folds()) draw_fold(into, fold, staging.size(), stock.colour);
  if (stage == Stage::Inside) draw_pop_ups(into, card);
  if (stage == Stage::Front && level == staging.levels() - 1)
    draw_round_of_fold(into, card, staging.size(), stock.colour);
  if (const auto hole = unsaid_loop(card); hole && stage == Stage::Front)
    draw_loop_of_twine(into, *hole);
  // What is printed or stamped on the base itself is part of its leaves.
  if (!card.pieces.empty() && stage == Stage::Inside)
    for (const Impression& impression : card.pieces.front().stamped)
      draw_impression(into, project, impression, Frame{}, stock.colour);
  end_thing(into);
}

std::optional<Rect> threaded_hole(const Project& project, const Card& card, const RibbonUse& use) {
  const bool cord = use.ribbon >= 0 && use.ribbon < static_cast<int>(project.ribbons.size()) &&
                    project.ribbons.at(as_index(use.ribbon)).kind == Ribbon::Kind::Twine;
  if (!cord || use.as != RibbonUse::As::Knot || card.pieces.empty()) return std::nullopt;
  const Piece* piece = piece_of(card, use.on);
  const bool own =
      use.on.kind == Carrier::Kind::Piece ? piece != nullptr : card.form.kind == Form::Kind::Tag;
  if (!own) return std::nullopt;
  const std::optional<Rect> hole = hole_of(piece ? *piece : card.pieces.front());
  if (!hole || absolute(hole->centre().y - use.at) > millimetres(5)) return std::nullopt;
  return hole;
}

void draw_build(Items& into, const Project& project, const Card& card, const Staging& staging,
                const Build& build) {
  if (build.index < 0) return;
  const auto index = as_index(build.index);
  const std::optional<Carrier> on = carrier_of(card, build);
  if (!on) return;
  const std::optional<Standing> carrier = staging.carrier(*on);
  if (!carrier) return;
  begin_thing(into, build);
  switch (build.kind) {
  case Build::Kind::Piece:
    for (Standing standing : staging.piece(build.index)) {
      const Piece piece = staging.visible_piece(build.index, standing);
      draw_piece(into, project, piece, standing.frame);
    }
    break;
  case Build::Kind::Ribbon:
    if (const auto hole = threaded_hole(project, card, card.ribbons.at(index)))
      draw_threaded(into, project, card.ribbons.at(index), *hole, carrier->frame);
    else
      draw_ribbon(into, project, card.ribbons.at(index), carrier->size, carrier->frame);
    break;
  case Build::Kind::Embellishment: {
    const EmbellishmentUse& use = card.embellishments.at(index);
    const Embellishment* what = embellishment_of(project, use);
    if (what == nullptr) break;
    for (const Point place : use.places)
      draw_embellishment(into, *what, then(shifted(place), carrier->frame));
    break;
  }
  case Build::Kind::Stamping:
    draw_impression(into, project, card.face_stampings.at(index).impression, carrier->frame,
                    paper_of(project, card, *on));
    break;
  case Build::Kind::Step: break;
  }
  end_thing(into);
}

void draw_stage(Items& into, const Project& project, const Card& card, const Staging& staging,
                std::size_t count) {
  count = std::min(count, card.build.size());
  for (int level = 0; level < staging.levels(); ++level) {
    draw_leaves(into, project, card, staging, level);
    for (const std::size_t i : drawing_order(card, count))
      if (on_level(card, staging, card.build.at(i), level))
        draw_build(into, project, card, staging, card.build.at(i));
  }
  if (staging.stage() == Stage::EnvelopeInside && staging.levels() > 0)
    draw_envelope_pockets(into, envelope_colour(project, card), staging.size());
}

std::vector<Path> outlines_of(const Project& project, const Card& card, const Staging& staging,
                              const Build& build) {
  std::vector<Path> outlines;
  const std::optional<Carrier> on = carrier_of(card, build);
  if (!on || build.index < 0) return outlines;
  const std::optional<Standing> carrier = staging.carrier(*on);
  if (!carrier) return outlines;
  const auto index = as_index(build.index);
  switch (build.kind) {
  case Build::Kind::Piece:
    for (Standing standing : staging.piece(build.index)) {
      const Piece piece = staging.visible_piece(build.index, standing);
      outlines.push_back(placed(standing.frame, piece_outline(piece)));
    }
    break;
  case Build::Kind::Ribbon: {
    const RibbonUse& use = card.ribbons.at(index);
    const bool tied = use.as == RibbonUse::As::Bow || use.as == RibbonUse::As::Knot;
    Rect box = ribbon_box(project, use, carrier->size);
    if (const auto hole = threaded_hole(project, card, use)) {
      const Point c = hole->centre();
      const Length out = millimetres(7);
      box = {{c.x - out, -millimetres(19)}, {out * 2, c.y + millimetres(21)}};
      outlines.push_back(placed(carrier->frame, rounded(box, millimetres(2))));
    } else if (tied) { // around the loops and tails
      const Length reach = use.as == RibbonUse::As::Bow ? millimetres(12) : millimetres(8);
      const Point c = box.centre();
      box = {{c.x - reach, c.y - reach / 2}, {reach * 2, reach + reach / 3}};
      if (use.vertical) box = {{c.x - reach / 2, c.y - reach}, {reach + reach / 3, reach * 2}};
      outlines.push_back(placed(carrier->frame, rounded(box, millimetres(2))));
    } else {
      outlines.push_back(placed(carrier->frame, rectangle(box)));
    }
    break;
  }
  case Build::Kind::Embellishment: {
    const EmbellishmentUse& use = card.embellishments.at(index);
    const Embellishment* what = embellishment_of(project, use);
    if (what == nullptr) break;
    for (const Point place : use.places)
      outlines.push_back(
          placed(then(shifted(place), carrier->frame), outline_path(what->shape, what->size)));
    break;
  }
  case Build::Kind::Stamping:
    if (const Impression* impression = impression_of(card, build))
      for (const Rect& box : impression_boxes(project, *impression))
        outlines.push_back(
            placed(lying_on(carrier->frame, box.origin, box.size, impression->rotation),
                   rectangle({{}, box.size})));
    break;
  case Build::Kind::Step: break;
  }
  return outlines;
}

} // namespace leafwright::figure
