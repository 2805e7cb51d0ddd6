#include "guide/figure/internal/scene_parts.h"
#include "measure/print_length.h"
#include "model/pop_up.h"

namespace leafwright::figure {

void draw_pop_ups(Items& into, const Card& card) {
  for (const PopUp& pop_up : card.pop_ups) {
    const Rect cut = pop_up_cut(card, pop_up), front = pop_up_front(card, pop_up);
    Path slits = segment({cut.left(), cut.top()}, {cut.left(), cut.bottom()});
    append(slits, segment({cut.right(), cut.top()}, {cut.right(), cut.bottom()}));
    drawn_stroke(into, std::move(slits), line_ink, points(0.9));
    const auto score = [&](Length at, bool mountain) {
      draw_score_line(into, {cut.left(), at}, {cut.right(), at}, mountain, line_ink);
    };
    score(cut.top(), false);
    score(front.top(), true);
    score(cut.bottom(), false);
  }
}

void add_pop_ups(Scene& scene, const Project& project, const Card& card) {
  draw_pop_ups(scene.items, card);
  for (const PopUp& pop_up : card.pop_ups) {
    const Rect cut = pop_up_cut(card, pop_up);
    add_size(scene.dimensions, cut, project.printing);
    add_distances(scene.dimensions, cut, card.plan.unfolded, project);
    scene.keep_clear.push_back(cut);
  }
}

} // namespace leafwright::figure
