#include "guide/figure/internal/label_layout.h"

#include "guide/figure/frame.h"

#include <cmath>

namespace leafwright::figure {

namespace {

Path pill_at(Point centre, Size size) {
  return rounded({{centre.x - size.width / 2, centre.y - size.height / 2}, size}, size.height / 2);
}

void set_in_middle(const std::string& words, Point centre, Colour colour, const Lettering& letters,
                   Drawing& into) {
  const int face = letters.fonts->face(text::Role::TextBold);
  const Length size = badge_text(letters);
  text::Shaped shaped = letters.fonts->shape(face, size, words);
  const double cap = letters.fonts->metrics(face).cap_height / 1000.0;
  const Point start{centre.x - shaped.width / 2,
                    centre.y + from_nm(static_cast<double>(size.nm) * cap / 2)};
  into.items.emplace_back(TextRun{std::move(shaped), start, colour, {}, {}});
}

class LabelPen {
 public:
  LabelPen(Point shift, const Look& look, Composed& composed)
      : shift_(shift), look_(look), composed_(composed) {}

  Point at(double x, double y) const { return Point{from_nm(x * 1e6), from_nm(y * 1e6)} + shift_; }
  Rect at(const Box& box) const {
    return {at(box.left, box.top), {from_nm(box.width() * 1e6), from_nm(box.height() * 1e6)}};
  }

  void line(const LabelStroke& stretch, int label) {
    const Path path = segment(at(stretch.x0, stretch.y0), at(stretch.x1, stretch.y1));
    using Kind = LabelStroke::Kind;
    LabelLine listed{LabelLine::Kind::Dimension, path.front().end, path.back().end, label};
    if (stretch.kind == Kind::Extension) {
      listed.kind = LabelLine::Kind::Extension;
      stroke(path, look_.quiet, points(0.3), 0.8);
    } else {
      if (stretch.kind == Kind::Leader) {
        listed.kind = LabelLine::Kind::Leader;
        stroke(path, look_.paper, points(1.3), 0.55); // lifts it off what it crosses
      }
      stroke(path, look_.ink, points(0.4), 0.9);
    }
    composed_.label_lines.push_back(listed);
  }

  void tip(const Candidate::Tip& tip) {
    if (tip.tick) { // rises to the right at either end, whichever way the line runs
      constexpr double half = 0.5;
      stroke(segment(at(tip.x - half, tip.y + half), at(tip.x + half, tip.y - half)), look_.ink,
             points(0.7), 1.0);
      return;
    }
    const double length = std::hypot(tip.dx, tip.dy);
    const double dx = tip.dx / length;
    const double dy = tip.dy / length;
    constexpr double long_side = 1.5;
    constexpr double half_width = 0.27;
    const double back_x = tip.x - dx * long_side;
    const double back_y = tip.y - dy * long_side;
    composed_.drawing.items.emplace_back(
        Fill{polyline({at(tip.x, tip.y), at(back_x - dy * half_width, back_y + dx * half_width),
                       at(back_x + dy * half_width, back_y - dx * half_width)},
                      true),
             look_.ink, 1.0});
  }

  void plate(const Box& box) {
    composed_.drawing.items.emplace_back(
        Fill{rounded(at(box), micrometres(500)), look_.paper, 0.9});
  }

  void stroke(Path path, Colour colour, Length width, double opacity) {
    composed_.drawing.items.emplace_back(Stroke{
        std::move(path), colour, width, {}, Stroke::Cap::Butt, Stroke::Join::Miter, opacity});
  }

  void words(text::Shaped shaped, double x, double y, bool upwards, Colour colour) {
    composed_.drawing.items.emplace_back(
        TextRun{std::move(shaped), at(x, y), colour, upwards ? degrees(-90) : Angle{}, {}});
  }

  // The number of a cut: a ring, so that nobody takes it for a piece.
  void number(const std::string& words, double x, double y, const Lettering& letters) {
    const Length high = from_nm(static_cast<double>(letters.badge.nm) * number_height);
    const Length wide = from_nm(letter_width(words, letters, true) * 1e6);
    const Point centre = at(x, y);
    const Path pill = pill_at(centre, {wide, high});
    composed_.drawing.items.emplace_back(Fill{pill, look_.paper, 1.0});
    stroke(pill, look_.ink, points(0.6), 1.0);
    set_in_middle(words, centre, look_.ink, letters, composed_.drawing);
  }

  void leader_end(double x, double y) {
    const Point centre = at(x, y);
    const auto disc = [&](Length r) {
      return oval({{centre.x - r, centre.y - r}, {r * 2, r * 2}});
    };
    composed_.drawing.items.emplace_back(Fill{disc(micrometres(620)), look_.paper, 0.9});
    composed_.drawing.items.emplace_back(Fill{disc(micrometres(420)), look_.ink, 1.0});
  }

 private:
  Point shift_;
  const Look& look_;
  Composed& composed_;
};

} // namespace

void draw_letter(const std::string& letter, Point centre, const Look& look,
                 const Lettering& letters, Drawing& into) {
  const Size size{from_nm(letter_width(letter, letters) * 1e6), letters.badge};
  const Length rim = micrometres(240);
  into.items.emplace_back(
      Fill{pill_at(centre, {size.width + rim, size.height + rim}), look.paper, 0.9});
  into.items.emplace_back(Fill{pill_at(centre, size), look.accent, 1.0});
  set_in_middle(letter, centre, Colour{255, 255, 255}, letters, into);
}

void draw_label(const Scene& scene, const LabelRequest& wish, const Candidate& candidate,
                Point shift, const Look& look, const Lettering& letters, Composed& composed) {
  LabelPen pen(shift, look, composed);
  const int label = static_cast<int>(composed.label_boxes.size()); // one box each
  for (const LabelStroke& line : candidate.lines) pen.line(line, label);
  for (const Candidate::Tip& tip : candidate.tips) pen.tip(tip);
  if (candidate.leader) pen.leader_end(candidate.dot_x, candidate.dot_y);
  for (const Box& box : candidate.boxes) {
    if (candidate.plate && !candidate.texts.empty()) pen.plate(box);
    composed.label_boxes.push_back(pen.at(box));
  }
  if (wish.kind == LabelRequest::Kind::Badge) {
    const Badge& badge = scene.badges.at(wish.index);
    if (badge.kind == Badge::Kind::Number)
      pen.number(badge.letter, candidate.dot_x, candidate.dot_y, letters);
    else
      draw_letter(badge.letter, pen.at(candidate.dot_x, candidate.dot_y), look, letters,
                  composed.drawing);
    return;
  }
  if (wish.kind == LabelRequest::Kind::Label && !scene.labels.at(wish.index).letter.empty())
    draw_letter(scene.labels.at(wish.index).letter, pen.at(candidate.badge_x, candidate.badge_y),
                look, letters, composed.drawing);
  for (const Candidate::Text& text : candidate.texts) {
    if (wish.kind == LabelRequest::Kind::Dimension) {
      pen.words(shaped(dimension_lettering(letters), scene.dimensions.at(wish.index).words, false),
                text.x, text.y, text.upwards, look.ink);
      continue;
    }
    const Label& words = scene.labels.at(wish.index);
    const bool bold = text.line == 0 && words.lines.size() > 1;
    pen.words(shaped(letters, words.lines.at(text.line), bold), text.x, text.y, text.upwards,
              candidate.leader && !bold && words.lines.size() > 1 ? look.quiet : look.ink);
  }
}

} // namespace leafwright::figure
