#include "guide/figure/envelope_drawing.h"

namespace leafwright::figure {

void draw_envelope_front(Items& into, Colour paper, Size size) {
  const Path body = rounded({{}, size}, micrometres(900));
  soft_shadow(into, body, 1);
  fill(into, body, paper);
  drawn_stroke(into, body, edge_colour(paper), points(0.4), 0.9);
}

void draw_envelope_inside(Items& into, Colour paper, Size size) {
  const Length w = size.width;
  const Length reach = size.height / 100 * 46;
  using Kind = Segment::Kind;
  const Length tip = micrometres(5000);
  const Path flap{{Kind::Move, {}, {}, {{}, {}}},
                  {Kind::Line, {}, {}, {w / 2 - tip, -reach + tip / 3}},
                  {Kind::Curve,
                   {w / 2 - tip / 3, -reach - tip / 6},
                   {w / 2 + tip / 3, -reach - tip / 6},
                   {w / 2 + tip, -reach + tip / 3}},
                  {Kind::Line, {}, {}, {w, {}}},
                  {Kind::Close, {}, {}, {}}};
  soft_shadow(into, flap, 0);
  fill(into, flap, mixed(paper, {60, 45, 30}, 0.05));
  drawn_stroke(into, flap, edge_colour(paper), points(0.4), 0.9);
  const Path body = rectangle({{}, size});
  soft_shadow(into, body, 1);
  fill(into, body, mixed(paper, {60, 45, 30}, 0.09));
  drawn_stroke(into, body, edge_colour(paper), points(0.4), 0.9);
}

void draw_envelope_pockets(Items& into, Colour paper, Size size) {
  const Length w = size.width;
  const Length h = size.height;
  const Length deep = h / 100 * 44;
  const Length middle = micrometres(4000);
  const Path pocket = polyline({{{}, micrometres(1500)},
                                {w / 2 - middle, deep},
                                {w / 2 + middle, deep},
                                {w, micrometres(1500)},
                                {w, h},
                                {{}, h}},
                               true);
  soft_shadow(into, moved(pocket, {{}, -micrometres(900)}), 0);
  fill(into, pocket, paper);
  drawn_stroke(into, pocket, edge_colour(paper), points(0.4), 0.9);
  for (const bool left : {true, false})
    drawn_stroke(into,
                 segment({left ? Length{} : w, h}, {left ? w / 2 - middle : w / 2 + middle, deep}),
                 edge_colour(paper), points(0.35), 0.6);
}

} // namespace leafwright::figure
