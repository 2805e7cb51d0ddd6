#include "guide/figure/internal/staging.h"

#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"

#include <algorithm>

namespace leafwright::figure {

namespace {

View view_of(Stage stage) {
  switch (stage) {
  case Stage::Inside: return View::Inside;
  case Stage::Back: return View::Back;
  case Stage::Front:
  case Stage::EnvelopeFront:
  case Stage::EnvelopeInside: break;
  }
  return View::Front;
}

bool is_envelope(Stage stage) {
  return stage == Stage::EnvelopeFront || stage == Stage::EnvelopeInside;
}

// The outline of a leaf of the closed front, with the windows of the base that are in it: the base
// lies with its inside up, and the folds turn the leaf over.
Path front_leaf(const Card& card, const Leaf& leaf) {
  Path outline = rectangle(folded(leaf, leaf.on_base));
  if (const Piece* base = base_of(card))
    for (const Window& window : base->windows) {
      const Path path = moved(outline_path(window.shape, window.size), window.at);
      if (leaf.on_base.contains(bounds(path)))
        append(outline, moved(scaled(path, leaf.sign_x, leaf.sign_y), leaf.by));
    }
  return outline;
}

} // namespace

Stage stage_of(View view) {
  switch (view) {
  case View::Inside: return Stage::Inside;
  case View::Back: return Stage::Back;
  case View::Front: break;
  }
  return Stage::Front;
}

Staging::Staging(const Project& project, const Card& card, Stage stage)
    : project_(project), card_(card), stage_(stage) {
  if (is_envelope(stage))
    stage_envelope();
  else
    stage_card();
}

void Staging::add_leaf(int level, Rect box, Path outline) {
  while (levels() <= level) leaves_.emplace_back();
  leaves_.at(as_index(level)).push_back({std::move(outline), box});
}

void Staging::stage_envelope() {
  size_ = envelope_as_it_lies(project_, card_);
  if (find_at(project_.envelopes, card_.envelope)) add_leaf(0, {{}, size_}, rectangle({{}, size_}));
}

void Staging::stage_card() {
  const FormPlan& plan = card_.plan;
  const View view = view_of(stage_);
  size_ = view_size(plan, view);
  if (size_.width.nm <= 0 || size_.height.nm <= 0) return;
  const Rect whole{{}, size_};
  const Piece* base = base_of(card_);
  if (view == View::Inside) {
    folds_ = plan.scores;
    Path outline = rectangle(whole);
    if (base)
      for (const Window& window : base->windows)
        append(outline, moved(outline_path(window.shape, window.size), window.at));
    add_leaf(0, whole, std::move(outline));
  } else if (plan.inside_view == Size{}) { // one sheet
    add_leaf(0, whole, base ? piece_outline(*base) : rectangle(whole));
  } else if (view == View::Front) {
    stage_front(whole);
  } else {
    add_leaf(0, whole, rectangle(whole));
  }
  place_faces(view);
}

// What lies behind the front is drawn first where it is seen: beside leaves that leave a part of it
// free, and through their windows.
void Staging::stage_front(Rect whole) {
  const FormPlan& plan = card_.plan;
  std::vector<SeenLeaf> leaves;
  bool seen_behind = leaves_part_free(plan);
  for (const int index : plan.front_leaves) {
    const Leaf& leaf = at(plan.leaves, index);
    const Rect box = folded(leaf, leaf.on_base);
    leaves.push_back({front_leaf(card_, leaf), box});
    seen_behind = seen_behind || leaves.back().outline != rectangle(box);
  }
  if (leaves.empty()) leaves.push_back({rectangle(whole), whole});
  if (seen_behind) add_leaf(0, whole, rectangle(whole));
  leaves_.push_back(std::move(leaves));
}

void Staging::place_faces(View view) {
  const FormPlan& plan = card_.plan;
  const int top = levels() - 1;
  const int behind = view == View::Front && top > 0 ? face_index(plan, "inside") : -1;
  for (int i = 0; i < static_cast<int>(plan.faces.size()); ++i) {
    bool placed = false;
    for (const Face::Seen& seen : at(plan.faces, i).seen) {
      if (seen.view != view) continue;
      faces_.push_back({i, seen.at, i == behind ? 0 : top});
      placed = true;
    }
    if (i == behind && !placed) faces_.push_back({i, {}, 0});
  }
}

std::optional<Standing> Staging::carrier(const Carrier& on) const { return carrier_at(on, 0); }

std::vector<Standing> Staging::piece(int index) const { return piece_at(index, 0); }

std::optional<Standing> Staging::carrier_at(const Carrier& on, std::size_t depth) const {
  if (depth > card_.pieces.size()) return std::nullopt; // pieces that carry each other
  switch (on.kind) {
  case Carrier::Kind::Face:
    for (const SeenFace& seen : faces_)
      if (seen.face == on.index)
        return Standing{shifted(seen.at), carrier_size(project_, card_, on), seen.level};
    return std::nullopt;
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_of(card_, on);
    if (piece && piece->role == Piece::Role::Base) return carrier_at(whole_face(card_), depth);
    const std::vector<Standing> copies = piece_at(on.index, depth + 1);
    if (copies.empty()) return std::nullopt;
    return copies.front();
  }
  case Carrier::Kind::EnvelopeFront:
    if (stage_ == Stage::EnvelopeFront && levels() > 0) return Standing{Frame{}, size_, 0};
    return std::nullopt;
  case Carrier::Kind::EnvelopeInside:
    if (stage_ == Stage::EnvelopeInside && levels() > 0) return Standing{Frame{}, size_, 0};
    return std::nullopt;
  }
  return std::nullopt;
}

std::vector<Standing> Staging::piece_at(int index, std::size_t depth) const {
  std::vector<Standing> copies;
  const Piece* piece = find_at(card_.pieces, index);
  if (!piece || piece->role == Piece::Role::Base) return copies; // a base is the leaves
  const std::optional<Standing> on = carrier_at(piece->on, depth);
  if (!on) return copies;
  const auto add = [&](Point at) {
    copies.push_back(
        {lying_on(on->frame, at, piece->size, piece->rotation), piece->size, on->level});
  };
  add(piece->at);
  for (const Point at : piece->more_at) add(at);
  return copies;
}

Piece Staging::visible_piece(int index, Standing& standing) const {
  Piece piece = card_.pieces.at(as_index(index));
  if (piece.role != Piece::Role::Band || piece.rotation.udeg != 0) return piece;
  const std::optional<Standing> on = carrier(piece.on);
  if (!on) return piece;
  const Length over = micrometres(250); // it turns round the edge
  const Rect seen = common({piece.at, piece.size}, grown({{}, on->size}, over));
  if (seen.size == piece.size || seen.size.width.nm <= 0) return piece;
  const Point cut = seen.origin - piece.at;
  piece.at = seen.origin;
  piece.size = seen.size;
  for (Impression& impression : piece.stamped)
    for (Point& place : impression.places) place = place - cut;
  for (Window& window : piece.windows) window.at = window.at - cut;
  standing.frame = then(shifted(cut), standing.frame);
  standing.size = piece.size;
  return piece;
}

Stage best_stage(const Project& project, const Card& card, const Build& build) {
  const std::optional<Carrier> on = carrier_of(card, build);
  if (!on) return Stage::Front;
  for (const Stage stage :
       {Stage::Front, Stage::Inside, Stage::EnvelopeFront, Stage::EnvelopeInside, Stage::Back}) {
    const Staging staging(project, card, stage);
    const std::optional<Standing> standing = staging.carrier(*on);
    // What is only glimpsed through a window or beside a flap is shown where it is seen whole.
    if (standing && (standing->level == staging.levels() - 1 || stage != Stage::Front))
      return stage;
  }
  return Stage::Front;
}

} // namespace leafwright::figure
