#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/carrier.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace leafwright::figure {

Scene finished(const Project& project, const Card& card, View view) {
  const Staging staging(project, card, stage_of(view));
  Scene scene;
  if (staging.levels() == 0) return scene;
  draw_stage(scene.items, project, card, staging, card.build.size());
  scene.box = box_of(project, card, staging, card.build.size());
  scene.alternative = looks_words(project, card, staging);
  scene.scale_group = "finished";
  return scene;
}

// Front and inside beside each other when both carry something, else the front alone.
Scene finished_envelope(const Project& project, const Card& card) {
  const Staging front(project, card, Stage::EnvelopeFront);
  const Staging inside(project, card, Stage::EnvelopeInside);
  Scene scene;
  if (front.levels() == 0) return scene;
  bool lined = false;
  for (const Build& build : card.build) {
    const std::optional<Carrier> on = carrier_of(card, build);
    lined = lined || (on && inside.carrier(*on).has_value());
  }
  draw_stage(scene.items, project, card, front, card.build.size());
  scene.box = box_of(project, card, front, card.build.size());
  scene.alternative = looks_words(project, card, front);
  scene.scale_group = "finished";
  if (!lined) return scene;

  Items items;
  draw_stage(items, project, card, inside, card.build.size());
  const Rect box = box_of(project, card, inside, card.build.size());
  const Point by{scene.box.right() + millimetres(8) - box.left(),
                 scene.box.bottom() - box.bottom()};
  append_shifted(scene.items, std::move(items), by);
  scene.box = united(scene.box, {box.origin + by, box.size});
  scene.alternative += " " + looks_words(project, card, inside);
  return scene;
}

namespace {

struct LayerDrawn {
  Items items;
  Rect box;   // where it lies on the card, without its shadow
  Rect place; // in the stack
  Point by;
  std::vector<Path> outlines; // on the card
  std::vector<std::string> lines;
  std::string letter, words;
};

class Stack {
 public:
  Stack(const Project& project, const Card& card, const Staging& staging)
      : project_(project), card_(card), staging_(staging) {}

  std::vector<LayerDrawn> layers() {
    base();
    for (const Build& build : card_.build) {
      const std::optional<Carrier> on = carrier_of(card_, build);
      const std::optional<Standing> carrier = on ? staging_.carrier(*on) : std::nullopt;
      if (!carrier || carrier->level < staging_.levels() - 1) continue;
      const std::vector<Path> outlines = outlines_of(project_, card_, staging_, build);
      if (outlines.empty()) continue;
      LayerDrawn layer;
      draw_build(layer.items, project_, card_, staging_, build);
      layer.box = bounds(outlines.front());
      for (const Path& path : outlines) layer.box = united(layer.box, bounds(path));
      layer.outlines = outlines;
      name(layer, build);
      // Stamping onto the card itself belongs to the layer below it.
      if (build.kind == Build::Kind::Stamping && !layers_.empty()) {
        for (SceneItem& item : layer.items) layers_.front().items.push_back(std::move(item));
        continue;
      }
      layers_.push_back(std::move(layer));
    }
    return std::move(layers_);
  }

 private:
  void base() {
    LayerDrawn layer;
    for (int level = 0; level < staging_.levels(); ++level)
      draw_leaves(layer.items, project_, card_, staging_, level);
    layer.box = {{}, staging_.size()};
    if (!card_.pieces.empty()) {
      const Piece& piece = card_.pieces.front();
      layer.letter = piece.letter;
      layer.lines = {piece.name.empty() ? stock_name(project_, piece.stock) + " base" : piece.name,
                     size_text(staging_.size(), project_.printing, true)};
    }
    layer.words = layer.lines.empty() ? "card" : layer.lines.front();
    layers_.push_back(std::move(layer));
  }

  void name(LayerDrawn& layer, const Build& build) {
    const auto index = as_index(build.index);
    if (build.kind == Build::Kind::Piece) {
      const Piece& piece = card_.pieces.at(index);
      layer.letter = piece.letter;
      layer.lines = {piece_name(piece), piece_size(piece, project_.printing)};
    } else if (build.kind == Build::Kind::Ribbon) {
      const RibbonUse& use = card_.ribbons.at(index);
      std::string words = "ribbon";
      if (use.ribbon >= 0 && use.ribbon < static_cast<int>(project_.ribbons.size()))
        words = lower_first(project_.ribbons.at(as_index(use.ribbon)).name);
      layer.lines = {words, length_text(use.cut(), project_.printing)};
    } else if (build.kind == Build::Kind::Embellishment) {
      const EmbellishmentUse& use = card_.embellishments.at(index);
      std::string words = "embellishment";
      if (use.embellishment >= 0 &&
          use.embellishment < static_cast<int>(project_.embellishments.size()))
        words = lower_first(project_.embellishments.at(as_index(use.embellishment)).name);
      layer.lines = {words};
      if (use.places.size() > 1) layer.lines.push_back(fmt::format("{} pieces", use.places.size()));
    }
    layer.words = layer.lines.empty() ? "layer" : layer.lines.front();
  }

  const Project& project_;
  const Card& card_;
  const Staging& staging_;
  std::vector<LayerDrawn> layers_;
};

// A point of layer `number` that no later layer hides, as far to the right (or left) as there is
// one.
Point visible_point(const std::vector<LayerDrawn>& layers, std::size_t number, bool right) {
  constexpr int steps = 20;
  const Rect place = layers.at(number).place;
  const Rect inner =
      grown(place, -std::min({millimetres(3), place.size.width / 8, place.size.height / 8}));
  Point best = place.centre();
  std::int64_t most = std::numeric_limits<std::int64_t>::min();
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j) {
      const Point p{inner.left() + inner.size.width * i / steps,
                    inner.top() + inner.size.height * j / steps};
      bool hidden = false;
      for (std::size_t k = number + 1; k < layers.size() && !hidden; ++k) {
        const Rect other = grown(layers.at(k).place, millimetres(1));
        hidden =
            p.x > other.left() && p.x < other.right() && p.y > other.top() && p.y < other.bottom();
      }
      if (hidden) continue;
      const std::int64_t score =
          (right ? p.x.nm : -p.x.nm) - absolute(p.y - place.centre().y).nm / 6;
      if (score > most) {
        most = score;
        best = p;
      }
    }
  return best;
}

// A thread from a point of a layer down to where it will lie: on the topmost earlier layer there.
struct Thread {
  Point on_card;
  std::size_t from = 0, to = 0; // layers
};

std::vector<Thread> threads_of(const std::vector<LayerDrawn>& layers, std::size_t number) {
  std::vector<Point> points;
  for (const Path& outline : layers.at(number).outlines) {
    const Rect box = bounds(outline);
    if (box.size.width < millimetres(9) && box.size.height < millimetres(9)) {
      points.push_back(box.centre());
      continue;
    }
    points.push_back({box.right(), box.top()});
    points.push_back({box.left(), box.bottom()});
    points.push_back({box.right(), box.bottom()});
  }
  std::vector<Thread> threads;
  for (const Point point : points) {
    std::size_t to = 0;
    for (std::size_t k = 1; k < number; ++k) {
      const Rect box = layers.at(k).box;
      if (point.x >= box.left() && point.x <= box.right() && point.y >= box.top() &&
          point.y <= box.bottom())
        to = k;
    }
    threads.push_back({point, number, to});
  }
  return threads;
}

void draw_threads(Items& into, const std::vector<LayerDrawn>& layers,
                  const std::vector<Thread>& threads, std::size_t landing) {
  for (const Thread& thread : threads) {
    if (thread.to != landing) continue;
    const Path line = segment(thread.on_card + layers.at(thread.from).by,
                              thread.on_card + layers.at(thread.to).by);
    drawn_stroke(into, line, {255, 255, 255}, points(1.3), 0.45);
    drawn_stroke(into, line, line_ink, points(0.35), 0.8, {micrometres(700), micrometres(600)});
  }
}

} // namespace

Scene exploded(const Project& project, const Card& card, View view) {
  const Staging staging(project, card, stage_of(view));
  Scene scene;
  if (staging.levels() == 0) return scene;
  std::vector<LayerDrawn> layers = Stack(project, card, staging).layers();

  // Each layer lies up and to the left of the one below it: nearer to the light.
  const auto count = static_cast<std::int64_t>(layers.size());
  const Length spread = (staging.size().width + staging.size().height) / 2;
  const Length step =
      std::clamp(count > 1 ? spread / (count - 1) : spread, millimetres(9), millimetres(24));
  for (std::size_t i = 0; i < layers.size(); ++i) {
    LayerDrawn& layer = layers.at(i);
    const auto n = static_cast<std::int64_t>(i);
    layer.by = {-(step * n) * 7 / 10, -(step * n)};
    layer.place = {layer.box.origin + layer.by, layer.box.size};
  }
  std::vector<Thread> threads;
  for (std::size_t i = 1; i < layers.size(); ++i)
    for (const Thread& thread : threads_of(layers, i)) threads.push_back(thread);
  scene.box = grown(layers.front().place, millimetres(2));
  for (std::size_t i = 0; i < layers.size(); ++i) {
    scene.box = united(scene.box, grown(layers.at(i).place, millimetres(1)));
    append_shifted(scene.items, std::move(layers.at(i).items), layers.at(i).by);
    draw_threads(scene.items, layers, threads, i); // what is drawn later hides them in part
  }
  std::vector<std::string> names;
  for (std::size_t i = layers.size(); i-- > 0;) {
    const LayerDrawn& layer = layers.at(i);
    Label label{layer.lines, layer.place, true};
    label.letter = layer.letter;
    label.anchors = {visible_point(layers, i, true), visible_point(layers, i, false)};
    label.rank = static_cast<int>(layers.size() - i);
    scene.labels.push_back(std::move(label));
    names.push_back(layer.words);
  }
  std::reverse(names.begin(), names.end());
  scene.largest_scale = 0.75;
  scene.alternative =
      sentence(fmt::format("The layers of “{}” drawn apart, from the lowest to the topmost: {}",
                           card.title, words::listed(names)));
  return scene;
}

} // namespace leafwright::figure
