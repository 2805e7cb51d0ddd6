#include "guide/figure/internal/label_layout.h"

#include <algorithm>
#include <cmath>

namespace leafwright::figure {

namespace {

class BadgePlaces {
 public:
  BadgePlaces(const Badge& badge, const LabelArea& ground, const Lettering& letters)
      : ground_(ground), within_(at_scale(badge.within, ground.scale)),
        wish_x_(in_mm(badge.at.x) * ground.scale), wish_y_(in_mm(badge.at.y) * ground.scale) {
    const bool number = badge.kind == Badge::Kind::Number;
    r_ = in_mm(letters.badge) / 2 * (number ? number_height : 1.0);
    half_ = letter_width(badge.letter, letters, number) / 2;
  }

  void add_inside() {
    const Box free{within_.left + half_ + 0.5, within_.top + r_ + 0.5, within_.right - half_ - 0.5,
                   within_.bottom - r_ - 0.5};
    if (free.width() < 0 || free.height() < 0) return;
    offer(std::clamp(wish_x_, free.left, free.right), std::clamp(wish_y_, free.top, free.bottom),
          0);
    for (int i = 0; i <= 6; ++i)
      for (int j = 0; j <= 6; ++j) {
        const double x = free.left + free.width() * i / 6.0;
        const double y = free.top + free.height() * j / 6.0;
        offer(x, y, 0.2 + 0.08 * from_wish(x, y));
      }
  }

  // Beside the thing, close enough to need no leader line.
  void add_beside() {
    const Box ring{within_.left - half_ - 0.7, within_.top - r_ - 0.7, within_.right + half_ + 0.7,
                   within_.bottom + r_ + 0.7};
    for (const double share : {0.15, 0.5, 0.85}) {
      const double x = ring.left + ring.width() * share;
      const double y = ring.top + ring.height() * share;
      offer(x, ring.top, 2.4);
      offer(ring.left, y, 2.4);
      offer(ring.right, y, 2.5);
      offer(x, ring.bottom, 2.5);
    }
  }

  // Too small a thing: the dot may stand over its edge.
  void add_over_edge() {
    const auto near_wish = [&](double x, double y) { offer(x, y, 1.8 + 0.03 * from_wish(x, y)); };
    for (int i = 0; i <= 8; ++i) {
      near_wish(within_.left + within_.width() * i / 8.0, mid_y());
      near_wish(mid_x(), within_.top + within_.height() * i / 8.0);
    }
  }

  // Beside the object with a leader line.
  void add_with_leader() {
    const std::size_t first = found_.size();
    for (int k = -6; k <= 6; ++k) {
      const double y = mid_y() + k * (r_ + 0.4);
      offer(ground_.object.right + 3 + half_, y, 5 + 0.2 * std::abs(k));
      offer(ground_.object.left - 3 - half_, y, 5.2 + 0.2 * std::abs(k));
      const double x = mid_x() + k * (half_ + 0.4);
      offer(x, ground_.object.top - 3 - r_, 5 + 0.2 * std::abs(k));
      offer(x, ground_.object.bottom + 3 + r_, 5.2 + 0.2 * std::abs(k));
    }
    for (std::size_t i = first; i < found_.size(); ++i) {
      Candidate& candidate = found_.at(i);
      const double dx = mid_x() - candidate.dot_x;
      const double dy = mid_y() - candidate.dot_y;
      const double far = std::hypot(dx, dy);
      if (far <= r_ + 0.2) continue;
      candidate.lines.push_back({LabelStroke::Kind::Leader, candidate.dot_x + dx / far * (r_ + 0.2),
                                 candidate.dot_y + dy / far * (r_ + 0.2), mid_x(), mid_y()});
    }
  }

  std::vector<Candidate>& found() { return found_; }

 private:
  double mid_x() const { return (within_.left + within_.right) / 2; }
  double mid_y() const { return (within_.top + within_.bottom) / 2; }
  double from_wish(double x, double y) const { return std::hypot(x - wish_x_, y - wish_y_); }

  void offer(double x, double y, double cost) {
    Candidate candidate;
    candidate.boxes.push_back({x - half_ - 0.15, y - r_ - 0.15, x + half_ + 0.15, y + r_ + 0.15});
    candidate.dot_x = x;
    candidate.dot_y = y;
    candidate.cost = cost;
    if (!meets_any(candidate.boxes.front(), ground_.keep_clear)) found_.push_back(candidate);
  }

  const LabelArea& ground_;
  Box within_;
  double wish_x_, wish_y_;
  double r_ = 0, half_ = 0; // half of the dot's height and of its width
  std::vector<Candidate> found_;
};

} // namespace

std::vector<Candidate> badge_candidates(const Badge& badge, const LabelArea& ground,
                                        const Lettering& letters) {
  BadgePlaces places(badge, ground, letters);
  places.add_inside();
  if (badge.kind == Badge::Kind::Letter) places.add_beside();
  const bool close =
      std::ranges::any_of(places.found(), [](const Candidate& one) { return one.cost < 2.4; });
  if (!close) places.add_over_edge();
  places.add_with_leader();
  return std::move(places.found());
}

} // namespace leafwright::figure
