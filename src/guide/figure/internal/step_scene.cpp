#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "measure/index.h"
#include "model/carrier.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace leafwright::figure {

namespace {

const Piece* piece_at(const Card& card, int index) {
  if (index < 0 || index >= static_cast<int>(card.pieces.size())) return nullptr;
  return &card.pieces.at(as_index(index));
}

// The base unfolded, its inside up, with its scores.
Scene base_step(const Project& project, const Card& card) {
  const Piece& base = card.pieces.front();
  Scene scene = piece(project, card, 0);
  scene.backdrop = true;
  scene.scale_group = "step-base";
  scene.alternative =
      sentence(fmt::format("The {} base laid flat, {}{}", stock_name(project, base.stock),
                           size_text(base.size, project.printing),
                           scene.alternative.empty() ? "" : ". " + scene.alternative));
  return scene;
}

class StepMaker {
 public:
  StepMaker(const Project& project, const Card& card, const Staging& staging, bool made_here,
            Scene& scene)
      : project_(project), card_(card), staging_(staging), made_here_(made_here), scene_(scene) {}

  void dimension(const Build& build) {
    if (build.index < 0) return;
    const auto index = as_index(build.index);
    switch (build.kind) {
    case Build::Kind::Piece: return piece_dimensions(build.index);
    case Build::Kind::Ribbon: return ribbon_dimensions(card_.ribbons.at(index));
    case Build::Kind::Embellishment:
      return embellishment_dimensions(card_.embellishments.at(index));
    case Build::Kind::Stamping: return stamping_dimensions(card_.face_stampings.at(index));
    case Build::Kind::Step: return;
    }
  }

 private:
  const Printing& printing() const { return project_.printing; }

  void badge(const std::string& letter, Rect within) {
    if (letter.empty()) return;
    const Length in = millimetres(6);
    scene_.badges.push_back({letter, {within.left() + in, within.top() + in}, within});
  }

  void piece_dimensions(int index) {
    const Piece& piece = card_.pieces.at(as_index(index));
    const std::optional<Standing> carrier = staging_.carrier(piece.on);
    std::vector<Standing> copies = staging_.piece(index);
    if (!carrier || copies.empty()) return;
    Standing standing = copies.front();
    const Frame lying = standing.frame;
    const Piece visible = staging_.visible_piece(index, standing);
    const Rect box = placed_bounds(standing.frame, {{}, visible.size});
    for (const Impression& impression : visible.stamped)
      for (const Rect& image : impression_boxes(project_, impression))
        scene_.keep_clear.push_back(placed_bounds(standing.frame, image));
    if (visible.shape.outline == Shape::Outline::Rectangle || piece.rotation.udeg == 0)
      badge(piece.letter, box);
    else
      badge(piece.letter, grown(box, -std::min(box.size.width, box.size.height) / 6));

    if (made_here_)
      made_dimensions(piece, lying, placed_bounds(carrier->frame, {{}, carrier->size}));
    if (piece.role == Piece::Role::Band) return band_dimensions(piece, box, *carrier);
    if (at_a_slant(angle_of(standing.frame)))
      slanted_dimensions(piece, standing);
    else
      add_size(scene_.dimensions, box, printing());
    std::vector<Point> places{piece.at};
    places.insert(places.end(), piece.more_at.begin(), piece.more_at.end());
    distances(arrangement_of(places, piece.size, piece.rotation), *carrier, piece.position,
              !at_a_slant(piece.rotation));
  }

  // What is done to a piece before it is fixed; what turns round an edge with it is not seen here.
  void made_dimensions(const Piece& piece, const Frame& lying, Rect seen) {
    const std::size_t first = scene_.dimensions.size();
    for (const Window& window : piece.windows)
      add_distances(scene_.dimensions, {window.at, window.size}, piece.size, project_, {}, lying);
    for (std::size_t i = first; i < scene_.dimensions.size(); ++i) {
      scene_.dimensions.at(i).brief = true;
      scene_.dimensions.at(i).rank = 2;
    }
    for (const Impression& impression : piece.stamped)
      add_image_distances(scene_, project_, impression, piece.size, lying);
    std::erase_if(scene_.dimensions, [&](const Dimension& one) {
      return piece.role == Piece::Role::Band &&
             (!seen.contains({one.from, {}}) || !seen.contains({one.to, {}}));
    });
  }

  // A thing laid over another has no distance of its own to measure unless it comes out even.
  void distances(const Arrangement& things, const Standing& carrier, const Position& position,
                 bool may_stand_in_gap) {
    std::vector<Dimension> found;
    add_distances(found, things, carrier.size, project_, position, carrier.frame);
    for (Dimension& distance : found) {
      if (!position.over.empty() && distance.words.starts_with("≈")) continue;
      distance.gap = may_stand_in_gap;
      scene_.dimensions.push_back(std::move(distance));
    }
  }

  void band_dimensions(const Piece& piece, Rect box, const Standing& carrier) {
    const bool level = piece.size.width >= piece.size.height;
    const Rect on = placed_bounds(carrier.frame, {{}, carrier.size});
    Rect shown = common(box, on);
    if (shown.size.width.nm <= 0) shown = box;
    std::vector<Dimension> size;
    add_size(size, shown, printing());
    scene_.dimensions.push_back(size.at(level ? 1 : 0)); // its length goes round the card
    Rect part{piece.at, piece.size};
    if (const Rect seen = common(part, {{}, carrier.size}); seen.size.width.nm > 0) part = seen;
    add_distances(scene_.dimensions, part, carrier.size, project_, piece.position, carrier.frame);
    Label label{{size_text(piece.size, printing()), "goes round the card"}, shown, true};
    scene_.labels.push_back(std::move(label));
  }

  // A piece at a slant is told by its size and by where its middle lies.
  void slanted_dimensions(const Piece& piece, const Standing& standing) {
    const Point middle =
        placed(standing.frame, {standing.size.width / 2, standing.size.height / 2});
    draw_cross(scene_.items, middle, micrometres(2200), {38, 36, 33}, points(0.5));
    const double turn = in_degrees(angle_of(standing.frame));
    Label label{{piece_size(piece, printing()), fmt::format("turned {:.3g}°", std::abs(turn))},
                placed_bounds(standing.frame, {{}, standing.size}),
                true};
    scene_.labels.push_back(std::move(label));
  }

  void ribbon_dimensions(const RibbonUse& use) {
    const std::optional<Standing> carrier = staging_.carrier(use.on);
    if (!carrier) return;
    const Rect on = placed_bounds(carrier->frame, {{}, carrier->size});
    const Rect local = ribbon_box(project_, use, carrier->size);
    const Rect box = placed_bounds(carrier->frame, local);
    if (!carrier->frame.turned()) {
      // Its centre line, as it is measured.
      const Point a =
          use.vertical ? Point{box.centre().x, on.top()} : Point{on.left(), box.centre().y};
      const Point b =
          use.vertical ? Point{box.centre().x, on.bottom()} : Point{on.right(), box.centre().y};
      Dimension at;
      at.from = use.vertical ? Point{on.left(), a.y} : Point{a.x, on.top()};
      at.to = a;
      at.words = number_text(use.at, printing());
      at.from_of = on;
      at.to_of = Rect{a, {b.x - a.x, b.y - a.y}};
      at.rank = 0;
      scene_.dimensions.push_back(std::move(at));
      const auto um = [](std::int64_t n) { return micrometres(n); };
      drawn_stroke(scene_.items, segment(a, b), {255, 255, 255}, points(1.4), 0.5);
      drawn_stroke(scene_.items, segment(a, b), {38, 36, 33}, points(0.4), 1.0,
                   {um(2200), um(500), um(300), um(500)});
      if (use.as == RibbonUse::As::Band || use.as == RibbonUse::As::Wrap) {
        std::vector<Dimension> size;
        add_size(size, box, printing());
        scene_.dimensions.push_back(size.at(use.vertical ? 0 : 1));
      }
    }
    const Rect within = common(box, on).size.width.nm > 0 ? common(box, on) : box;
    scene_.labels.push_back({{"cut " + length_text(use.cut(), printing())}, within, true});
  }

  void embellishment_dimensions(const EmbellishmentUse& use) {
    const std::optional<Standing> carrier = staging_.carrier(use.on);
    if (!carrier || use.embellishment < 0 ||
        use.embellishment >= static_cast<int>(project_.embellishments.size()) || use.places.empty())
      return;
    const Embellishment& what = project_.embellishments.at(as_index(use.embellishment));
    std::vector<Dimension> found;
    add_distances(found, arrangement_of(use.places, what.size, {}), carrier->size, project_,
                  use.position, carrier->frame);
    for (Dimension& dimension : found) {
      dimension.gap = false;
      scene_.dimensions.push_back(std::move(dimension));
    }
    const Rect first = placed_bounds(carrier->frame, {use.places.back(), what.size});
    const std::string name = use.places.size() > 1
                                 ? fmt::format("{} × {}", use.places.size(), lower_first(what.name))
                                 : lower_first(what.name);
    scene_.labels.push_back({{name}, first, true});
  }

  void stamping_dimensions(const FaceStamping& stamping) {
    const std::optional<Standing> carrier = staging_.carrier(stamping.on);
    if (!carrier) return;
    const std::vector<Rect> boxes = impression_boxes(project_, stamping.impression);
    if (boxes.empty()) return;
    distances(arrangement_of(stamping.impression.places, boxes.front().size,
                             stamping.impression.rotation),
              *carrier, stamping.impression.position, false);
  }

  const Project& project_;
  const Card& card_;
  const Staging& staging_;
  bool made_here_; // the step cuts its windows and stamps it, too
  Scene& scene_;
};

// What was done before in paler colours, what is new in its own.
void draw_step(Items& into, const Project& project, const Card& card, const Staging& staging,
               std::span<const std::size_t> new_ones, std::size_t count) {
  const bool adds = std::ranges::any_of(new_ones, [&](std::size_t i) {
    const std::optional<Carrier> on = carrier_of(card, card.build.at(i));
    return on && staging.carrier(*on);
  });
  // Inside an envelope the pockets lie over what is new.
  if (!adds || staging.stage() == Stage::EnvelopeInside)
    return draw_stage(into, project, card, staging, count);
  Card before = card;
  before.build.clear();
  for (std::size_t i = 0; i < count; ++i)
    if (std::ranges::find(new_ones, i) == new_ones.end()) before.build.push_back(card.build.at(i));
  const std::size_t first = into.size();
  draw_stage(into, project, before, staging, before.build.size());
  quieten(into, first);
  for (const std::size_t i : new_ones) draw_build(into, project, card, staging, card.build.at(i));
}

// Small work on a small piece is shown by that piece alone, larger.
std::optional<Rect> detail_of(const Card& card, const Staging& staging, const Build& build) {
  const std::optional<Carrier> on = carrier_of(card, build);
  if (!on || on->kind != Carrier::Kind::Piece) return std::nullopt;
  const std::optional<Standing> carrier = staging.carrier(*on);
  if (!carrier) return std::nullopt;
  const Rect place = placed_bounds(carrier->frame, {{}, carrier->size});
  const Size whole = staging.size();
  const bool small = place.size.width * 2 < whole.width && place.size.height * 2 < whole.height;
  if (!small) return std::nullopt;
  return place;
}

// The scene cut down to what lies round `place`, and beside it a small plan of the card with that
// part marked.
void show_detail(Scene& scene, const Staging& staging, Rect place) {
  Rect detail = grown(place, std::max(place.size.width, place.size.height) / 4);
  if (detail.top() > scene.box.top() && scene.box.top() > detail.top() - millimetres(12))
    detail = united(detail, {{detail.left(), scene.box.top()}, {detail.size.width, {}}});
  for (const Dimension& dimension : scene.dimensions)
    for (const Point p : {dimension.from, dimension.to}) detail = united(detail, {p, {}});
  Items cut;
  cut.emplace_back(SceneClip{rectangle(detail)});
  for (SceneItem& item : scene.items) cut.push_back(std::move(item));
  cut.emplace_back(SceneUnclip{});
  drawn_stroke(cut, rectangle(detail), line_ink, points(0.4), 0.7);

  const Size card = staging.size();
  const double share = 0.45 * static_cast<double>(detail.size.height.nm) /
                       static_cast<double>(std::max(card.height.nm, card.width.nm));
  const auto small = [&](Length a) { return from_nm(static_cast<double>(a.nm) * share); };
  const Point corner{detail.right() + detail.size.width / 12, detail.top()};
  const auto at = [&](Rect rect) {
    return Rect{corner + Point{small(rect.left()), small(rect.top())},
                {small(rect.size.width), small(rect.size.height)}};
  };
  const Rect plan = at({{}, card});
  fill(cut, rectangle(plan), {255, 255, 255}, 0.8);
  drawn_stroke(cut, rectangle(plan), line_ink, points(0.5));
  const Rect marked = common(at(detail), plan);
  fill(cut, rectangle(marked), line_ink, 0.25);
  drawn_stroke(cut, rectangle(marked), line_ink, points(0.7));
  scene.items = std::move(cut);
  scene.box = united(detail, plan);
  scene.scale_group.clear();
}

// The pieces that an author's own step speaks of.
std::vector<Build> spoken_of(const Card& card, const AuthorStep& step) {
  std::vector<Build> builds;
  for (const TextPart& part : step.text)
    if (part.kind == TextPart::Kind::Thing && piece_at(card, part.piece) != nullptr)
      builds.push_back({Build::Kind::Piece, part.piece});
  return builds;
}

} // namespace

Scene threaded(const Project& project, const Card& card, std::size_t piece_index,
               std::size_t ribbon_index) {
  Scene scene = piece(project, card, piece_index);
  if (ribbon_index >= card.ribbons.size()) return scene;
  const RibbonUse& use = card.ribbons.at(ribbon_index);
  const std::optional<Rect> hole = threaded_hole(project, card, use);
  if (!hole) return scene;
  scene.dimensions.clear();
  draw_threaded(scene.items, project, use, *hole, Frame{});
  const Point c = hole->centre();
  const Rect cord{{c.x - millimetres(8), -millimetres(19)},
                  {millimetres(16), c.y + millimetres(21)}};
  scene.box = united(scene.box, cord);
  scene.keep_clear.push_back(cord);
  scene.labels.push_back({{"cut " + length_text(use.cut(), project.printing)}, cord, true});
  scene.alternative = sentence(fmt::format(
      "{} in the hand, {}", piece_name(card.pieces.at(piece_index)),
      build_words(project, card, {Build::Kind::Ribbon, static_cast<int>(ribbon_index)})));
  return scene;
}

Scene step(const Project& project, const Card& card, std::span<const std::size_t> build_indices,
           bool made_here) {
  if (build_indices.empty()) return {};
  const std::size_t build_index = build_indices.back();
  if (build_index >= card.build.size() || card.pieces.empty()) return {};
  // A piece with a cord through it is measured as the piece.
  const Build first = card.build.at(build_indices.front());
  const Build build = first.kind == Build::Kind::Piece ? first : card.build.at(build_index);
  const Piece* new_piece = build.kind == Build::Kind::Piece ? piece_at(card, build.index) : nullptr;
  if (new_piece != nullptr && new_piece->role == Piece::Role::Base) return base_step(project, card);

  std::vector<Build> emphasised;
  for (const std::size_t index : build_indices)
    if (index < card.build.size()) emphasised.push_back(card.build.at(index));
  if (build.kind == Build::Kind::Step && build.index >= 0 &&
      build.index < static_cast<int>(card.steps.size()))
    emphasised = spoken_of(card, card.steps.at(as_index(build.index)));
  // A step of words alone is shown as the card looks after the last thing that was added.
  Build seen = build;
  if (build.kind == Build::Kind::Step) {
    if (!emphasised.empty())
      seen = emphasised.front();
    else
      for (std::size_t i = 0; i < build_index; ++i)
        if (carrier_of(card, card.build.at(i))) seen = card.build.at(i);
  }

  const Staging staging(project, card, best_stage(project, card, seen));
  Scene scene;
  if (staging.levels() == 0) return scene;
  const std::size_t count = build_index + 1;
  draw_step(scene.items, project, card, staging, build_indices, count);
  scene.box = box_of(project, card, staging, count);
  for (const Build& part : emphasised)
    for (const Path& path : outlines_of(project, card, staging, part))
      draw_emphasis(scene.items, path, project.accent, part.kind == Build::Kind::Stamping);
  StepMaker maker(project, card, staging, made_here, scene);
  if (build.kind == Build::Kind::Stamping)
    for (const std::size_t index : build_indices) maker.dimension(card.build.at(index));
  else
    maker.dimension(build);
  if (const std::optional<Rect> detail = detail_of(card, staging, build))
    show_detail(scene, staging, *detail);
  if (new_piece != nullptr) show_back(scene, project, card, staging, build.index);
  scene.backdrop = true;
  const bool wide = staging.stage() == Stage::Inside && staging.size() != card.finished;
  const bool envelope =
      staging.stage() == Stage::EnvelopeFront || staging.stage() == Stage::EnvelopeInside;
  scene.scale_group = envelope ? "step-envelope" : wide ? "step-inside" : "step";

  std::string words;
  for (const Build& part : emphasised)
    if (const std::string more = build_words(project, card, part); !more.empty())
      words += (words.empty() ? "Outlined: " : "; ") + more;
  if (!words.empty()) words += ". ";
  scene.alternative = words + stage_words(project, card, staging, build_index);
  return scene;
}

} // namespace leafwright::figure
