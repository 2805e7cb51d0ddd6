#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "language/words.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::figure {

namespace {

const Colour faint{140, 134, 126};

// Marks at the middle of each edge, inwards, to lay a piece against.
void draw_centre_marks(Items& into, Rect rect, Length arm, Colour colour) {
  const Point c = rect.centre();
  const auto mark = [&](Point from, Point to) {
    drawn_stroke(into, segment(from, to), colour, points(0.4));
  };
  mark({c.x, rect.top()}, {c.x, rect.top() + arm});
  mark({c.x, rect.bottom() - arm}, {c.x, rect.bottom()});
  mark({rect.left(), c.y}, {rect.left() + arm, c.y});
  mark({rect.right() - arm, c.y}, {rect.right(), c.y});
}

// Where a leader line may end so that it is seen which outline is meant.
std::vector<Point> points_on(const Path& outline) {
  constexpr std::size_t count = 6;
  const std::vector<Rect> squares = clear_of_path(outline);
  std::vector<Point> points;
  for (std::size_t i = 0; i < count && !squares.empty(); ++i)
    points.push_back(squares.at(squares.size() * (2 * i + 1) / (2 * count)).centre());
  return points;
}

// The part of a placed thing where its name can stand clear of what lies on it.
Rect free_part(Rect place, const std::vector<Rect>& above) {
  Rect best = place;
  for (const Rect& other : above) {
    const Rect hidden = common(best, grown(other, micrometres(800)));
    if (hidden.size.width.nm <= 0) continue;
    const Rect parts[] = {
        {best.origin, {best.size.width, hidden.top() - best.top()}},
        {{best.left(), hidden.bottom()}, {best.size.width, best.bottom() - hidden.bottom()}},
        {best.origin, {hidden.left() - best.left(), best.size.height}},
        {{hidden.right(), best.top()}, {best.right() - hidden.right(), best.size.height}}};
    const auto worth = [](const Rect& part) { // words lie level: height counts up to a few lines
      return area({part.size.width, std::min(part.size.height, millimetres(14))});
    };
    best = *std::max_element(std::begin(parts), std::end(parts),
                             [&](const Rect& a, const Rect& b) { return worth(a) < worth(b); });
  }
  return best;
}

// Opened flat, a card is larger than a page: the leaves between the folds on which something lies.
// Of size 0 when nothing does.
Rect leaves_in_use(const Project& project, const Card& card, const Staging& staging) {
  const Rect whole{{}, staging.size()};
  std::vector<Length> across{{}, whole.size.width};
  std::vector<Length> down{{}, whole.size.height};
  for (const Score& fold : staging.folds()) (fold.vertical ? across : down).push_back(fold.at);
  std::sort(across.begin(), across.end());
  std::sort(down.begin(), down.end());
  Rect used{};
  for (const Build& build : card.build)
    for (const Path& path : outlines_of(project, card, staging, build)) {
      const Rect thing = bounds(path);
      for (std::size_t i = 0; i + 1 < across.size(); ++i)
        for (std::size_t j = 0; j + 1 < down.size(); ++j) {
          const Rect leaf{{across.at(i), down.at(j)},
                          {across.at(i + 1) - across.at(i), down.at(j + 1) - down.at(j)}};
          if (!leaf.overlaps(thing)) continue;
          used = used.size.width.nm > 0 ? united(used, leaf) : leaf;
        }
    }
  return used;
}

} // namespace

namespace {

// The edge of what the guide lies on, and its folds.
void draw_ground(Scene& scene, const Staging& staging, Rect whole) {
  if (staging.folds().empty())
    for (int level = 0; level < staging.levels(); ++level)
      for (const SeenLeaf& leaf : staging.leaves(level))
        drawn_stroke(scene.items, leaf.outline, line_ink, points(0.8));
  else
    drawn_stroke(scene.items, rectangle(whole), line_ink, points(0.8));
  for (const Score& fold : staging.folds()) {
    const Point from = fold.vertical ? Point{fold.at, whole.top()} : Point{whole.left(), fold.at};
    const Point to = fold.vertical ? Point{fold.at, whole.bottom()} : Point{whole.right(), fold.at};
    if (!grown(whole, Length{1}).contains({from, {to.x - from.x, to.y - from.y}})) continue;
    draw_score_line(scene.items, from, to, fold.mountain, line_ink);
    scene.keep_clear.push_back(clear_of_line(from, to));
  }
  draw_centre_marks(scene.items, whole, millimetres(4), line_ink);
}

// What is laid on, with its name.
struct Outlined {
  Rect place;
  Path outline;
  std::vector<Rect> holes; // windows: a name in one would be taken for what lies below
  Label label;
};

Outlined outlined_piece(Scene& scene, const Project& project, const Piece& piece,
                        const Frame& frame, Rect place) {
  draw_centre_marks(scene.items, place, millimetres(2), faint);
  for (const Impression& impression : piece.stamped)
    for (const Rect& image : impression_boxes(project, impression))
      drawn_stroke(scene.items,
                   placed(lying_on(frame, image.origin, image.size, impression.rotation),
                          rectangle({{}, image.size})),
                   faint, points(0.4), 0.9, {micrometres(700), micrometres(700)});
  Outlined thing{place, {}, {}, {{piece_name(piece), piece_size(piece, project.printing)}, place}};
  thing.label.letter = piece.letter;
  for (const Window& window : piece.windows)
    thing.holes.push_back(placed_bounds(frame, {window.at, window.size}));
  return thing;
}

Outlined outlined(Scene& scene, const Project& project, const Card& card, const Staging& staging,
                  const Build& build, const std::vector<Path>& outlines) {
  std::vector<Length> dash;
  if (build.kind == Build::Kind::Stamping) dash = {micrometres(900), micrometres(700)};
  for (const Path& path : outlines) {
    drawn_stroke(scene.items, path, line_ink, points(0.5), 1.0, dash);
    scene.box = united(scene.box, grown(bounds(path), micrometres(300)));
    for (const Rect& square : clear_of_path(path)) scene.keep_clear.push_back(square);
  }
  const Rect place = bounds(outlines.front());
  Outlined thing{place, {}, {}, {{short_name(project, card, build)}, place}};
  if (build.kind == Build::Kind::Piece)
    thing = outlined_piece(scene, project, card.pieces.at(as_index(build.index)),
                           staging.piece(build.index).front().frame, place);
  thing.outline = outlines.front();
  return thing;
}

} // namespace

Scene placement_template(const Project& project, const Card& card, View view) {
  const Staging staging(project, card, stage_of(view));
  Scene scene;
  if (staging.levels() == 0) return scene;
  const Rect whole = leaves_in_use(project, card, staging);
  if (whole.size.width.nm <= 0) return scene;
  scene.fixed_scale = 1.0;
  scene.box = grown(whole, micrometres(400));
  scene.items.emplace_back(SceneMark{"template", card.id, whole});
  draw_ground(scene, staging, whole);
  add_size(scene.dimensions, whole, project.printing);
  for (Dimension& dimension : scene.dimensions) dimension.brief = true; // the title says it too

  std::vector<Outlined> things;
  std::vector<std::string> names;
  for (const Build& build : card.build) {
    const std::vector<Path> outlines = outlines_of(project, card, staging, build);
    if (outlines.empty()) continue;
    things.push_back(outlined(scene, project, card, staging, build, outlines));
    names.push_back(short_name(project, card, build));
  }
  for (std::size_t i = 0; i < things.size(); ++i) {
    std::vector<Rect> above = things.at(i).holes;
    for (std::size_t k = i + 1; k < things.size(); ++k) above.push_back(things.at(k).place);
    Label label = things.at(i).label;
    label.within = free_part(things.at(i).place, above);
    label.anchors = points_on(things.at(i).outline);
    label.rank = static_cast<int>(i) + 1;
    scene.labels.push_back(std::move(label));
  }
  scene.alternative = sentence(fmt::format(
      "Full-size placement guide for “{}”, {}, with the outlines of {}", card.title,
      size_text(whole.size, project.printing), names.empty() ? "the card" : words::listed(names)));
  return scene;
}

Scene stamped_image(const Project& project, int set, int image, const std::vector<int>& inks) {
  Scene scene;
  if (set < 0 || set >= static_cast<int>(project.stamp_sets.size())) return scene;
  const auto& images = project.stamp_sets.at(as_index(set)).images;
  if (image < 0 || image >= static_cast<int>(images.size())) return scene;
  const StampImage& found = images.at(as_index(image));
  Impression impression;
  impression.set = set;
  impression.image = image;
  impression.inks = inks;
  impression.places = {{}};
  draw_impression(scene.items, project, impression, Frame{}, {255, 255, 255});
  scene.box = grown({{}, found.size}, micrometres(300));
  scene.scale_group = "stamped";
  scene.alternative = sentence("Stamped image " + image_words(project, impression) + ", " +
                               size_text(found.size, project.printing));
  return scene;
}

Scene scale_bar(const Project& project) {
  const bool inch = project.printing.unit == Unit::Inch;
  const int parts = inch ? 16 : 50;
  const Length length = inch ? inches(2) : millimetres(50);
  Scene scene;
  scene.fixed_scale = 1.0;
  const Length high = millimetres(3);
  scene.items.emplace_back(SceneMark{"scale-bar", {}, {{}, {length, high}}});
  drawn_stroke(scene.items, segment({{}, high}, {length, high}), line_ink, points(0.6));
  for (int i = 0; i <= parts; ++i) {
    const Length x = length * i / parts;
    const bool major = inch ? i % 8 == 0 : i % 10 == 0;
    const bool middle = inch ? i % 4 == 0 : i % 5 == 0;
    const Length tall = major ? high : middle ? high * 2 / 3 : high * 2 / 5;
    drawn_stroke(scene.items, segment({x, high - tall}, {x, high}), line_ink,
                 points(major ? 0.6 : 0.35));
    if (major)
      scene.items.emplace_back(SceneText{inch ? fmt::format("{}", i / 8) : fmt::format("{}", i),
                                         text::Role::Text,
                                         points(8),
                                         {x, high + micrometres(2300)},
                                         {},
                                         line_ink});
  }
  scene.items.emplace_back(SceneText{inch ? "in" : "mm",
                                     text::Role::Text,
                                     points(8),
                                     {length + micrometres(4200), high + micrometres(2300)},
                                     {},
                                     line_ink});
  scene.box = {{-millimetres(2), -micrometres(300)},
               {length + millimetres(9), high + millimetres(4)}};
  scene.alternative = inch ? "A bar two inches long, marked in eighths."
                           : "A bar 50 mm long, marked in millimetres.";
  return scene;
}

} // namespace leafwright::figure
