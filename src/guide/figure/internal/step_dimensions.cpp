#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace leafwright::figure {

namespace {

class StepDimensions {
 public:
  StepDimensions(const Project& project, const Card& card, const Staging& staging, bool made_here,
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

} // namespace

void add_step_dimensions(Scene& scene, const Project& project, const Card& card,
                         const Staging& staging, std::span<const Build> builds, bool made_here) {
  StepDimensions dimensions(project, card, staging, made_here, scene);
  for (const Build& build : builds) dimensions.dimension(build);
}

} // namespace leafwright::figure
