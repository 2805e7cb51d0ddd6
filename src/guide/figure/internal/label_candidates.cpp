#include "guide/figure/internal/label_layout.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace leafwright::figure {

namespace {

bool off_the_object(const Candidate& candidate, const LabelArea& ground) {
  return std::none_of(candidate.boxes.begin(), candidate.boxes.end(),
                      [&](const Box& box) { return meets_any(box, ground.solid); });
}

bool in_room(const Candidate& candidate, const LabelArea& ground) {
  if (!ground.room) return true;
  for (const Box& box : candidate.boxes)
    if (!inside(box, *ground.room)) return false;
  for (const LabelStroke& line : candidate.lines)
    if (!inside({std::min(line.x0, line.x1), std::min(line.y0, line.y1), std::max(line.x0, line.x1),
                 std::max(line.y0, line.y1)},
                *ground.room))
      return false;
  return true;
}

struct Block { // of set lines
  std::vector<double> widths;
  double indent = 0; // room of the badge before them, itself `badge` wide
  double badge = 0;
  double width = 0, height = 0;
};
constexpr double after_badge = 0.9;

Block block_of(const Label& label, const Lettering& letters) {
  Block block;
  for (std::size_t i = 0; i < label.lines.size(); ++i) {
    block.widths.push_back(
        width_mm(shaped(letters, label.lines.at(i), i == 0 && label.lines.size() > 1)));
    block.width = std::max(block.width, block.widths.back());
  }
  const double lines = block.widths.empty() ? 0.0 : static_cast<double>(block.widths.size() - 1);
  block.height = letters.above + letters.below + letters.leading * lines;
  if (!label.letter.empty()) {
    block.badge = letter_width(label.letter, letters);
    block.indent = block.badge + (block.widths.empty() ? 0.0 : after_badge);
    block.height = std::max(block.height, in_mm(letters.badge));
    block.width += block.indent;
  }
  return block;
}

enum class Align { Left, Centre, Right };

// From the top of the block to its first baseline: a lone line stands level with its badge.
double first_baseline(const Block& block, const Lettering& letters) {
  const double lines = block.widths.empty() ? 0.0 : static_cast<double>(block.widths.size() - 1);
  const double text = letters.above + letters.below + letters.leading * lines;
  return (block.height - text) / 2 + letters.above;
}

double badge_level(const Block& block, const Lettering& letters) {
  const double r = in_mm(letters.badge) / 2;
  const double beside_line = first_baseline(block, letters) - letters.above * 0.42;
  return std::max(beside_line, r);
}

// The lines of a block whose box has its top left corner at (x, y).
Candidate upright(const Block& block, double x, double y, Align align, const Lettering& letters) {
  Candidate candidate;
  candidate.boxes.push_back(grown(Box{x, y, x + block.width, y + block.height}, 0.45));
  candidate.badge_x = x + block.badge / 2;
  candidate.badge_y = y + badge_level(block, letters);
  if (block.indent > 0) align = Align::Left;
  for (std::size_t i = 0; i < block.widths.size(); ++i) {
    const double room = block.width - block.indent - block.widths.at(i);
    const double shift = align == Align::Left ? 0.0 : align == Align::Centre ? room / 2 : room;
    candidate.texts.push_back(
        {i, x + block.indent + shift,
         y + first_baseline(block, letters) + letters.leading * static_cast<double>(i), false});
  }
  return candidate;
}

// The same turned to read upwards; (x, y) is the top left corner of the turned box.
Candidate upwards(const Block& block, double x, double y, const Lettering& letters) {
  Candidate candidate;
  candidate.boxes.push_back(grown(Box{x, y, x + block.height, y + block.width}, 0.45));
  const double start = y + block.width;
  candidate.badge_x = x + badge_level(block, letters);
  candidate.badge_y = start - in_mm(letters.badge) / 2;
  for (std::size_t i = 0; i < block.widths.size(); ++i) {
    const double room = block.width - block.indent - block.widths.at(i);
    candidate.texts.push_back(
        {i, x + first_baseline(block, letters) + letters.leading * static_cast<double>(i),
         start - block.indent - (block.indent > 0 ? 0.0 : room / 2), true});
  }
  return candidate;
}

void add_inside(std::vector<Candidate>& into, const Label& label, const Block& block,
                const LabelArea& ground, const Lettering& letters) {
  const Box within = grown(at_scale(label.within, ground.scale), -0.7);
  const auto offer = [&](bool turned) {
    const double w = turned ? block.height : block.width;
    const double h = turned ? block.width : block.height;
    const double free_x = within.width() - w;
    const double free_y = within.height() - h;
    if (free_x < 0 || free_y < 0) return;
    const auto put = [&](double x, double y, double cost) {
      Candidate candidate =
          turned ? upwards(block, x, y, letters) : upright(block, x, y, Align::Centre, letters);
      if (meets_any(candidate.boxes.front(), ground.keep_clear)) return;
      candidate.cost = cost;
      candidate.plate = label.plate;
      into.push_back(std::move(candidate));
    };
    if (label.beside &&
        !label.anchors.empty()) { // on each side of the point, on each side of it, near first
      const double ax = in_mm(label.anchors.front().x) * ground.scale;
      const double ay = in_mm(label.anchors.front().y) * ground.scale;
      constexpr double gap = 1.1;
      for (const double away : {0.0, 1.0, 2.5, 5.0})
        for (const double slide : {0.5, 0.0, 1.0}) {
          const double x = std::clamp(ax - w * slide, within.left, within.left + free_x);
          const double y = std::clamp(ay - h * slide, within.top, within.top + free_y);
          const double cost = (turned ? 0.6 : 0.0) + away * 0.3 + std::abs(slide - 0.5) * 0.2;
          if (ay - h - gap - away >= within.top) put(x, ay - h - gap - away, cost);
          if (ay + gap + away + h <= within.bottom) put(x, ay + gap + away, cost + 0.05);
          if (ax + gap + away + w <= within.right) put(ax + gap + away, y, cost + 0.1);
          if (ax - w - gap - away >= within.left) put(ax - w - gap - away, y, cost + 0.15);
        }
      return;
    }
    constexpr std::array<double, 7> shares{0.5, 0.35, 0.65, 0.2, 0.8, 0.06, 0.94};
    for (const double v : shares)
      for (const double u : shares)
        put(within.left + free_x * u, within.top + free_y * v,
            (turned ? 2.5 : 0.0) + std::abs(u - 0.5) * std::min(free_x, 20.0) * 0.12 +
                std::abs(v - 0.5) * std::min(free_y, 20.0) * 0.10);
  };
  offer(false);
  offer(true);
}

// Where the leader line may end: the wished point, else the middle and points towards the edges.
std::vector<std::pair<double, double>> anchors(const Label& label, double scale) {
  std::vector<std::pair<double, double>> points;
  for (const Point& anchor : label.anchors)
    points.emplace_back(in_mm(anchor.x) * scale, in_mm(anchor.y) * scale);
  if (!points.empty()) return points;
  const Box within = at_scale(label.within, scale);
  constexpr std::array<std::pair<double, double>, 5> shares{
      {{0.5, 0.5}, {0.88, 0.5}, {0.12, 0.5}, {0.5, 0.85}, {0.5, 0.15}}};
  for (const auto& [u, v] : shares)
    points.emplace_back(within.left + within.width() * u, within.top + within.height() * v);
  return points;
}

// Where a leader line meets a block set beside the object, from its top.
double badge_or_line(const Label& label, const Block& block, const Lettering& letters) {
  return label.letter.empty() ? first_baseline(block, letters) - letters.above * 0.42
                              : badge_level(block, letters);
}

void add_outside(std::vector<Candidate>& into, const Label& label, const Block& block,
                 const LabelArea& ground, const Lettering& letters) {
  constexpr double off = 3.0; // from the object
  const Box& object = ground.object;
  const double outside_cost = label.outside ? 0.0 : 5.0;
  const auto offer = [&](double x, double y, Align align, double end_x, double end_y,
                         double anchor_x, double anchor_y, double extra) {
    Candidate candidate = upright(block, x, y, align, letters);
    if (!off_the_object(candidate, ground)) return;
    const LabelStroke leader{LabelStroke::Kind::Leader, anchor_x, anchor_y, end_x, end_y};
    candidate.lines.push_back(leader);
    candidate.leader = true;
    candidate.dot_x = anchor_x;
    candidate.dot_y = anchor_y;
    candidate.cost = outside_cost + extra + 0.06 * std::hypot(end_x - anchor_x, end_y - anchor_y) +
                     0.02 * std::min(std::abs(end_y - anchor_y), std::abs(end_x - anchor_x));
    into.push_back(std::move(candidate));
  };
  const double step = std::max(block.height * 0.6, 2.2);
  const double half_line = badge_or_line(label, block, letters);
  for (const auto& [ax, ay] : anchors(label, ground.scale)) {
    for (int k = -7; k <= 7; ++k) {
      const double y = ay - half_line + step * k;
      const double end_y = y + half_line;
      for (int ring = 0; ring < 2; ++ring) {
        const double away = off + ring * (block.width + 4.0);
        const double extra = ring * 2.0;
        offer(object.right + away, y, Align::Left, object.right + away - 0.8, end_y, ax, ay, extra);
        offer(object.left - away - block.width, y, Align::Right, object.left - away + 0.8, end_y,
              ax, ay, extra + 0.6);
      }
    }
    const double across = std::max(block.width * 0.5, 3.0);
    for (int k = -3; k <= 3; ++k)
      for (int ring = 0; ring < 2; ++ring) {
        const double x = ax - block.width / 2 + across * k;
        const double middle = x + block.width / 2;
        const double away = off - 0.6 + ring * (block.height + 1.4);
        offer(x, object.bottom + away, Align::Centre, middle, object.bottom + away - 0.5, ax, ay,
              0.9);
        offer(x, object.top - away - block.height, Align::Centre, middle, object.top - away + 0.5,
              ax, ay, 0.9);
      }
  }
}

// The words inside; or, dearer, the letter alone; or that beside the object.
std::vector<Candidate> brief_candidates(const Label& label, const Block& whole,
                                        const LabelArea& ground, const Lettering& letters) {
  std::vector<Candidate> found;
  add_inside(found, label, whole, ground, letters);
  if (label.letter.empty()) return found;
  Label alone = label;
  alone.lines.clear();
  alone.plate = false;
  const Block block = block_of(alone, letters);
  const std::size_t first = found.size();
  add_inside(found, alone, block, ground, letters);
  constexpr std::size_t choice_enough = 8;
  if (found.size() < choice_enough) add_outside(found, alone, block, ground, letters);
  for (std::size_t i = first; i < found.size(); ++i) found[i].cost += 4.0;
  return found;
}

} // namespace

Box at_scale(Rect rect, double scale) {
  return {in_mm(rect.left()) * scale, in_mm(rect.top()) * scale, in_mm(rect.right()) * scale,
          in_mm(rect.bottom()) * scale};
}

bool meets_any(const Box& box, const std::vector<Box>& others) {
  return std::any_of(others.begin(), others.end(),
                     [&](const Box& other) { return overlap(box, other); });
}

LabelArea ground_of(const Scene& scene, double scale) {
  LabelArea ground;
  ground.scale = scale;
  ground.object = at_scale(scene.box, scale);
  if (scene.solid.empty()) ground.solid.push_back(ground.object);
  for (const Rect& rect : scene.solid) ground.solid.push_back(at_scale(rect, scale));
  for (const Rect& rect : scene.keep_clear) ground.keep_clear.push_back(at_scale(rect, scale));
  return ground;
}

std::vector<LabelRequest> wishes(const Scene& scene, const LabelArea& ground,
                                 const Lettering& letters) {
  std::vector<LabelRequest> all;
  for (std::size_t i = 0; i < scene.badges.size(); ++i)
    all.push_back(
        {badge_candidates(scene.badges.at(i), ground, letters), -1, LabelRequest::Kind::Badge, i});
  const Lettering measures = dimension_lettering(letters);
  const double column = widest_upright_dimension(scene.dimensions, measures);
  for (std::size_t i = 0; i < scene.dimensions.size(); ++i)
    all.push_back({dimension_candidates(scene.dimensions.at(i), ground, measures, column),
                   scene.dimensions.at(i).rank, LabelRequest::Kind::Dimension, i});
  for (std::size_t i = 0; i < scene.labels.size(); ++i) {
    const Label& label = scene.labels.at(i);
    const Block block = block_of(label, letters);
    LabelRequest wish{{}, label.rank, LabelRequest::Kind::Label, i};
    if (label.brief) {
      wish.candidates = brief_candidates(label, block, ground, letters);
      if (!label.letter.empty() || !wish.candidates.empty()) all.push_back(std::move(wish));
      continue;
    }
    if (!label.outside) add_inside(wish.candidates, label, block, ground, letters);
    constexpr std::size_t choice_enough = 24;
    if (!ground.inside_first || wish.candidates.size() < choice_enough)
      add_outside(wish.candidates, label, block, ground, letters);
    all.push_back(std::move(wish));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const LabelRequest& a, const LabelRequest& b) { return a.rank < b.rank; });
  // What stands out beyond the object makes the figure larger, or the object smaller in its room.
  const Box& object = ground.object;
  for (LabelRequest& wish : all)
    for (Candidate& candidate : wish.candidates)
      for (const Box& box : candidate.boxes) {
        const double x =
            std::max(object.left - box.left, 0.0) + std::max(box.right - object.right, 0.0);
        const double y =
            std::max(object.top - box.top, 0.0) + std::max(box.bottom - object.bottom, 0.0);
        candidate.cost += 0.11 * x + 0.07 * y;
      }
  for (LabelRequest& wish : all)
    std::erase_if(wish.candidates,
                  [&](const Candidate& candidate) { return !in_room(candidate, ground); });
  return all;
}

} // namespace leafwright::figure
