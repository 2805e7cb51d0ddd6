#include "guide/figure/internal/staging.h"

#include "measure/index.h"

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

const Piece* base_of(const Card& card) {
  if (card.pieces.empty() || card.pieces.front().role != Piece::Role::Base) return nullptr;
  return &card.pieces.front();
}

// A window of the unfolded base (inside up) where it is seen on the closed front; a fold turns it
// over.
Path window_on_front(const Card& card, const Window& window) {
  Path path = moved(outline_path(window.shape, window.size), window.at);
  const Length w = card.finished.width;
  const Length h = card.finished.height;
  switch (card.form.kind) {
  case Form::Kind::TopFold:
  case Form::Kind::Tent: return moved(scaled(path, 1, -1), {none, h});
  case Form::Kind::SideFold:
  case Form::Kind::Accordion: return moved(scaled(path, -1, 1), {w, none});
  case Form::Kind::Gate: {
    const bool left = window.at.x < w / 2;
    return moved(scaled(path, -1, 1), {left ? w / 2 : w * 2 + w / 2, none});
  }
  case Form::Kind::Z:
  case Form::Kind::Flat:
  case Form::Kind::Tag:
  case Form::Kind::Custom: break;
  }
  return path;
}

bool has_windows_in(const Card& card, Rect part) {
  const Piece* base = base_of(card);
  return base != nullptr &&
         std::any_of(base->windows.begin(), base->windows.end(), [&](const Window& window) {
           return bounds(window_on_front(card, window)).overlaps(part);
         });
}

Path with_windows(const Card& card, Path outline, Rect part) {
  if (const Piece* base = base_of(card))
    for (const Window& window : base->windows) {
      const Path path = window_on_front(card, window);
      if (part.contains(bounds(path))) append(outline, path);
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
  if (card_.envelope < 0 || card_.envelope >= static_cast<int>(project_.envelopes.size())) return;
  size_ = project_.envelopes.at(as_index(card_.envelope)).size;
  add_leaf(0, {{}, size_}, rectangle({{}, size_}));
}

void Staging::stage_card() {
  const FormPlan& plan = card_.plan;
  const View view = view_of(stage_);
  size_ = view == View::Front    ? plan.front_view
          : view == View::Inside ? plan.inside_view
                                 : plan.back_view;
  if (size_.width.nm <= 0 || size_.height.nm <= 0) return;
  const Rect whole{{}, size_};
  const bool one_sheet = card_.form.kind == Form::Kind::Flat || card_.form.kind == Form::Kind::Tag;
  int face_level = 0;

  if (view == View::Inside) {
    folds_ = plan.scores;
    Path outline = rectangle(whole);
    if (const Piece* base = base_of(card_))
      for (const Window& window : base->windows)
        append(outline, moved(outline_path(window.shape, window.size), window.at));
    add_leaf(0, whole, std::move(outline));
  } else if (one_sheet) {
    const Piece* base = base_of(card_);
    add_leaf(0, whole, base != nullptr ? piece_outline(*base) : rectangle(whole));
  } else if (view == View::Front && card_.form.kind == Form::Kind::Gate) {
    const Length left = size_.width / 2;
    const Rect gates[] = {{{}, {left, size_.height}},
                          {{left, none}, {size_.width - left, size_.height}}};
    if (has_windows_in(card_, whole)) {
      add_leaf(0, whole, rectangle(whole));
      face_level = 1;
    }
    for (const Rect gate : gates)
      add_leaf(face_level, gate, with_windows(card_, rectangle(gate), gate));
  } else if (view == View::Front && card_.form.kind == Form::Kind::Z) {
    const Rect flap{{}, {size_.width / 2, size_.height}};
    add_leaf(0, whole, rectangle(whole));
    add_leaf(1, flap, rectangle(flap));
    face_level = 1;
  } else {
    if (view == View::Front && has_windows_in(card_, whole)) {
      add_leaf(0, whole, rectangle(whole));
      face_level = 1;
    }
    add_leaf(face_level, whole,
             view == View::Front ? with_windows(card_, rectangle(whole), whole) : rectangle(whole));
  }

  for (std::size_t i = 0; i < plan.faces.size(); ++i) {
    const Face& face = plan.faces.at(i);
    for (const Face::Seen& seen : face.seen) {
      if (seen.view != view) continue;
      const bool behind =
          card_.form.kind == Form::Kind::Z && view == View::Front && face.id == "inside";
      faces_.push_back({static_cast<int>(i), seen.at, behind ? 0 : face_level});
    }
    // Seen through a window in the front.
    if (view == View::Front && face_level == 1 && card_.form.kind != Form::Kind::Z &&
        face.id == "inside")
      faces_.push_back({static_cast<int>(i), {}, 0});
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
        return Standing{shifted(seen.at), card_.plan.faces.at(as_index(on.index)).size, seen.level};
    return std::nullopt;
  case Carrier::Kind::Piece: {
    if (on.index < 0 || on.index >= static_cast<int>(card_.pieces.size())) return std::nullopt;
    const Piece& piece = card_.pieces.at(as_index(on.index));
    if (piece.role == Piece::Role::Base) {
      const bool flat = card_.form.kind == Form::Kind::Flat || card_.form.kind == Form::Kind::Tag;
      if (stage_ == Stage::Inside || (flat && stage_ == Stage::Front))
        return Standing{Frame{}, piece.size, 0};
      return std::nullopt;
    }
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
  if (index < 0 || index >= static_cast<int>(card_.pieces.size())) return copies;
  const Piece& piece = card_.pieces.at(as_index(index));
  if (piece.role == Piece::Role::Base) return copies; // it is the leaves
  const std::optional<Standing> on = carrier_at(piece.on, depth);
  if (!on) return copies;
  copies.push_back(
      {lying_on(on->frame, piece.at, piece.size, piece.rotation), piece.size, on->level});
  for (const Point at : piece.more_at)
    copies.push_back({lying_on(on->frame, at, piece.size, piece.rotation), piece.size, on->level});
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

std::optional<Carrier> carrier_of(const Card& card, const Build& build) {
  const auto index = as_index(std::max(build.index, 0));
  if (build.index < 0) return std::nullopt;
  switch (build.kind) {
  case Build::Kind::Piece:
    if (index < card.pieces.size() && card.pieces.at(index).role != Piece::Role::Base)
      return card.pieces.at(index).on;
    break;
  case Build::Kind::Ribbon:
    if (index < card.ribbons.size()) return card.ribbons.at(index).on;
    break;
  case Build::Kind::Embellishment:
    if (index < card.embellishments.size()) return card.embellishments.at(index).on;
    break;
  case Build::Kind::Stamping:
    if (index < card.face_stampings.size()) return card.face_stampings.at(index).on;
    break;
  case Build::Kind::Step: break;
  }
  return std::nullopt;
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
