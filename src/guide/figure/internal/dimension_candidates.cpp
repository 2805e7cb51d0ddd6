#include "guide/figure/internal/label_layout.h"

#include <algorithm>
#include <cmath>

namespace leafwright::figure {

namespace {

using Side = Dimension::Side;

constexpr int tiers = 6;
constexpr double arrow = 1.5;         // length of an arrow head
constexpr double beside = 0.7;        // between a line and its words
constexpr double extension_gap = 0.5; // an extension line starts this far from what it measures
constexpr double overshoot = 0.8;     // and ends this far beyond the dimension line
constexpr double nearest = 2.2;       // the first line stands this far from the object

// One dimension in its own direction: u runs along it, v away from the object. Upright and level
// dimensions share everything but how much room words take in each direction.
struct Span {
  double u0 = 0, u1 = 0;                           // along
  double v0 = 0, v1 = 0;                           // where the measured points stand, across
  double low0 = 0, high0 = 0, low1 = 0, high1 = 0; // the things they belong to, across
  bool upright = false;
  double text_u = 0, text_v = 0; // room of the words along and across
  double length() const { return u1 - u0; }
};

class Draughtsman {
 public:
  Draughtsman(const Span& span, const Lettering& letters) : span_(span), letters_(letters) {}

  // The line at `v`; `out` is -1 towards smaller v (above, left), +1 the other way, 0 in the gap.
  void offer(double v, double out, double cost, std::vector<Candidate>& into) const {
    const double middle = (span_.u0 + span_.u1) / 2;
    const double free = span_.length() - span_.text_u - 2 * beside;
    if (free >= 2 * (arrow + 0.3))
      into.push_back(split(v, out, middle, false, cost));
    else if (free >= 1.2)
      into.push_back(split(v, out, middle, true, cost + 0.3));
    // The words may step aside for an extension line that passes through the middle.
    if (const double slack = free / 2 - 0.6; slack > 0.8)
      for (const double share : {-0.35, 0.35, -0.8, 0.8})
        into.push_back(split(v, out, middle + slack * share, free < 2 * (arrow + 0.3),
                             cost + 0.35 + 0.3 * std::abs(share)));
    if (out == 0.0) {
      if (span_.upright && span_.length() >= span_.text_u + 0.4)
        for (const double to : {1.0, -1.0}) into.push_back(flank(v, to, 0.0, true, cost + 0.2));
      return;
    }
    if (span_.upright) {
      into.push_back(flank(v, out, out, free < 2.0 * arrow, cost + 0.45));
    }
    const double aside = span_.upright ? 1.2 : 0.9;
    into.push_back(tail(v, out, true, cost + aside));
    into.push_back(tail(v, out, false, cost + aside));
  }

 private:
  void put(Candidate& candidate, LabelStroke::Kind kind, double u0, double v0, double u1,
           double v1) const {
    if (span_.upright)
      candidate.lines.push_back({kind, v0, u0, v1, u1});
    else
      candidate.lines.push_back({kind, u0, v0, u1, v1});
  }

  void tip(Candidate& candidate, double u, double v, double du, bool tick) const {
    if (span_.upright)
      candidate.tips.push_back({v, u, 0, du, tick});
    else
      candidate.tips.push_back({u, v, du, 0, tick});
  }

  // Words centred on (u, v).
  void words(Candidate& candidate, double u, double v) const {
    const double x = span_.upright ? v : u;
    const double y = span_.upright ? u : v;
    const double w = span_.upright ? span_.text_v : span_.text_u;
    const double h = letters_.above + letters_.below;
    candidate.boxes.push_back(
        {x - w / 2 - 0.55, y - h / 2 - 0.2, x + w / 2 + 0.55, y + h / 2 + 0.2});
    candidate.texts.push_back({0, x - w / 2, y - h / 2 + letters_.above, false});
  }

  void extensions(Candidate& candidate, double v, double out) const {
    if (out == 0.0) return;
    const auto one = [&](double u, double from) {
      const double start = from + out * extension_gap;
      const double end = v + out * overshoot;
      if ((end - start) * out > 0) put(candidate, LabelStroke::Kind::Extension, u, start, u, end);
    };
    one(span_.u0, out < 0 ? span_.low0 : span_.high0);
    one(span_.u1, out < 0 ? span_.low1 : span_.high1);
  }

  Candidate split(double v, double out, double middle, bool ticks, double cost) const {
    Candidate candidate;
    const double half = span_.text_u / 2 + beside;
    put(candidate, LabelStroke::Kind::Dimension, span_.u0, v, middle - half, v);
    put(candidate, LabelStroke::Kind::Dimension, middle + half, v, span_.u1, v);
    const bool short_end = std::min(middle - half - span_.u0, span_.u1 - middle - half) < arrow;
    tip(candidate, span_.u0, v, -1, ticks || short_end);
    tip(candidate, span_.u1, v, 1, ticks || short_end);
    words(candidate, middle, v);
    extensions(candidate, v, out);
    candidate.cost = cost;
    candidate.plate = out == 0.0;
    return candidate;
  }

  // Words beside the middle of the whole line, on the side `to`.
  Candidate flank(double v, double to, double out, bool ticks, double cost) const {
    Candidate candidate;
    put(candidate, LabelStroke::Kind::Dimension, span_.u0, v, span_.u1, v);
    tip(candidate, span_.u0, v, -1, ticks);
    tip(candidate, span_.u1, v, 1, ticks);
    words(candidate, (span_.u0 + span_.u1) / 2, v + to * (span_.text_v / 2 + beside + 0.3));
    extensions(candidate, v, out);
    candidate.cost = cost;
    candidate.plate = out == 0.0;
    return candidate;
  }

  // The line goes on past one end and carries the words there.
  Candidate tail(double v, double out, bool far_end, double cost) const {
    Candidate candidate;
    const double end = far_end ? span_.u1 + 1.6 : span_.u0 - 1.6;
    put(candidate, LabelStroke::Kind::Dimension, std::min(span_.u0, end), v,
        std::max(span_.u1, end), v);
    tip(candidate, span_.u0, v, -1, true);
    tip(candidate, span_.u1, v, 1, true);
    words(candidate, end + (far_end ? 1 : -1) * (span_.text_u / 2 + beside), v);
    extensions(candidate, v, out);
    candidate.cost = cost;
    return candidate;
  }

  const Span& span_;
  const Lettering& letters_;
};

bool is_upright(const Dimension& dimension) {
  const auto dx = absolute(dimension.to.x - dimension.from.x);
  const auto dy = absolute(dimension.to.y - dimension.from.y);
  return dy > dx;
}

bool text_meets_solid(const Candidate& candidate, const LabelArea& ground) {
  for (const Box& solid : ground.solid) {
    for (const Box& box : candidate.boxes)
      if (overlap(box, solid)) return true;
    for (const LabelStroke& line : candidate.lines)
      if (line.kind == LabelStroke::Kind::Dimension && crosses(line, solid)) return true;
  }
  return false;
}

// In the gap itself, where the words must fit between what they measure.
void add_in_gap(std::vector<Candidate>& found, const Draughtsman& draughtsman, const Span& span,
                const LabelArea& ground) {
  std::vector<Candidate> in_gap;
  draughtsman.offer((span.v0 + span.v1) / 2, 0.0, 0.6, in_gap);
  for (Candidate& candidate : in_gap) {
    const bool fits =
        std::all_of(candidate.boxes.begin(), candidate.boxes.end(), [&](const Box& box) {
          return inside(box, ground.object) &&
                 (span.upright ? box.top >= span.u0 && box.bottom <= span.u1
                               : box.left >= span.u0 && box.right <= span.u1) &&
                 !meets_any(box, ground.keep_clear);
        });
    if (fits) found.push_back(std::move(candidate));
  }
}

Span span_of(const Dimension& dimension, double s, const Lettering& letters) {
  const bool upright = is_upright(dimension);
  const bool flipped =
      upright ? dimension.to.y < dimension.from.y : dimension.to.x < dimension.from.x;
  const Point from = flipped ? dimension.to : dimension.from;
  const Point to = flipped ? dimension.from : dimension.to;
  const std::optional<Rect>& from_of = flipped ? dimension.to_of : dimension.from_of;
  const std::optional<Rect>& to_of = flipped ? dimension.from_of : dimension.to_of;
  const double width = width_mm(shaped(letters, dimension.words, false));
  const double height = letters.above + letters.below;
  Span span;
  span.upright = upright;
  span.u0 = in_mm(upright ? from.y : from.x) * s;
  span.u1 = in_mm(upright ? to.y : to.x) * s;
  span.v0 = in_mm(upright ? from.x : from.y) * s;
  span.v1 = in_mm(upright ? to.x : to.y) * s;
  const auto low_of = [&](const std::optional<Rect>& of, double v) {
    return of ? in_mm(upright ? of->left() : of->top()) * s : v;
  };
  const auto high_of = [&](const std::optional<Rect>& of, double v) {
    return of ? in_mm(upright ? of->right() : of->bottom()) * s : v;
  };
  span.low0 = low_of(from_of, span.v0);
  span.high0 = high_of(from_of, span.v0);
  span.low1 = low_of(to_of, span.v1);
  span.high1 = high_of(to_of, span.v1);
  span.text_u = upright ? height : width;
  span.text_v = upright ? width : height;
  return span;
}

} // namespace

double widest_upright_dimension(const std::vector<Dimension>& dimensions,
                                const Lettering& letters) {
  constexpr double most = 7.0; // longer words stand beside their line
  double widest = 0;
  for (const Dimension& dimension : dimensions) {
    if (!is_upright(dimension)) continue;
    const double width = width_mm(shaped(letters, dimension.words, false));
    if (width <= most) widest = std::max(widest, width);
  }
  return widest;
}

std::vector<Candidate> dimension_candidates(const Dimension& dimension, const LabelArea& ground,
                                            const Lettering& letters, double column) {
  std::vector<Candidate> found;
  const bool upright = is_upright(dimension);
  const Span span = span_of(dimension, ground.scale, letters);
  const Draughtsman draughtsman(span, letters);

  const double low = upright ? ground.object.left : ground.object.top;
  const double high = upright ? ground.object.right : ground.object.bottom;
  const double thick = upright ? column : span.text_v;
  const double first = upright ? std::max(nearest, column / 2 + 1.0) : nearest + thick / 2 - 0.8;
  const auto tiers_on = [&](double out, double side_cost) {
    const double edge = out < 0 ? low : high;
    // Length of extension lines over the object.
    const double over = out < 0 ? std::abs(edge - span.low0) + std::abs(edge - span.low1)
                                : std::abs(edge - span.high0) + std::abs(edge - span.high1);
    for (int tier = 0; tier < tiers; ++tier) {
      const double v = edge + out * (first + (thick + 1.5) * tier);
      draughtsman.offer(v, out, side_cost + 0.75 * tier + 0.03 * over, found);
    }
  };
  using enum Dimension::Side;
  const Side before = upright ? Left : Above;
  const Side after = upright ? Right : Below;
  const bool either = dimension.side != before && dimension.side != after;
  if (either || dimension.side == before) tiers_on(-1.0, 0.0);
  if (either || dimension.side == after) tiers_on(1.0, either ? 0.35 : 0.0);
  if (!either) { // the other side, when there is no other way
    if (dimension.side == before)
      tiers_on(1.0, 9.0);
    else
      tiers_on(-1.0, 9.0);
  }
  std::erase_if(found,
                [&](const Candidate& candidate) { return text_meets_solid(candidate, ground); });

  if (dimension.gap) add_in_gap(found, draughtsman, span, ground);
  return found;
}

} // namespace leafwright::figure
