#include "guide/internal/prose/placement.h"

#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/carrier.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <variant>

namespace leafwright::guide {
namespace {

enum class Edge { Left, Top, Right, Bottom };

Length place_of(const Rect& box, Edge edge) {
  switch (edge) {
  case Edge::Left: return box.left();
  case Edge::Top: return box.top();
  case Edge::Right: return box.right();
  case Edge::Bottom: break;
  }
  return box.bottom();
}

// An edge of a face inside that is the card's only fold is found sooner when it is called so.
bool is_the_fold(const Card& card, const Carrier& on, Edge edge) {
  const Face* face = face_of(card, on);
  const Face::Seen* seen = face ? best_seen(*face) : nullptr;
  if (!seen || seen->view != View::Inside || card.plan.scores.size() != 1) return false;
  const Score& fold = card.plan.scores.front();
  const bool upright = edge == Edge::Left || edge == Edge::Right;
  return fold.vertical == upright && place_of({seen->at, face->size}, edge) == fold.at;
}

std::string edge_words(const Where& where, Edge edge) {
  if (is_the_fold(where.card, where.on, edge)) return "the fold";
  switch (edge) {
  case Edge::Left: return "the left";
  case Edge::Top: return "the top";
  case Edge::Right: return "the right";
  case Edge::Bottom: return "the bottom";
  }
  return "the edge";
}

std::string from_edge(const Where& where, Length gap, Edge edge) {
  const std::string name = edge_words(where, edge);
  if (alike(gap, {})) return "even with " + name;
  const std::string length = length_text(absolute(gap), where.project.printing);
  return length + (gap < Length{} ? " past " : " from ") + name;
}

std::string centered(const Where& where) {
  return std::string(words::terms(where.project.language).centered);
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

// Uneven gaps are measured in the drawing; the hands only need the middle.
std::string shows_words(const Where& where, const Gaps& gaps, const std::string& shows) {
  if (alike(gaps.left, gaps.top)) {
    // A piece is named in the same sentence: the measure is of it.
    const bool named = where.on.kind == Carrier::Kind::Piece;
    return fmt::format(", with {}{} {}", length_text(gaps.left, where.project.printing),
                       named ? std::string() : " of " + shows,
                       words::terms(where.project.language).all_around);
  }
  return ", " + centered(where);
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
  if (alike(gaps.left, gaps.right)) return centered(where);
  const bool from_right =
      position.across == Position::Across::FromRight ||
      (position.across == Position::Across::Centre && easier(gaps.right, gaps.left));
  return from_right ? from_edge(where, gaps.right, Edge::Right)
                    : from_edge(where, gaps.left, Edge::Left);
}

std::string where_words(const Where& where, const Gaps& gaps, const Position& position,
                        const std::string& shows) {
  if (!position.over.empty()) {
    const std::string over = thing_with_the(where.project, where.card, position.over);
    if (!over.empty()) return ", " + centered(where) + " over " + over;
  }
  if (all_nil(gaps)) return ", edge to edge";
  const bool across = alike(gaps.left, gaps.right);
  const bool down = alike(gaps.top, gaps.bottom);
  if (across && down) {
    const bool within = gaps.left >= Length{} && gaps.top >= Length{};
    return shows.empty() || !within ? ", " + centered(where) : shows_words(where, gaps, shows);
  }
  const std::string first = across_words(where, gaps, position);
  if (down) return ", " + first + " and " + centered(where) + " top to bottom";
  const std::string second = down_words(where, gaps, position);
  if (across) return ", " + first + ", " + second;
  // One measure for both edges is set once: "1/4 in from the right and the bottom".
  const std::string_view from = " from ";
  const std::size_t at = first.find(from);
  const std::size_t by = second.find(from);
  if (at != std::string::npos && by == at && first.substr(0, at) == second.substr(0, by))
    return ", " + first + " and " + second.substr(by + from.size());
  return ", " + first + " and " + second;
}

std::string turned_words(Angle angle) {
  if (angle.udeg == 0) return {};
  constexpr std::int64_t degree = 1'000'000;
  const std::int64_t size = angle.udeg < 0 ? -angle.udeg : angle.udeg;
  const std::string_view way = angle.udeg < 0 ? "left" : "right";
  if (size == 180 * degree) return ", upside down";
  if (size == 90 * degree) return fmt::format(", turned a quarter turn to the {}", way);
  if (size > 90 * degree) return fmt::format(", turned to the {} as drawn", way);
  return fmt::format(", tilted {}to the {}", size <= 15 * degree ? "a little " : "", way);
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

namespace {

// The space between neighbours, when it is one and the same and a ruler's mark.
std::string apart_words(const Where& where, const std::vector<Length>& lines, Length each) {
  for (std::size_t i = 2; i < lines.size(); ++i)
    if (!alike(lines[i] - lines[i - 1], lines[1] - lines[0])) return {};
  const Length gap = lines[1] - lines[0] - each;
  const std::string words = length_text(gap, where.project.printing);
  if (gap <= Length{} || words.find("≈") != std::string::npos) return {};
  return ", " + words + " apart";
}

bool in_the_corners(const Gaps& gaps, std::size_t columns, std::size_t rows) {
  return columns == 2 && rows == 2 && alike(gaps.left, gaps.right) && alike(gaps.top, gaps.bottom);
}

} // namespace

bool tells_how_many(const std::vector<Point>& places) {
  const std::size_t columns = lines_of(places, &Point::x).size();
  const std::size_t rows = lines_of(places, &Point::y).size();
  const bool one_line = columns == 1 || rows == 1;
  return places.size() > 1 &&
         ((one_line && places.size() <= 3) || rows * columns == places.size()) &&
         !(one_line && places.size() > 3);
}

std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position) {
  if (places.empty()) return {};
  const Size carrier = carrier_size(where.project, where.card, where.on);
  const Gaps gaps = gaps_of_all(carrier, places, size, turned);
  if (places.size() == 1) return where_words(where, gaps, position, {});
  const std::vector<Length> columns = lines_of(places, &Point::x);
  const std::vector<Length> rows = lines_of(places, &Point::y);
  if (rows.size() == 1) {
    std::string words = places.size() == 2   ? " at left and right"
                        : places.size() == 3 ? " at left, middle and right"
                                             : " in a row";
    words += apart_words(where, columns, size.width);
    if (!alike(gaps.left, gaps.right)) words += ", starting " + across_words(where, gaps, position);
    return words + ", " + down_words(where, gaps, position);
  }
  if (columns.size() == 1) {
    std::string words = places.size() == 2   ? " at top and bottom"
                        : places.size() == 3 ? " at top, middle and bottom"
                                             : " in a column";
    words += apart_words(where, rows, size.height);
    words += ", " + across_words(where, gaps, position);
    if (!alike(gaps.top, gaps.bottom)) words += ", starting " + down_words(where, gaps, position);
    return words;
  }
  if (in_the_corners(gaps, columns.size(), rows.size())) return ", one in each corner";
  if (rows.size() * columns.size() == places.size())
    return " in " + words::counted(static_cast<std::int64_t>(rows.size()), "row") + " of " +
           words::count_words(static_cast<std::int64_t>(columns.size()));
  if (where.drawn) return ", where the drawing shows";
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

void say_placed(Prose& prose, const Where& where, const Prose& act, const std::string& place,
                std::string_view pronoun) {
  Prose whole = act;
  whole.say(place);
  if (words::count_of_words(spoken(whole.fragment())) <= longest_sentence) {
    prose.append(whole).say(".");
    return;
  }
  prose.append(act).say(". ");
  const auto after = [&](std::string_view beginning) {
    return std::string(std::string_view(place).substr(beginning.size()));
  };
  const std::string middle = ", " + centered(where);
  if (place.starts_with(", with ")) {
    prose.say("Leave " + after(", with "));
  } else if (place.starts_with(middle)) {
    prose.say(words::sentence_case(words::terms(where.project.language).center) + " " +
              std::string(pronoun) + after(middle));
  } else {
    prose.say("Place " + std::string(pronoun) + " " + after(place.starts_with(", ") ? ", " : " "));
  }
  prose.say(".");
}

std::vector<Inlines> sentences_of(const Inlines& text) {
  std::vector<Inlines> out(text.empty() ? 0 : 1);
  for (const Inline& one : text) {
    const auto* said = std::get_if<Words>(&one);
    if (!said) {
      out.back().push_back(one);
      continue;
    }
    std::string_view rest = said->text;
    for (std::size_t at = rest.find(". "); at != std::string_view::npos; at = rest.find(". ")) {
      out.back().push_back(Words{std::string(rest.substr(0, at + 1)), said->style});
      out.emplace_back();
      rest.remove_prefix(at + 2);
    }
    if (!rest.empty()) out.back().push_back(Words{std::string(rest), said->style});
  }
  return out;
}

} // namespace leafwright::guide
