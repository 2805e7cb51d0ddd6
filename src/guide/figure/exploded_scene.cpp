#include "guide/figure/alternative.h"
#include "guide/figure/scene_parts.h"
#include "guide/figure/scenes.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace leafwright::figure {

namespace {

const Colour line_ink{38, 36, 33};

struct LayerDrawn {
  Items items;
  Rect box;   // where it lies on the card, without its shadow
  Rect place; // in the stack
  Point by;
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
    const auto index = static_cast<std::size_t>(build.index);
    if (build.kind == Build::Kind::Piece) {
      const Piece& piece = card_.pieces.at(index);
      layer.letter = piece.letter;
      layer.lines = {piece_name(piece), size_text(piece.size, project_.printing, true)};
    } else if (build.kind == Build::Kind::Ribbon) {
      const RibbonUse& use = card_.ribbons.at(index);
      std::string words = "ribbon";
      if (use.ribbon >= 0 && use.ribbon < static_cast<int>(project_.ribbons.size()))
        words = lower_first(project_.ribbons.at(static_cast<std::size_t>(use.ribbon)).name);
      layer.lines = {words, length_text(use.cut(), project_.printing)};
    } else if (build.kind == Build::Kind::Embellishment) {
      const EmbellishmentUse& use = card_.embellishments.at(index);
      std::string words = "embellishment";
      if (use.embellishment >= 0 &&
          use.embellishment < static_cast<int>(project_.embellishments.size()))
        words = lower_first(
            project_.embellishments.at(static_cast<std::size_t>(use.embellishment)).name);
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

// A point of layer `number` that no later layer hides, as far to the right as there is one.
Point visible_point(const std::vector<LayerDrawn>& layers, std::size_t number) {
  constexpr int steps = 24;
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
      const std::int64_t score = p.x.nm - absolute(p.y - place.centre().y).nm / 6;
      if (score > most) {
        most = score;
        best = p;
      }
    }
  return best;
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
  scene.box = grown(layers.front().place, millimetres(2));
  for (std::size_t i = 0; i < layers.size(); ++i) {
    LayerDrawn& layer = layers.at(i);
    scene.box = united(scene.box, grown(layer.place, millimetres(1)));
    if (i > 0) { // from its corners down to where it will lie
      const Point below = layers.at(i - 1).by;
      const auto thread = [&](Point corner) {
        drawn_stroke(scene.items, segment(corner + layer.by, corner + below), {255, 255, 255},
                     points(1.4), 0.5);
        drawn_stroke(scene.items, segment(corner + layer.by, corner + below), line_ink,
                     points(0.35), 0.8, {micrometres(700), micrometres(600)});
      };
      thread({layer.box.right(), layer.box.top()});
      thread({layer.box.left(), layer.box.bottom()});
      thread({layer.box.right(), layer.box.bottom()});
    }
    append_shifted(scene.items, std::move(layer.items), layer.by);
  }
  std::vector<std::string> names;
  for (std::size_t i = layers.size(); i-- > 0;) {
    const LayerDrawn& layer = layers.at(i);
    Label label{layer.lines, layer.place, true};
    label.letter = layer.letter;
    label.anchor = visible_point(layers, i);
    label.rank = static_cast<int>(layers.size() - i);
    scene.labels.push_back(std::move(label));
    names.push_back(layer.words);
  }
  std::reverse(names.begin(), names.end());
  scene.largest_scale = 0.75;
  scene.alternative =
      sentence(fmt::format("The layers of “{}” drawn apart, from the lowest to the topmost: {}",
                           card.title, joined(names)));
  return scene;
}

} // namespace leafwright::figure
