#include "guide/figure/internal/alternative.h"
#include "guide/figure/internal/scene_parts.h"
#include "guide/figure/scenes.h"
#include "language/words.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::figure {

namespace {

constexpr Size chip{millimetres(24), millimetres(15)}; // of paper

template <class T>
const T* named(const std::vector<T>& all, ItemRef item) {
  return item.index >= 0 && item.index < static_cast<int>(all.size())
             ? &all.at(as_index(item.index))
             : nullptr;
}

void paper_swatch(Scene& scene, const Stock& stock) {
  scene.box = {{}, chip};
  draw_sheet(scene.items, stock, rectangle(scene.box), scene.box, Frame{});
  if (stock.kind == Stock::Kind::Clear || stock.kind == Stock::Kind::Vellum)
    drawn_stroke(scene.items, segment({{}, chip.height}, {chip.width, {}}), line_ink, points(0.4),
                 0.6);
  scene.alternative = sentence("A swatch of " + lower_first(stock.name));
}

void ribbon_swatch(Scene& scene, const Project& project, int index, const Ribbon& ribbon) {
  const Size size{millimetres(34), std::max(ribbon.width, millimetres(2))};
  RibbonUse use;
  use.ribbon = index;
  use.at = size.height / 2;
  draw_ribbon(scene.items, project, use, size, Frame{});
  scene.box = {{}, size};
  scene.alternative = sentence("A length of " + lower_first(ribbon.name));
}

void die_swatch(Scene& scene, const Die& die) {
  const Path outline = outline_path(die.shape, die.size);
  fill(scene.items, outline, {255, 255, 255}, 0.8);
  drawn_stroke(scene.items, outline, {116, 110, 103}, points(1.6));
  drawn_stroke(scene.items, outline, {255, 255, 255}, points(0.4));
  scene.box = grown({{}, die.size}, micrometres(600));
  scene.alternative = sentence("The outline of the " + lower_first(die.name));
}

// The images of a set in rows, at one scale.
void stamps_swatch(Scene& scene, const StampSet& set) {
  constexpr Length widest = millimetres(190);
  const Length gap = millimetres(7);
  Length x{}, y{}, row{};
  std::vector<std::string> names;
  for (const StampImage& image : set.images) {
    if (x.nm > 0 && x + image.size.width > widest) {
      x = {};
      y = y + row + gap;
      row = {};
    }
    draw_artwork(scene.items, image.artwork, shifted({x, y}),
                 {Colour{70, 66, 60}, Colour{70, 66, 60}, Colour{70, 66, 60}}, {255, 255, 255},
                 1.0);
    scene.box = united(scene.box, {{x, y}, image.size});
    x = x + image.size.width + gap;
    row = std::max(row, image.size.height);
    names.push_back("“" + image.name + "”");
  }
  scene.alternative =
      sentence("The images of the " + lower_first(set.name) + ": " + words::listed(names));
}

void adhesive_swatch(Scene& scene, const Adhesive& adhesive) {
  const bool dots = adhesive.kind == Adhesive::Kind::Dots;
  if (adhesive.kind == Adhesive::Kind::Foam || dots) {
    const Size size = adhesive.piece;
    const Length gap = size.width / 3;
    for (int i = 0; i < 3; ++i) {
      const Rect box{{(size.width + gap) * i, {}}, size};
      const Path shape = dots ? oval(box) : rectangle(box);
      soft_shadow(scene.items, shape, dots ? 0 : 1);
      fill(scene.items, shape, {255, 255, 255});
      drawn_stroke(scene.items, shape, line_ink, points(0.5));
      scene.box = united(scene.box, grown(box, millimetres(2)));
    }
  } else if (adhesive.kind == Adhesive::Kind::Tape) {
    scene.box = {{}, {millimetres(30), std::max(adhesive.piece.width, millimetres(4))}};
    fill(scene.items, rectangle(scene.box), {247, 240, 214});
    drawn_stroke(scene.items, rectangle(scene.box), line_ink, points(0.5), 0.9,
                 {micrometres(1200), micrometres(600)});
  } else {
    return;
  }
  scene.alternative = sentence(adhesive.name);
}

void envelope_swatch(Scene& scene, const Envelope& envelope) {
  draw_envelope_front(scene.items, envelope.colour, envelope.size);
  const Point middle{envelope.size.width / 2, envelope.size.height / 2};
  for (const Length from : {Length{}, envelope.size.width})
    drawn_stroke(scene.items, segment({from, {}}, middle), edge_colour(envelope.colour),
                 points(0.4));
  scene.box = grown({{}, envelope.size}, micrometres(900));
  scene.alternative = sentence("A " + lower_first(envelope.name));
}

} // namespace

Scene swatch(const Project& project, ItemRef item) {
  Scene scene;
  switch (item.kind) {
  case ItemKind::Stock:
    if (const Stock* stock = named(project.stocks, item)) paper_swatch(scene, *stock);
    break;
  case ItemKind::Ribbon:
    if (const Ribbon* ribbon = named(project.ribbons, item))
      ribbon_swatch(scene, project, item.index, *ribbon);
    break;
  case ItemKind::Die:
    if (const Die* die = named(project.dies, item)) die_swatch(scene, *die);
    break;
  case ItemKind::StampSet:
    if (const StampSet* set = named(project.stamp_sets, item)) stamps_swatch(scene, *set);
    break;
  case ItemKind::Ink:
    if (const Ink* ink = named(project.inks, item)) {
      scene.box = {{}, {millimetres(10), millimetres(10)}};
      draw_ink(scene.items, *ink, scene.box);
      scene.alternative = sentence(ink->name + " ink with its mark");
    }
    break;
  case ItemKind::Embellishment:
    if (const Embellishment* what = named(project.embellishments, item)) {
      draw_embellishment(scene.items, *what, Frame{});
      scene.box = grown({{}, what->size}, micrometres(400));
      scene.alternative = sentence("A " + lower_first(what->name));
    }
    break;
  case ItemKind::Envelope:
    if (const Envelope* envelope = named(project.envelopes, item))
      envelope_swatch(scene, *envelope);
    break;
  case ItemKind::Adhesive:
    if (const Adhesive* adhesive = named(project.adhesives, item))
      adhesive_swatch(scene, *adhesive);
    break;
  case ItemKind::Pack:
  case ItemKind::Tool:
  case ItemKind::Tutorial:
  case ItemKind::Parts: break;
  }
  scene.scale_group = "swatch";
  return scene;
}

} // namespace leafwright::figure
