#include "guide/internal/prose/placement.h"

#include "guide/sections.h"
#include "language/words.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>

namespace leafwright::guide {
namespace {

enum class Edge { Left, Top, Right, Bottom };

// Some edges of a face are folds, and are found sooner when they are called so.
std::string_view fold_at(const Card& card, const Carrier& on, Edge edge) {
  if (on.kind != Carrier::Kind::Face || on.index < 0 ||
      as_index(on.index) >= card.plan.faces.size())
    return {};
  const std::string& face = card.plan.faces[as_index(on.index)].id;
  const Form::Kind form = card.form.kind;
  if (form == Form::Kind::TopFold || form == Form::Kind::Tent) {
    if (face == "inside" && edge == Edge::Top) return "the fold";
    if (face == "inside-top" && edge == Edge::Bottom) return "the fold";
  }
  if (form == Form::Kind::SideFold) {
    if (face == "inside" && edge == Edge::Left) return "the fold";
    if (face == "inside-left" && edge == Edge::Right) return "the fold";
  }
  return {};
}

std::string edge_words(const Where& where, Edge edge) {
  const std::string_view fold = fold_at(where.card, where.on, edge);
  if (!fold.empty()) return std::string(fold);
  std::string words = where.its ? "its " : "the ";
  switch (edge) {
  case Edge::Left: return words + "left edge";
  case Edge::Top: return words + "top edge";
  case Edge::Right: return words + "right edge";
  case Edge::Bottom: return words + "bottom edge";
  }
  return words + "edge";
}

std::string from_edge(const Where& where, Length gap, Edge edge) {
  const std::string name = edge_words(where, edge);
  if (alike(gap, {})) return "flush with " + name;
  const std::string length = length_text(absolute(gap), where.project.printing);
  if (gap < Length{}) return length + " over " + name;
  if (edge == Edge::Top) return length + " below " + name;
  if (edge == Edge::Bottom) return length + " above " + name;
  return length + " from " + name;
}

// How fine a ruler must be to read a length: the marks of an inch (1, 2, 4 ... 64) or of a
// millimetre (1, 2, 10) that it needs.
int fineness(Length length) {
  for (const int marks : {1, 2, 4, 8, 16, 32, 64})
    if (length.nm % (nm_per_inch / marks) == 0) return marks;
  for (const int marks : {1, 2, 10})
    if (length.nm % (nm_per_mm / marks) == 0) return marks;
  return 1000;
}

// Of two distances that place a thing alike, the one that is easier to measure: the shorter, unless
// the other is hardly longer and needs a coarser ruler.
bool easier(Length a, Length b) {
  constexpr Length hardly = millimetres(7);
  const int fine_a = fineness(a);
  const int fine_b = fineness(b);
  if (absolute(a - b) <= hardly && fine_a != fine_b) return fine_a < fine_b;
  return a < b;
}

bool all_nil(const Gaps& gaps) {
  return alike(gaps.left, {}) && alike(gaps.right, {}) && alike(gaps.top, {}) &&
         alike(gaps.bottom, {});
}

std::string shows_words(const Where& where, const Gaps& gaps, const std::string& shows,
                        bool round) {
  const Printing& how = where.project.printing;
  const std::string beside = length_text(gaps.left, how);
  if (alike(gaps.left, gaps.top))
    return fmt::format(", centred: {} of {} shows {}", beside, shows,
                       round ? "all round" : "on every side");
  if (alike(gaps.top, {}))
    return fmt::format(", from edge to edge downwards, with {} of {} showing left and right",
                       beside, shows);
  if (alike(gaps.left, {}))
    return fmt::format(", from edge to edge across, with {} of {} showing above and below",
                       length_text(gaps.top, how), shows);
  return fmt::format(", centred: {} of {} shows left and right, {} above and below", beside, shows,
                     length_text(gaps.top, how));
}

} // namespace

Gaps gaps_in(Size carrier, Point at, Size size, Angle turned) {
  const Size outer = turned.udeg == 0 ? size : turned_bounds(size, turned);
  const Length left = at.x - (outer.width - size.width) / 2;
  const Length top = at.y - (outer.height - size.height) / 2;
  return {left, top, carrier.width - left - outer.width, carrier.height - top - outer.height};
}

bool alike(Length a, Length b) { return absolute(a - b) <= micrometres(50); }

std::string down_words(const Where& where, const Gaps& gaps, const Position& position) {
  if (alike(gaps.top, gaps.bottom)) return "halfway down";
  const bool from_bottom =
      position.down == Position::Down::FromBottom ||
      (position.down == Position::Down::Centre && easier(gaps.bottom, gaps.top));
  return from_bottom ? from_edge(where, gaps.bottom, Edge::Bottom)
                     : from_edge(where, gaps.top, Edge::Top);
}

std::string across_words(const Where& where, const Gaps& gaps, const Position& position) {
  if (alike(gaps.left, gaps.right)) return "centred from side to side";
  const bool from_right =
      position.across == Position::Across::FromRight ||
      (position.across == Position::Across::Centre && easier(gaps.right, gaps.left));
  return from_right ? from_edge(where, gaps.right, Edge::Right)
                    : from_edge(where, gaps.left, Edge::Left);
}

std::string where_words(const Where& where, const Gaps& gaps, const Position& position,
                        const std::string& shows, bool round) {
  if (!position.over.empty()) {
    const std::string over = thing_with_the(where.project, where.card, position.over);
    if (!over.empty()) return ", centred over " + over;
  }
  if (all_nil(gaps)) return ", edge to edge";
  const bool across = alike(gaps.left, gaps.right);
  const bool down = alike(gaps.top, gaps.bottom);
  if (across && down) {
    const bool within = gaps.left >= Length{} && gaps.top >= Length{};
    return shows.empty() || !within ? ", centred" : shows_words(where, gaps, shows, round);
  }
  if (down) return ", " + across_words(where, gaps, position) + ", centred from top to bottom";
  const std::string_view joined = across ? ", " : " and ";
  return fmt::format(", {}{}{}", across_words(where, gaps, position), joined,
                     down_words(where, gaps, position));
}

std::string turned_words(Angle angle, std::string_view turned) {
  if (angle.udeg == 0) return {};
  const std::int64_t size = angle.udeg < 0 ? -angle.udeg : angle.udeg;
  std::string number = std::to_string(size / 1'000'000);
  if (const std::int64_t rest = size % 1'000'000; rest != 0) {
    std::string decimals = fmt::format("{:06}", rest);
    while (decimals.back() == '0') decimals.pop_back();
    number += "." + decimals;
  }
  return fmt::format("{}{}° {}", turned, number, angle.udeg < 0 ? "anticlockwise" : "clockwise");
}

std::string thing_with_the(const Project& project, const Card& card, const std::string& id) {
  for (const Piece& piece : card.pieces)
    if (piece.id == id) return "the " + piece_noun(piece);
  // The author may name a ribbon by its own id or by what it is made of.
  for (const RibbonUse& use : card.ribbons) {
    const ItemRef item{ItemKind::Ribbon, use.ribbon};
    if (use.id == id || id == "ribbon" || item_id(project, item) == id) {
      const auto& ribbons = project.ribbons;
      const bool twine = use.ribbon >= 0 && as_index(use.ribbon) < ribbons.size() &&
                         ribbons[as_index(use.ribbon)].kind == Ribbon::Kind::Twine;
      return twine ? "the twine" : "the ribbon";
    }
  }
  for (const Piece& piece : card.pieces)
    for (const Window& window : piece.windows)
      if (window.id == id) return "the window";
  return {};
}

namespace {

Gaps gaps_of_all(Size carrier, const std::vector<Point>& places, Size size, Angle turned) {
  Gaps all = gaps_in(carrier, places.front(), size, turned);
  for (const Point place : places) {
    const Gaps one = gaps_in(carrier, place, size, turned);
    all.left = std::min(all.left, one.left);
    all.top = std::min(all.top, one.top);
    all.right = std::min(all.right, one.right);
    all.bottom = std::min(all.bottom, one.bottom);
  }
  return all;
}

// Different values of one coordinate, those within sight of each other taken as one.
std::vector<Length> lines_of(const std::vector<Point>& places, Length Point::*coordinate) {
  std::vector<Length> out;
  std::vector<Length> all;
  all.reserve(places.size());
  for (const Point& place : places) all.push_back(place.*coordinate);
  std::sort(all.begin(), all.end());
  for (const Length one : all)
    if (out.empty() || !alike(out.back(), one)) out.push_back(one);
  return out;
}

} // namespace

std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position) {
  if (places.empty()) return {};
  const Size carrier = carrier_size(where.project, where.card, where.on);
  const Gaps gaps = gaps_of_all(carrier, places, size, turned);
  if (places.size() == 1) return where_words(where, gaps, position, {});
  const std::size_t columns = lines_of(places, &Point::x).size();
  const std::size_t rows = lines_of(places, &Point::y).size();
  if (rows == 1) {
    std::string words = ", in a row";
    if (!alike(gaps.left, gaps.right))
      words += " that begins " + across_words(where, gaps, position);
    return words + ", " + down_words(where, gaps, position);
  }
  if (columns == 1) {
    std::string words = ", one below the other, " + across_words(where, gaps, position);
    if (!alike(gaps.top, gaps.bottom))
      words += ", the outermost " + down_words(where, gaps, position);
    return words;
  }
  if (rows * columns == places.size())
    return ", in " + words::counted(static_cast<std::int64_t>(rows), "row") + " of " +
           words::count_words(static_cast<std::int64_t>(columns));
  if (where.drawn) return ", where the drawing shows them";
  if (seen_in(where.card, where.on, View::Front)) return ", as in the picture of the card";
  std::vector<std::string> each;
  each.reserve(places.size());
  for (const Point place : places) {
    const Gaps one = gaps_in(carrier, place, size, turned);
    each.push_back(across_words(where, one, {}) + " and " + down_words(where, one, {}));
  }
  std::string words = ": ";
  for (std::size_t i = 0; i < each.size(); ++i) words += (i == 0 ? "" : "; ") + each[i];
  return words;
}

} // namespace leafwright::guide
