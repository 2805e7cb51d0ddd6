#include "guide/figure/internal/tray_packing.h"

#include "guide/figure/frame.h"
#include "guide/figure/internal/painter.h"
#include "measure/index.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace leafwright::figure {

namespace {

constexpr double below_gap = 1.6;  // between a thing and the words below it
constexpr double beside_gap = 2.2; // and beside it
constexpr double badge_gap = 0.9;
constexpr double endless = 2000.0; // a room wider or higher than this has no edge to fill

// --- Rows
// -------------------------------------------------------------------------------------------------

// One row under a limit of height, while it is filled.
struct Row {
  std::vector<Spot> spots;
  double width = 0;                                // of all columns
  double left = 0, column = 0, down = 0, high = 0; // the last column; the highest of all
};

// Puts a thing below the others of the last column, or into a new one, whichever is narrower.
bool put_into(Row& row, const std::vector<Way>& ways, double limit) {
  double least = std::numeric_limits<double>::max();
  std::size_t best = 0;
  bool best_stacked = false;
  const bool empty = row.spots.empty();
  const double new_left = row.width + (empty ? 0.0 : thing_gap);
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const Way& way = ways.at(i);
    const auto offer = [&](bool stacked, double left, double column, double down) {
      const double cost = left + column + 0.02 * down;
      if (down > limit || cost >= least) return;
      least = cost;
      best = i;
      best_stacked = stacked;
    };
    offer(false, new_left, way.width, way.height);
    if (!empty)
      offer(true, row.left, std::max(row.column, way.width), row.down + thing_gap + way.height);
  }
  if (least == std::numeric_limits<double>::max()) return false;
  const Way& way = ways.at(best);
  if (!best_stacked) {
    row.left = new_left;
    row.column = 0;
  }
  const double top = best_stacked ? row.down + thing_gap : 0.0;
  row.spots.push_back({best, row.left, top});
  row.column = std::max(row.column, way.width);
  row.down = top + way.height;
  row.width = row.left + row.column;
  row.high = std::max(row.high, row.down);
  return true;
}

// Spreads the columns of a row over the width.
void spread(std::vector<Spot>& spots, std::size_t from, std::size_t to, double spare) {
  constexpr double most = 9.0; // added to one gap: beyond it the row would fall apart
  std::set<double> lefts;
  for (std::size_t i = from; i < to; ++i) lefts.insert(spots.at(i).x);
  if (lefts.size() < 2) return;
  const double more = std::min(spare / static_cast<double>(lefts.size() - 1), most);
  for (std::size_t i = from; i < to; ++i)
    spots.at(i).x +=
        more * static_cast<double>(std::distance(lefts.begin(), lefts.find(spots.at(i).x)));
}

} // namespace

Rows pack_rows(const std::vector<std::vector<Way>>& things, double width) {
  struct Best {
    double height = std::numeric_limits<double>::max();
    std::size_t from = 0;
    Row row;
  };
  std::set<double> limits;
  for (const auto& ways : things)
    for (const Way& way : ways) limits.insert(way.height);
  std::vector<Best> best(things.size() + 1); // of the first n things
  best.at(0).height = 0;
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (best.at(i).height == std::numeric_limits<double>::max()) continue;
    for (const double limit : limits) {
      Row row;
      for (std::size_t j = i; j < things.size(); ++j) {
        if (!put_into(row, things.at(j), limit) || row.width > width) break;
        const double height = best.at(i).height + (i > 0 ? thing_gap : 0.0) + row.high;
        if (height < best.at(j + 1).height - 1e-9) best.at(j + 1) = {height, i, row};
      }
    }
  }
  Rows rows;
  if (best.back().height == std::numeric_limits<double>::max()) return rows;
  rows.height = best.back().height;
  rows.spots.resize(things.size());
  for (std::size_t end = things.size(); end > 0;) {
    const Best& last = best.at(end);
    const double top = last.height - last.row.high;
    for (std::size_t i = last.from; i < end; ++i) {
      rows.spots.at(i) = last.row.spots.at(i - last.from);
      rows.spots.at(i).y += top;
    }
    if (width < endless) spread(rows.spots, last.from, end, width - last.row.width);
    end = last.from;
  }
  return rows;
}

// --- The ways of a thing
// ----------------------------------------------------------------------------------

namespace {

double words_width(const Lettering& letters, const Way::Line& line) {
  return width_mm(shaped(letters, line.words, line.bold));
}

// Broken at spaces so that no line is wider than `most`, where words allow.
std::vector<Way::Line> broken(const std::vector<std::string>& lines, double most,
                              const Lettering& letters) {
  std::vector<Way::Line> result;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    Way::Line line{{}, i == 0};
    std::string_view rest = lines.at(i);
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find(' '), rest.size());
      Way::Line longer{line.words + (line.words.empty() ? "" : " ") +
                           std::string(rest.substr(0, end)),
                       line.bold};
      if (!line.words.empty() && words_width(letters, longer) > most) {
        result.push_back(line);
        longer.words = rest.substr(0, end);
      }
      line = std::move(longer);
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    if (!line.words.empty()) result.push_back(std::move(line));
  }
  return result;
}

double words_indent(const LaidOut& thing, const Lettering& letters) {
  return thing.letter.empty() ? 0.0 : letter_width(thing.letter, letters) + badge_gap;
}

Way way_of(const LaidOut& thing, std::size_t lie, double scale, double bound, bool beside,
           const Lettering& letters) {
  Way way;
  way.lie = lie;
  way.scale = thing.own_scale.value_or(scale);
  const Size size = thing.lies.at(lie).box.size;
  const double wide = in_mm(size.width) * way.scale;
  const double high = in_mm(size.height) * way.scale;
  const double indent = words_indent(thing, letters);
  way.lines = broken(thing.lines, std::max(bound - indent, 1.0), letters);
  double text = 0;
  for (const Way::Line& line : way.lines) text = std::max(text, words_width(letters, line));
  way.words_width = indent + text;
  const double more = way.lines.empty() ? 0.0 : static_cast<double>(way.lines.size() - 1);
  way.words_height = letters.above + letters.below + letters.leading * more;
  if (!thing.letter.empty()) way.words_height = std::max(way.words_height, in_mm(letters.badge));
  if (beside) {
    way.words_x = wide + beside_gap;
    way.width = way.words_x + way.words_width;
    way.height = std::max(high, way.words_height);
    if (thing.own_scale) way.words_y = std::max((high - way.words_height) / 2, 0.0);
  } else {
    way.words_y = high + below_gap;
    way.width = std::max(wide, way.words_width);
    way.height = way.words_y + way.words_height;
  }
  return way;
}

std::vector<Way> ways_of(const LaidOut& thing, double scale, const Lettering& letters) {
  std::vector<Way> ways;
  for (std::size_t lie = 0; lie < thing.lies.size(); ++lie) {
    const double wide = in_mm(thing.lies.at(lie).box.size.width) * thing.own_scale.value_or(scale);
    for (const double bound : {21.0, 27.0, 36.0})
      ways.push_back(way_of(thing, lie, scale, bound, true, letters));
    if (!thing.own_scale)
      for (const double bound : {21.0, 27.0})
        ways.push_back(way_of(thing, lie, scale, std::max(wide, bound), false, letters));
  }
  return ways;
}

std::vector<std::vector<Way>> all_ways(const Scene& scene, double scale, const Lettering& letters) {
  std::vector<std::vector<Way>> all;
  all.reserve(scene.laid_out.size());
  for (const LaidOut& thing : scene.laid_out) all.push_back(ways_of(thing, scale, letters));
  return all;
}

Box inner_room(const Scene& scene, Size room) {
  const double margin = scene.backdrop ? ground_margin + 1.0 : 0.0;
  return {margin, margin, in_mm(room.width) - margin, in_mm(room.height) - margin};
}

// --- Drawing
// ----------------------------------------------------------------------------------------------

void draw_words(const LaidOut& thing, const Way& way, Point corner, const Look& look,
                const Lettering& letters, Composed& composed) {
  const auto at = [&](double x, double y) {
    return corner + Point{from_nm(x * 1e6), from_nm(y * 1e6)};
  };
  const double radius = in_mm(letters.badge) / 2;
  const double first = thing.letter.empty() ? letters.above : radius + letters.above * 0.46;
  const double indent = words_indent(thing, letters);
  if (!thing.letter.empty())
    draw_letter(thing.letter, at((indent - badge_gap) / 2, radius), look, letters,
                composed.drawing);
  for (std::size_t i = 0; i < way.lines.size(); ++i) {
    const Way::Line& line = way.lines.at(i);
    composed.drawing.items.emplace_back(
        TextRun{shaped(letters, line.words, line.bold),
                at(indent, first + letters.leading * static_cast<double>(i)),
                look.ink,
                {},
                {}});
  }
  composed.label_boxes.push_back(
      {corner, {from_nm(way.words_width * 1e6), from_nm(way.words_height * 1e6)}});
}

} // namespace

double packing_scale(const Scene& scene, Size room, const Look& look, const text::Fonts& fonts) {
  const Lettering letters = lettering(look, fonts);
  const Box inner = inner_room(scene, room);
  // Halving: what fits at one scale fits, but for a rare break, at each smaller one.
  int fits = 4; // percent
  int least_not = static_cast<int>(std::lround(scene.largest_scale * 100)) + 1;
  while (least_not - fits > 1) {
    const int middle = (fits + least_not) / 2;
    const Rows rows = pack_rows(all_ways(scene, middle / 100.0, letters), inner.width());
    const bool holds = !rows.spots.empty() && rows.height <= inner.height();
    (holds ? fits : least_not) = middle;
  }
  return fits / 100.0;
}

Composed compose_packed(const Scene& scene, Size room, double scale, const Look& look,
                        const text::Fonts& fonts) {
  if (scale <= 0) scale = packing_scale(scene, room, look, fonts);
  const Lettering letters = lettering(look, fonts);
  const Box inner = inner_room(scene, room);
  const std::vector<std::vector<Way>> ways = all_ways(scene, scale, letters);
  const Rows rows = pack_rows(ways, inner.width());
  Composed composed;
  composed.scale = scale;
  composed.crowded = rows.spots.empty() || rows.height > inner.height() + 0.01;
  if (rows.spots.empty()) return composed;
  double right = inner.width() < endless ? inner.right : 0.0;
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const Spot& spot = rows.spots.at(i);
    right = std::max(right, inner.left + spot.x + ways.at(i).at(spot.way).width);
  }
  composed.drawing.size = {from_nm((right + inner.left) * 1e6),
                           from_nm((rows.height + 2 * inner.top) * 1e6)};
  if (scene.backdrop)
    composed.drawing.items.emplace_back(
        Fill{rectangle({{}, composed.drawing.size}), look.ground, 1.0});
  for (std::size_t i = 0; i < ways.size(); ++i) {
    const LaidOut& thing = scene.laid_out.at(i);
    const Spot& spot = rows.spots.at(i);
    const Way& way = ways.at(i).at(spot.way);
    const LaidOut::Lie& lie = thing.lies.at(way.lie);
    const Point corner{from_nm((inner.left + spot.x) * 1e6), from_nm((inner.top + spot.y) * 1e6)};
    const auto back = [&](Length a) { return from_nm(-static_cast<double>(a.nm) * way.scale); };
    Painter painter(composed.drawing, way.scale,
                    corner + Point{back(lie.box.left()), back(lie.box.top())}, fonts);
    for (const SceneItem& item : lie.items) painter.paint(item);
    draw_words(thing, way, corner + Point{from_nm(way.words_x * 1e6), from_nm(way.words_y * 1e6)},
               look, letters, composed);
  }
  return composed;
}

} // namespace leafwright::figure
