#include "guide/figure/paint.h"
#include "measure/index.h"
#include "model/carrier.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace leafwright::figure {

namespace {

const Ribbon* ribbon_of(const Project& project, int index) {
  if (index < 0 || index >= static_cast<int>(project.ribbons.size())) return nullptr;
  return &project.ribbons.at(as_index(index));
}

double nm(Length a) { return static_cast<double>(a.nm); }

// Draws along its own x axis, its centre line at y = 0; everything in nanometres.
class Trimmer {
 public:
  Trimmer(Items& into, const Ribbon& ribbon, const Frame& frame)
      : into_(into), ribbon_(ribbon), frame_(frame), width_(std::max(nm(ribbon.width), 0.3e6)),
        dark_(mixed(ribbon.colour, {36, 26, 20}, 0.45)),
        light_(mixed(ribbon.colour, {255, 255, 255}, 0.55)) {}

  Point at(double x, double y) const { return placed(frame_, {from_nm(x), from_nm(y)}); }
  Path line(double x0, double y0, double x1, double y1) const {
    return segment(at(x0, y0), at(x1, y1));
  }
  Path area(double x0, double y0, double x1, double y1) const {
    return polyline({at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}, true);
  }

  // The straight part from x0 to x1.
  void straight(double x0, double x1) {
    if (ribbon_.kind == Ribbon::Kind::Twine) {
      cord(line(x0, 0, x1, 0), true);
      return;
    }
    const double h = width_ / 2;
    const Path edge = area(x0, -h, x1, h);
    soft_shadow(into_, edge, 0);
    fill(into_, edge, ribbon_.colour);
    weave(x0, x1);
    fill(into_, area(x0, -h * 0.80, x1, -h * 0.45), {255, 255, 255}, 0.16);
    fill(into_, area(x0, h * 0.55, x1, h * 0.86), {30, 20, 10}, 0.10);
    for (const double y : {-h * 0.86, h * 0.86}) // selvedge
      real_stroke(into_, line(x0, y, x1, y), light_, from_nm(width_ * 0.035), 0.8);
    for (const double y : {-h, h})
      drawn_stroke(into_, line(x0, y, x1, y), dark_, points(0.35), 0.95);
  }

  // Two loops, two tails and a knot, centred on x.
  void bow(double x) {
    const double loop = std::clamp(width_ * 1.7, 8e6, 18e6);
    const bool twine = ribbon_.kind == Ribbon::Kind::Twine;
    for (const double side : {-1.0, 1.0}) tail(x, side, loop * 0.85, loop * 0.62, twine);
    for (const double side : {-1.0, 1.0}) {
      const Path ring =
          loop_path(x, side, loop, twine ? loop * 0.33 : std::max(width_ * 0.62, loop * 0.30));
      if (twine) {
        cord(ring, true);
        continue;
      }
      soft_shadow(into_, ring, 0);
      fill(into_, ring, ribbon_.colour);
      // The inside of the loop, in its own shadow.
      const Path inner = loop_path(x + side * loop * 0.30, side, loop * 0.58, width_ * 0.22);
      fill(into_, inner, dark_, 0.75);
      drawn_stroke(into_, ring, dark_, points(0.4), 0.95);
      real_stroke(into_,
                  curve(x + side * width_ * 0.3, -width_ * 0.14, x + side * loop * 0.45,
                        -loop * 0.24, x + side * loop * 0.72, -loop * 0.27),
                  light_, from_nm(width_ * 0.07), 0.7);
    }
    knot_body(x, twine);
  }

  // A flat knot with two short tails.
  void knot(double x) {
    const bool twine = ribbon_.kind == Ribbon::Kind::Twine;
    const double reach = std::clamp(width_ * 1.6, 6.5e6, 16e6);
    for (const double side : {-1.0, 1.0}) tail(x, side, reach, reach * 0.5, twine);
    knot_body(x, twine);
  }

  // A cord through a hole at (x, y): doubled, tied close to the edge above it, its ends free.
  void threaded(double x, double y, double edge) {
    const double w = width_;
    const double tie = edge - 2.6 * w - 2.0e6;
    const double end = tie - 13e6;
    using Kind = Segment::Kind;
    const auto strand = [&](double x0, double y0, double bend, double x1, double y1) {
      return Path{{Kind::Move, {}, {}, at(x0, y0)},
                  {Kind::Curve, at(x0 + bend, y0 + (y1 - y0) * 0.35),
                   at(x1 + bend * 0.6, y0 + (y1 - y0) * 0.7), at(x1, y1)}};
    };
    cord(strand(x, y, -1.5 * w, x - 0.3 * w, tie), true); // comes out of the hole
    cord(strand(x + 0.5 * w, y, 1.5 * w, x + 0.3 * w, tie), true);
    cord(strand(x - 0.3 * w, tie, -2.0 * w, x - 5.0 * w, end), true);
    cord(strand(x + 0.3 * w, tie, 1.6 * w, x + 4.2 * w, end + 3e6), true);
    overhand(x, tie);
  }

 private:
  // A cord's knot: two turns that cross.
  void overhand(double x, double y) {
    const double r = width_ * 1.15;
    using Kind = Segment::Kind;
    const auto turn = [&](double side) {
      return Path{{Kind::Move, {}, {}, at(x - side * r, y - r * 0.75)},
                  {Kind::Curve, at(x + side * r * 0.2, y - r * 0.9), at(x + side * r * 0.9, y),
                   at(x + side * r, y + r * 0.75)}};
    };
    cord(turn(1.0), true);
    cord(turn(-1.0), false);
  }

  // Ribs across the ribbon: one broad line, dashed.
  void weave(double x0, double x1) {
    real_stroke(into_, line(x0, 0, x1, 0), dark_, from_nm(width_ * 0.84), 0.26,
                {micrometres(260), micrometres(300)});
  }

  void cord(const Path& path, bool shadow) {
    if (shadow) {
      const Length off = from_nm(width_ * 0.35);
      real_stroke(into_, moved(path, {off, from_nm(width_ * 0.45)}), {46, 36, 24},
                  from_nm(width_ * 1.1), 0.20, {}, Stroke::Cap::Round);
    }
    real_stroke(into_, path, dark_, from_nm(width_ * 1.18), 1.0, {}, Stroke::Cap::Round);
    real_stroke(into_, path, ribbon_.colour, from_nm(width_ * 0.94), 1.0, {}, Stroke::Cap::Round);
    real_stroke(into_, path, light_, from_nm(width_ * 0.5), 0.75,
                {from_nm(width_ * 0.7), from_nm(width_ * 0.55)}); // the twist
  }

  Path curve(double x0, double y0, double cx, double cy, double x1, double y1) const {
    using Kind = Segment::Kind;
    return {{Kind::Move, {}, {}, at(x0, y0)},
            {Kind::Curve, at(x0 + (cx - x0) * 0.67, y0 + (cy - y0) * 0.67),
             at(x1 + (cx - x1) * 0.67, y1 + (cy - y1) * 0.67), at(x1, y1)}};
  }

  Path loop_path(double x, double side, double length, double half) const {
    using Kind = Segment::Kind;
    const double far = x + side * length;
    return {{Kind::Move, {}, {}, at(x, 0)},
            {Kind::Curve, at(x + side * length * 0.30, -half * 1.7), at(far, -half * 2.0),
             at(far, -half * 0.15)},
            {Kind::Curve, at(far, half * 1.2), at(x + side * length * 0.30, half * 0.9), at(x, 0)},
            {Kind::Close, {}, {}, {}}};
  }

  void tail(double x, double side, double across, double down, bool twine) {
    const double end_x = x + side * across;
    if (twine) {
      cord(curve(x, 0, x + side * across * 0.25, down * 0.75, end_x, down), true);
      return;
    }
    // Tapers into the knot, with a swallow-tail end.
    const double h = width_ / 2;
    const double length = std::hypot(across, down);
    const double ux = side * across / length;
    const double uy = down / length;
    const double px = -uy * h;
    const double py = ux * h;
    const Path shape = polyline({at(x + px * 0.4, py * 0.4), at(end_x + px, down + py),
                                 at(end_x - ux * h * 0.8, down - uy * h * 0.8),
                                 at(end_x - px, down - py), at(x - px * 0.4, -py * 0.4)},
                                true);
    soft_shadow(into_, shape, 0);
    fill(into_, shape, ribbon_.colour);
    real_stroke(into_, line(x, 0, end_x - ux * h, down - uy * h), dark_, from_nm(width_ * 0.7),
                0.22, {micrometres(260), micrometres(300)});
    drawn_stroke(into_, shape, dark_, points(0.4), 0.95);
  }

  void knot_body(double x, bool twine) {
    if (twine) {
      overhand(x, 0);
      return;
    }
    const double half_x = width_ * 0.36;
    const double half_y = width_ * 0.46;
    const Point from{from_nm(x - half_x), from_nm(-half_y)};
    const Rect box{from, {from_nm(half_x * 2), from_nm(half_y * 2)}};
    const Path body = placed(frame_, rounded(box, from_nm(half_x * 0.75)));
    soft_shadow(into_, body, 0);
    fill(into_, body, ribbon_.colour);
    real_stroke(into_,
                curve(x - half_x * 0.45, -half_y * 0.8, x - half_x * 0.15, 0, x - half_x * 0.45,
                      half_y * 0.8),
                light_, from_nm(half_x * 0.28), 0.6);
    real_stroke(into_,
                curve(x + half_x * 0.5, -half_y * 0.8, x + half_x * 0.75, 0, x + half_x * 0.5,
                      half_y * 0.8),
                dark_, from_nm(half_x * 0.16), 0.5);
    drawn_stroke(into_, body, dark_, points(0.4), 0.95);
  }

  Items& into_;
  const Ribbon& ribbon_;
  const Frame& frame_;
  double width_;
  Colour dark_, light_;
};

} // namespace

Rect ribbon_box(const Project& project, const RibbonUse& use, Size carrier) {
  const Ribbon* ribbon = ribbon_of(project, use.ribbon);
  const Length width = ribbon != nullptr ? ribbon->width : Length{};
  return leafwright::ribbon_box(use, width, carrier);
}

void draw_ribbon(Items& into, const Project& project, const RibbonUse& use, Size carrier,
                 const Frame& frame) {
  const Ribbon* ribbon = ribbon_of(project, use.ribbon);
  if (ribbon == nullptr) return;
  // Own axis: along the ribbon. Upright ribbons run downwards.
  const Frame own = use.vertical
                        ? then(then(turned_about(degrees(90), {}), shifted({use.at, {}})), frame)
                        : then(shifted({{}, use.at}), frame);
  const double length = nm(use.vertical ? carrier.height : carrier.width);
  Trimmer trimmer(into, *ribbon, own);
  constexpr double over = 0.25e6; // it turns round the edge
  if (use.as != RibbonUse::As::Bow && use.as != RibbonUse::As::Knot) {
    trimmer.straight(use.as == RibbonUse::As::Wrap ? -over : 0.0,
                     use.as == RibbonUse::As::Wrap ? length + over : length);
    return;
  }
  if (use.path.nm > 0) trimmer.straight(-over, length + over);
  if (use.as == RibbonUse::As::Bow)
    trimmer.bow(length / 2);
  else
    trimmer.knot(length / 2);
}

void draw_threaded(Items& into, const Project& project, const RibbonUse& use, Rect hole,
                   const Frame& frame) {
  const Ribbon* ribbon = ribbon_of(project, use.ribbon);
  if (ribbon == nullptr) return;
  Trimmer(into, *ribbon, frame).threaded(nm(hole.centre().x), nm(hole.centre().y), 0.0);
}

void draw_embellishment(Items& into, const Embellishment& what, const Frame& frame) {
  const Path outline = placed(frame, outline_path(what.shape, what.size));
  const double w = nm(what.size.width);
  const double h = nm(what.size.height);
  soft_shadow(into, outline, what.height > micrometres(800) ? 1 : 0);
  const bool pale = luminance(what.colour) > 0.7;
  const Colour rim = mixed(what.colour, {40, 44, 46}, pale ? 0.5 : 0.4);
  fill(into, outline, what.colour, pale ? 0.82 : 1.0);
  if (!what.artwork.empty()) draw_artwork(into, what.artwork, frame, {rim}, what.colour, 1.0);
  if (what.height > micrometres(500)) {
    into.emplace_back(SceneClip{outline});
    // Shade away from the light: it stands up.
    Path crescent = outline;
    append(crescent, moved(outline, {from_nm(-w * 0.07), from_nm(-h * 0.08)}));
    fill(into, crescent, rim, 0.35);
    if (is_round(what.shape)) { // a dome: a bright spot towards the light, its glow opposite
      const auto part = [&](double x, double y, double width, double height) {
        return placed(frame, oval({{from_nm(w * x), from_nm(h * y)},
                                   {from_nm(w * width), from_nm(h * height)}}));
      };
      fill(into, part(0.52, 0.54, 0.32, 0.30), {255, 255, 255}, 0.45);
      fill(into, part(0.17, 0.14, 0.34, 0.28), {255, 255, 255}, 0.95);
    }
    into.emplace_back(SceneUnclip{});
  }
  drawn_stroke(into, outline, rim, points(0.4), 0.95);
}

} // namespace leafwright::figure
