#include "guide/figure/frame.h"
#include "guide/figure/internal/label_layout.h"
#include "guide/figure/internal/painter.h"
#include "guide/figure/internal/tray_packing.h"
#include "measure/index.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace leafwright::figure {

namespace {

constexpr double least_scale = 0.02;

// --- Labels at one scale
// ----------------------------------------------------------------------------

struct Arrangement {
  LabelArea ground;
  std::vector<LabelRequest> wishes;
  std::vector<int> chosen;
  Box extents; // of the object and all labels
  int left_out = 0;
};

Arrangement arrange(const Scene& scene, double scale, const Lettering& letters,
                    const std::optional<Box>& room, int rounds) {
  Arrangement result;
  result.ground = ground_of(scene, scale);
  result.ground.room = room;
  result.ground.inside_first = rounds == 1;
  result.wishes = wishes(scene, result.ground, letters);
  std::vector<std::vector<Candidate>> candidates;
  candidates.reserve(result.wishes.size());
  for (LabelRequest& wish : result.wishes) candidates.push_back(std::move(wish.candidates));
  result.chosen = choose_places(candidates, rounds);
  result.extents = result.ground.object;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    result.wishes.at(i).candidates = std::move(candidates.at(i));
    const int index = result.chosen.at(i);
    if (index < 0) {
      const LabelRequest& wish = result.wishes.at(i);
      const bool told_elsewhere = wish.kind == LabelRequest::Kind::Dimension
                                      ? scene.dimensions.at(wish.index).brief
                                      : wish.kind == LabelRequest::Kind::Label &&
                                            scene.labels.at(wish.index).brief &&
                                            scene.labels.at(wish.index).letter.empty();
      if (!told_elsewhere) ++result.left_out;
      continue;
    }
    const Candidate& candidate = result.wishes.at(i).candidates.at(as_index(index));
    result.extents = united(result.extents, grown(candidate.reach, 0.1));
  }
  return result;
}

struct Room {
  double width = 0, height = 0; // mm, without the margin of a tinted ground
};
Room room_for(const Scene& scene, Size room) {
  const double margin = scene.backdrop ? 2 * ground_margin : 0.0;
  return {in_mm(room.width) - margin, in_mm(room.height) - margin};
}

bool fits_in(const Box& extents, const Room& room) {
  return extents.width() <= room.width + 1e-6 && extents.height() <= room.height + 1e-6;
}

double most_for_object(const Scene& scene, const Room& room) {
  double scale = scene.largest_scale;
  if (scene.box.size.width.nm > 0)
    scale = std::min(scale, room.width / in_mm(scene.box.size.width));
  if (scene.box.size.height.nm > 0)
    scale = std::min(scale, room.height / in_mm(scene.box.size.height));
  return std::max(scale, least_scale);
}

// Scales are printed as whole percents, so they are whole percents.
double whole_percent(double scale) {
  if (scale >= 1.0 || scale < 0.05) return scale;
  return std::floor(scale * 100.0 + 1e-9) / 100.0;
}

// Where in the room the object could stand: shares of the spare width and height before it.
constexpr std::size_t stands_count = 9;
constexpr std::array<std::array<double, 2>, stands_count> stands{{{0.5, 0.5},
                                                                  {0.75, 0.5},
                                                                  {0.5, 0.25},
                                                                  {0.25, 0.5},
                                                                  {0.5, 0.75},
                                                                  {0.0, 0.5},
                                                                  {1.0, 0.5},
                                                                  {0.5, 0.0},
                                                                  {0.5, 1.0}}};

struct Effort {
  std::size_t stands = stands_count;
  int rounds = 4; // see choose_places
};
constexpr Effort quick{3, 1}; // while the scale is sought; drawing takes the full one

// Labels free to stand where they like; when that outgrows the room, held inside it, with the
// object in one of the first `most_stands` places.
Arrangement arrange_in(const Scene& scene, double scale, const Lettering& letters, const Room& room,
                       const Effort& effort) {
  Arrangement best = arrange(scene, scale, letters, std::nullopt, effort.rounds);
  if (fits_in(best.extents, room)) return best;
  const Box object = best.ground.object;
  const double spare_x = std::max(room.width - object.width(), 0.0);
  const double spare_y = std::max(room.height - object.height(), 0.0);
  for (std::size_t i = 0; i < std::min(effort.stands, stands.size()); ++i) {
    const double left = object.left - spare_x * stands.at(i).at(0);
    const double top = object.top - spare_y * stands.at(i).at(1);
    Box limits{left, top, left + room.width, top + room.height};
    // An object larger than the room is the page's to solve; its labels stay with it.
    constexpr double anywhere = 1000.0;
    if (object.width() > room.width)
      limits = {left - anywhere, limits.top, left + anywhere, limits.bottom};
    if (object.height() > room.height)
      limits = {limits.left, top - anywhere, limits.right, top + anywhere};
    Arrangement tried = arrange(scene, scale, letters, grown(limits, -0.1), effort.rounds);
    if (i == 0 || tried.left_out < best.left_out) best = std::move(tried);
    if (best.left_out == 0) break;
  }
  return best;
}

} // namespace

double fitting_scale(const Scene& scene, Size room, const Look& look, const text::Fonts& fonts) {
  if (scene.fixed_scale) return *scene.fixed_scale;
  if (!scene.laid_out.empty()) return packing_scale(scene, room, look, fonts);
  const Lettering letters = lettering(look, fonts);
  const Room inner = room_for(scene, room);
  const double object_width = in_mm(scene.box.size.width);
  const double object_height = in_mm(scene.box.size.height);
  double scale = whole_percent(most_for_object(scene, inner));
  for (int tries = 0; tries < 24 && scale > least_scale; ++tries) {
    const Arrangement tried = arrange_in(scene, scale, letters, inner, quick);
    if (fits_in(tried.extents, inner) && tried.left_out == 0) return scale;
    double next = scale * 0.97;
    const double beside = tried.extents.width() - object_width * scale;
    const double above = tried.extents.height() - object_height * scale;
    if (object_width > 0 && inner.width > beside)
      next = std::min(next, (inner.width - beside) / object_width);
    if (object_height > 0 && inner.height > above)
      next = std::min(next, (inner.height - above) / object_height);
    // In small steps: what stood beside the object may soon find a place above it.
    next = whole_percent(std::max(next, scale * 0.92));
    scale = next < scale ? next : scale - 0.01;
  }
  return std::max(scale, least_scale);
}

Composed compose(const Scene& scene, Size room, double scale, const Look& look,
                 const text::Fonts& fonts) {
  if (!scene.laid_out.empty()) return compose_packed(scene, room, scale, look, fonts);
  const Lettering letters = lettering(look, fonts);
  const Room inner = room_for(scene, room);
  if (scene.fixed_scale)
    scale = *scene.fixed_scale;
  else if (scale <= 0)
    scale = fitting_scale(scene, room, look, fonts);
  else
    scale = std::min(scale, most_for_object(scene, inner));

  const Arrangement arrangement = arrange_in(scene, scale, letters, inner, Effort{});
  const double margin = scene.backdrop ? ground_margin : 0.0;
  const Box& extents = arrangement.extents;
  const Point shift{from_nm((margin - extents.left) * 1e6), from_nm((margin - extents.top) * 1e6)};

  Composed composed;
  composed.scale = scale;
  composed.crowded = arrangement.left_out > 0;
  composed.object_origin = shift;
  Drawing& drawing = composed.drawing;
  drawing.size = {from_nm((extents.width() + 2 * margin) * 1e6),
                  from_nm((extents.height() + 2 * margin) * 1e6)};
  if (scene.backdrop)
    drawing.items.emplace_back(Fill{rectangle({{}, drawing.size}), look.ground, 1.0});
  Painter painter(drawing, scale, shift, fonts);
  for (const SceneItem& item : scene.items) painter.paint(item);
  for (std::size_t i = 0; i < arrangement.wishes.size(); ++i) {
    const int index = arrangement.chosen.at(i);
    if (index < 0) continue;
    const LabelRequest& wish = arrangement.wishes.at(i);
    draw_label(scene, wish, wish.candidates.at(as_index(index)), shift, look, letters, composed);
  }
  return composed;
}

} // namespace leafwright::figure
