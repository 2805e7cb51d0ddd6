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
  for (const std::size_t i : new_ones) {
    draw_build(into, project, card, staging, card.build.at(i));
    const int pocket = pocket_of_build(card, card.build.at(i));
    if (pocket < 0) continue;
    const std::size_t over = into.size(); // it lies over what is tucked into it
    draw_build(into, project, card, staging, {Build::Kind::Piece, pocket});
    quieten(into, over);
  }
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
  const std::vector<Build> measured =
      build.kind == Build::Kind::Stamping ? emphasised : std::vector{build};
  add_step_dimensions(scene, project, card, staging, measured, made_here);
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
