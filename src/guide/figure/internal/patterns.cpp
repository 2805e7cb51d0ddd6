#include "guide/figure/paint.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

// Patterned papers. Figures are laid from the middle of a piece outwards, so that a piece looks the
// same on the card, on its sheet and in the list. Dots are strokes without length with round caps:
// a sheet of them costs next to nothing in a document.

namespace leafwright::figure {

namespace {

constexpr double most_figures = 3000; // on one piece: beyond it the figures are set wider

// Figures must be told from their ground on a grey printer too.
Colour readable_figure(const Stock& stock) {
  const double ground = luminance(stock.colour);
  const double difference = ground - luminance(stock.figure);
  if (std::abs(difference) >= 0.10) return stock.figure;
  return ground > 0.35 ? mixed(stock.figure, {30, 30, 30}, 0.25)
                       : mixed(stock.figure, {255, 255, 255}, 0.35);
}

class PatternPen {
 public:
  PatternPen(Items& into, const Stock& stock, const Frame& frame, Rect area)
      : into_(into), frame_(frame), area_(area), figure_(readable_figure(stock)),
        second_(mixed(figure_, stock.colour, 0.45)) {
    const double wide = static_cast<double>(area.size.width.nm);
    const double high = static_cast<double>(area.size.height.nm);
    step_ = std::max(static_cast<double>(stock.repeat.nm), 400'000.0);
    step_ = std::max(step_, std::sqrt(2.0 * wide * high / most_figures));
    half_x_ = wide / 2;
    half_y_ = high / 2;
  }

  void dots() {
    Path large;
    Path small;
    lattice(step_, step_ / 2, [&](double x, double y, int, int row) {
      append_dot(row % 2 == 0 ? large : small, at(x, y));
    });
    stroke(large, figure_, step_ * 0.30, Stroke::Cap::Round);
    stroke(small, second_, step_ * 0.20, Stroke::Cap::Round);
  }

  void stripes() {
    Path wide;
    Path narrow;
    columns(step_, [&](double x) {
      append(wide, line(x, -half_y_, x, half_y_));
      append(narrow, line(x + step_ / 2, -half_y_, x + step_ / 2, half_y_));
    });
    stroke(wide, figure_, step_ * 0.42, Stroke::Cap::Butt);
    stroke(narrow, second_, step_ * 0.07, Stroke::Cap::Butt);
  }

  void checks() {
    Path upright;
    Path level;
    columns(step_, [&](double x) { append(upright, line(x, -half_y_, x, half_y_)); });
    rows(step_, [&](double y) { append(level, line(-half_x_, y, half_x_, y)); });
    real_stroke(into_, upright, figure_, from_nm(step_ * 0.5), 0.5);
    real_stroke(into_, level, figure_, from_nm(step_ * 0.5), 0.5);
  }

  void leaves() {
    Path leaves;
    Path ribs;
    lattice(step_, step_ * 0.6, [&](double x, double y, int column, int row) {
      const double slant = (row + column) % 2 == 0 ? 0.65 : -0.65;
      const double lx = std::sin(slant) * step_ * 0.30;
      const double ly = -std::cos(slant) * step_ * 0.30;
      const double wx = -ly * 0.62; // half the width, across
      const double wy = lx * 0.62;
      using Kind = Segment::Kind;
      const Point foot = at(x - lx, y - ly);
      const Point tip = at(x + lx, y + ly);
      leaves.push_back({Kind::Move, {}, {}, foot});
      leaves.push_back({Kind::Curve, at(x - lx * 0.3 + wx, y - ly * 0.3 + wy),
                        at(x + lx * 0.5 + wx, y + ly * 0.5 + wy), tip});
      leaves.push_back({Kind::Curve, at(x + lx * 0.5 - wx, y + ly * 0.5 - wy),
                        at(x - lx * 0.3 - wx, y - ly * 0.3 - wy), foot});
      leaves.push_back({Kind::Close, {}, {}, {}});
      append(ribs, line(x - lx * 1.5, y - ly * 1.5, x + lx * 0.5, y + ly * 0.5));
    });
    fill(into_, std::move(leaves), figure_);
    stroke(ribs, second_, step_ * 0.035, Stroke::Cap::Round);
  }

  void waves() {
    Path waves;
    const double length = step_ * 1.6;
    const double height = step_ * 0.22;
    rows(step_ * 0.7, [&](double y) {
      const int count = static_cast<int>(std::ceil(half_x_ / length));
      waves.push_back({Segment::Kind::Move, {}, {}, at(-count * length, y)});
      for (int i = -count; i < count; ++i) { // one crest and one trough
        const double x = i * length;
        waves.push_back({Segment::Kind::Curve, at(x + length * 0.18, y - height * 1.6),
                         at(x + length * 0.32, y - height * 1.6), at(x + length / 2, y)});
        waves.push_back({Segment::Kind::Curve, at(x + length * 0.68, y + height * 1.6),
                         at(x + length * 0.82, y + height * 1.6), at(x + length, y)});
      }
    });
    stroke(waves, figure_, step_ * 0.10, Stroke::Cap::Round);
  }

  void speckle() {
    Path fine;
    Path coarse;
    std::uint64_t state = 0x9e3779b97f4a7c15U; // always the same: a paper looks alike everywhere
    const auto next = [&state] {               // xorshift64
      state ^= state << 13U;
      state ^= state >> 7U;
      state ^= state << 17U;
      return static_cast<double>(state >> 11U) / 9007199254740992.0 - 0.5;
    };
    lattice(step_, step_ * 0.5, [&](double x, double y, int, int row) {
      const double dx = next() * step_ * 0.9;
      const double dy = next() * step_ * 0.5;
      append_dot(row % 3 == 0 ? coarse : fine, at(x + dx, y + dy));
    });
    stroke(coarse, figure_, step_ * 0.15, Stroke::Cap::Round);
    stroke(fine, figure_, step_ * 0.08, Stroke::Cap::Round);
  }

  void hatch() {
    Path lines;
    const double far = half_x_ + half_y_;
    const double apart = step_ * 0.75;
    const int count = static_cast<int>(far / apart);
    for (int i = -count; i <= count; ++i)
      append(lines, line(i * apart - half_y_, half_y_, i * apart + half_y_, -half_y_));
    stroke(lines, figure_, step_ * 0.12, Stroke::Cap::Butt);
  }

  void blooms() {
    Path petals;
    Path hearts;
    lattice(step_, step_ * 0.6, [&](double x, double y, int column, int row) {
      const double turn = (row * 0.7 + column * 0.4);
      for (int petal = 0; petal < 5; ++petal) {
        const double a = turn + petal * 1.2566370614359172; // a fifth of a turn
        append_dot(petals, at(x + std::cos(a) * step_ * 0.13, y + std::sin(a) * step_ * 0.13));
      }
      append_dot(hearts, at(x, y));
    });
    stroke(petals, figure_, step_ * 0.17, Stroke::Cap::Round);
    stroke(hearts, mixed(figure_, {255, 252, 240}, 0.75), step_ * 0.11, Stroke::Cap::Round);
  }

 private:
  Point at(double x, double y) const {
    const Point local{from_nm(x + half_x_) + area_.left(), from_nm(y + half_y_) + area_.top()};
    return placed(frame_, local);
  }
  Path line(double x0, double y0, double x1, double y1) const {
    return segment(at(x0, y0), at(x1, y1));
  }
  void stroke(Path& path, Colour colour, double width, Stroke::Cap cap) {
    real_stroke(into_, std::move(path), colour, from_nm(width), 1.0, {}, cap);
  }

  // Calls with positions counted from the middle, odd rows shifted by half a step.
  template <class Call>
  void lattice(double across, double down, Call call) const {
    const int columns = static_cast<int>(half_x_ / across) + 1;
    const int rows = static_cast<int>(half_y_ / down) + 1;
    for (int row = -rows; row <= rows; ++row)
      for (int column = -columns; column <= columns; ++column)
        call((column + (row % 2 == 0 ? 0.0 : 0.5)) * across, row * down, column, std::abs(row));
  }
  template <class Call>
  void columns(double across, Call call) const {
    const int count = static_cast<int>(half_x_ / across) + 1;
    for (int i = -count; i <= count; ++i) call(i * across);
  }
  template <class Call>
  void rows(double down, Call call) const {
    const int count = static_cast<int>(half_y_ / down) + 1;
    for (int i = -count; i <= count; ++i) call(i * down);
  }

  Items& into_;
  const Frame& frame_;
  Rect area_;
  Colour figure_, second_;
  double step_ = 0, half_x_ = 0, half_y_ = 0;
};

} // namespace

void draw_pattern(Items& into, const Stock& stock, const Frame& frame, Rect area) {
  PatternPen pen(into, stock, frame, area);
  switch (stock.pattern) {
  case Stock::Pattern::Plain: return;
  case Stock::Pattern::Dots: return pen.dots();
  case Stock::Pattern::Stripes: return pen.stripes();
  case Stock::Pattern::Checks: return pen.checks();
  case Stock::Pattern::Leaves: return pen.leaves();
  case Stock::Pattern::Waves: return pen.waves();
  case Stock::Pattern::Speckle: return pen.speckle();
  case Stock::Pattern::Hatch: return pen.hatch();
  case Stock::Pattern::Blooms: return pen.blooms();
  }
}

} // namespace leafwright::figure
