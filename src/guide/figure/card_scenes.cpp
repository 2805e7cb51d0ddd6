#include "guide/figure/alternative.h"
#include "guide/figure/scene_parts.h"
#include "guide/figure/scenes.h"

namespace leafwright::figure {

Scene finished(const Project& project, const Card& card, View view) {
  const Staging staging(project, card, stage_of(view));
  Scene scene;
  if (staging.levels() == 0) return scene;
  draw_stage(scene.items, project, card, staging, card.build.size());
  scene.box = box_of(project, card, staging, card.build.size());
  scene.alternative = stage_words(project, card, staging, card.build.size());
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
  scene.alternative = stage_words(project, card, front, card.build.size());
  scene.scale_group = "finished";
  if (!lined) return scene;

  Items items;
  draw_stage(items, project, card, inside, card.build.size());
  const Rect box = box_of(project, card, inside, card.build.size());
  const Point by{scene.box.right() + millimetres(8) - box.left(),
                 scene.box.bottom() - box.bottom()};
  append_shifted(scene.items, std::move(items), by);
  scene.box = united(scene.box, {box.origin + by, box.size});
  scene.alternative += " " + stage_words(project, card, inside, card.build.size());
  return scene;
}

} // namespace leafwright::figure
