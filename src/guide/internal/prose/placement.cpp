#include "guide/internal/prose/placement.h"

#include "guide/sections.h"
#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/carrier.h"
#include "model/placing.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <variant>

namespace leafwright::guide {
namespace {

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

std::string down_words(const Where& where, const Gaps& gaps, const Position& position) {
  if (alike(gaps.top, gaps.bottom)) return "halfway down";
  const Edge edge = measured_down(gaps, position);
  return from_edge(where, gap_at(gaps, edge), edge);
}

std::string across_words(const Where& where, const Gaps& gaps, const Position& position) {
  if (alike(gaps.left, gaps.right)) return centered(where);
  const Edge edge = measured_across(gaps, position);
  return from_edge(where, gap_at(gaps, edge), edge);
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
    const bool within = gaps.left >= Length{} && gaps.top >= Length{} && !gaps.of_middle;
    return shows.empty() || !within ? ", " + centered(where) : shows_words(where, gaps, shows);
  }
  const std::string middle = gaps.of_middle ? "the middle " : "";
  const std::string first = across_words(where, gaps, position);
  if (down) return ", " + middle + first + " and " + centered(where) + " top to bottom";
  const std::string second = down_words(where, gaps, position);
  if (across) return ", " + first + ", " + middle + second;
  // One measure for both edges is set once: "1/4 in from the right and the bottom".
  const std::string_view from = " from ";
  const std::size_t at = first.find(from);
  const std::size_t by = second.find(from);
  if (at != std::string::npos && by == at && first.substr(0, at) == second.substr(0, by))
    return ", " + middle + first + " and " + second.substr(by + from.size());
  return ", " + middle + first + " and " + second;
}

std::string turned_words(Angle angle) {
  if (angle.udeg == 0) return {};
  constexpr std::int64_t degree = 1'000'000;
  const std::int64_t size = angle.udeg < 0 ? -angle.udeg : angle.udeg;
  const std::string_view way = angle.udeg < 0 ? "left" : "right";
  if (size == 180 * degree) return ", upside down";
  if (size == 90 * degree) return fmt::format(", turned a quarter turn to the {}", way);
  if (size > 90 * degree)
    return fmt::format(", turned {:g}° to the {}", static_cast<double>(size) / degree, way);
  return fmt::format(", tilted {}to the {}", size <= 15 * degree ? "slightly " : "", way);
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

bool tells_how_many(const std::vector<Point>& places) {
  using enum Arrangement::Kind;
  switch (arrangement_of(places, {}, {}).kind) {
  case Row:
  case Column: return places.size() <= 3;
  case Grid: return true;
  case One:
  case Scattered: break;
  }
  return false;
}

namespace {

// The space between neighbours, when it is one and the same and a ruler's mark.
std::string apart_words(const Where& where, const Arrangement& arrangement) {
  if (!arrangement.apart) return {};
  const std::string words = length_text(*arrangement.apart, where.project.printing);
  return words.find("≈") != std::string::npos ? "" : ", " + words + " apart";
}

bool in_the_corners(const Gaps& gaps, const Arrangement& arrangement) {
  return arrangement.columns == 2 && arrangement.rows == 2 && alike(gaps.left, gaps.right) &&
         alike(gaps.top, gaps.bottom);
}

std::string line_words(const Where& where, const Arrangement& arrangement, const Gaps& gaps,
                       const Position& position) {
  const bool row = arrangement.kind == Arrangement::Kind::Row;
  const std::size_t count = row ? arrangement.columns : arrangement.rows;
  std::string words = row ? (count == 2   ? " at left and right"
                             : count == 3 ? " at left, middle and right"
                                          : " in a row")
                          : (count == 2   ? " at top and bottom"
                             : count == 3 ? " at top, middle and bottom"
                                          : " in a column");
  words += apart_words(where, arrangement);
  const std::string middle = gaps.of_middle ? "the middle " : "";
  if (row) {
    if (!alike(gaps.left, gaps.right))
      words += ", starting " + middle + across_words(where, gaps, position);
    return words + ", " + middle + down_words(where, gaps, position);
  }
  words += ", " + middle + across_words(where, gaps, position);
  if (!alike(gaps.top, gaps.bottom))
    words += ", starting " + middle + down_words(where, gaps, position);
  return words;
}

} // namespace

std::string arranged_words(const Where& where, const std::vector<Point>& places, Size size,
                           Angle turned, const Position& position) {
  if (places.empty()) return {};
  const Size carrier = carrier_size(where.project, where.card, where.on);
  const Arrangement arrangement = arrangement_of(places, size, turned);
  Gaps gaps = gaps_in(carrier, arrangement.part);
  gaps.of_middle = arrangement.of_middle;
  using enum Arrangement::Kind;
  if (arrangement.kind == One) return where_words(where, gaps, position, {});
  if (arrangement.kind == Row || arrangement.kind == Column)
    return line_words(where, arrangement, gaps, position);
  if (in_the_corners(gaps, arrangement)) return ", one in each corner";
  if (arrangement.kind == Grid)
    return " in " + words::counted(static_cast<std::int64_t>(arrangement.rows), "row") + " of " +
           words::count_words(static_cast<std::int64_t>(arrangement.columns));
  if (where.drawn) return ", where the drawing shows";
  if (seen_in(where.card, where.on, View::Front)) return ", as in the picture of the card";
  std::vector<std::string> each;
  each.reserve(places.size());
  for (const Point place : places) {
    const Gaps one = measured_gaps(carrier, {place, size}, turned);
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
  // Setting out a middle is an act of its own.
  const bool of_middle = place.find("the middle ") != std::string::npos;
  if (!of_middle && words::count_of_words(spoken(whole.fragment())) <= longest_sentence) {
    prose.append(whole).say(".");
    return;
  }
  prose.append(act).say(". ");
  const auto after = [&](std::string_view beginning) {
    return std::string(std::string_view(place).substr(beginning.size()));
  };
  const std::string middle = ", " + centered(where);
  if (place.starts_with(", the middle ")) {
    prose.say("Place the middle " + after(", the middle "));
  } else if (place.starts_with(", with ")) {
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
