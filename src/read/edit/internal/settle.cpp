#include "read/edit/internal/measured_values.h"

#include "measure/index.h"
#include "measure/print_length.h"
#include "model/carrier.h"
#include "read/expression.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

namespace leafwright::edit {
namespace {

Length side(const Size& size, bool across) { return across ? size.width : size.height; }

Length below(Length a, Length mark) { return {a.nm - a.nm % mark.nm}; }

// How many of a piece come from one sheet, laid in rows: the better way round, the best sheet.
std::int64_t per_sheet(const Project& project, const Piece& piece) {
  if (piece.stock < 0 || as_index(piece.stock) >= project.stocks.size()) return 0;
  const Stock& stock = project.stocks[as_index(piece.stock)];
  const Size own = piece.cut_from;
  if (own.width.nm <= 0 || own.height.nm <= 0) return 0;
  std::int64_t best = 0;
  for (const SheetOffer& sheet : stock.sheets) {
    const auto rows = [&](Size one) {
      return (sheet.size.width.nm / one.width.nm) * (sheet.size.height.nm / one.height.nm);
    };
    best = std::max({best, rows(own), stock.upright ? 0 : rows(own.turned())});
  }
  return best;
}
// Beyond that, one less of a sheet is no loss worth another size.
constexpr std::int64_t few_of_a_sheet = 6;

class Settler {
 public:
  Settler(const Settling& how, std::vector<MeasuredValue>& values)
      : how_(how), values_(values), now_(how.read(values)) {}

  Reading run() {
    // Cards first: those of one size stay of one size, and all that lies on them follows.
    for (int pass = 0; pass < 2; ++pass) {
      for (std::size_t c = 0; c < how_.before.cards.size(); ++c) {
        if (alike(c)) leaves(c);
        if (alike(c)) from_sheet(c, 0);
      }
    }
    for (std::size_t c = 0; c < how_.before.cards.size(); ++c)
      for (std::size_t p = 1; p < how_.before.cards[c].pieces.size(); ++p) {
        if (alike(c)) on_marks(c, p);
        if (alike(c)) even_margins(c, p);
        if (alike(c)) from_sheet(c, p);
      }
    return std::move(now_);
  }

 private:
  // Whether the card could still be read, with the same pieces.
  bool alike(std::size_t c) const {
    return now_.ok() && c < now_.project.cards.size() &&
           now_.project.cards[c].pieces.size() == how_.before.cards[c].pieces.size();
  }
  const Card& card(std::size_t c) const { return now_.project.cards[c]; }
  const Piece& piece(std::size_t c, std::size_t p) const { return card(c).pieces[p]; }

  MeasuredValue* find(std::string_view card, std::string_view thing, std::string_view attribute) {
    for (MeasuredValue& value : values_)
      if (value.card == card && value.thing == thing && value.attribute == attribute &&
          value.element != "window" && value.element != "stamp" && !value.instead)
        return &value;
    return nullptr;
  }

  // The number that alone says this side of a piece or card; nothing when a calculation does.
  struct Number {
    MeasuredValue* value = nullptr;
    std::size_t index = 0;
    explicit operator bool() const { return value != nullptr; }
  };
  Number number_of(std::string_view card_id, std::string_view thing, bool across) {
    if (MeasuredValue* one = find(card_id, thing, across ? "width" : "height"))
      if (one->lengths.size() == 1 && is_plain(one->text)) return {one, 0};
    MeasuredValue* one = find(card_id, thing, "size");
    if (one == nullptr) return {};
    if (one->named && one->lengths.size() == 2) return {one, across ? 0U : 1U};
    const auto parting = reading::side_parting(one->text);
    if (!parting) return {};
    const std::string_view text = one->text;
    if (!is_plain(across ? text.substr(0, parting->from) : text.substr(parting->to))) return {};
    for (std::size_t i = 0; i < one->lengths.size(); ++i)
      if ((one->lengths[i].at < parting->from) == across) return {one, i};
    return {};
  }
  static bool is_plain(std::string_view text) {
    return parse_length(text, Unit::Inch).ok(); // any unit: only the form matters
  }

  void read_again() { now_ = how_.read(values_); }

  // The same side of all cards that were of one size, so that they stay so.
  std::vector<Number> numbers_of_card(std::size_t c, bool across) {
    std::vector<Number> numbers;
    const Size size = how_.before.cards[c].finished;
    for (const Card& card : how_.before.cards)
      if (card.finished == size)
        if (const Number number = number_of(card.id, card.id, across)) numbers.push_back(number);
    return numbers;
  }
  void say(const std::vector<Number>& numbers, Length length, std::string_view why) {
    for (const Number& number : numbers) {
      number.value->now[number.index] = length;
      number.value->why = why;
    }
  }

  // The two leaves of a gate are half of its front each: that half lies on a mark.
  void leaves(std::size_t c) {
    if (how_.before.cards[c].plan.front_leaves.size() != 2) return;
    const std::vector<Number> numbers = numbers_of_card(c, true);
    if (numbers.empty()) return;
    const Number& first = numbers.front();
    const Length width = first.value->now[first.index];
    const Length meant = first.value->lengths[first.index].value;
    if (on_mark(width, how_.mark * 2)) return;
    // Never wider than it was made for the sheet's sake.
    const Length better = width < meant ? width - how_.mark : nearest_of(width, meant);
    if (better.nm <= 0) return;
    say(numbers, better, "so that each leaf of the gate, half of it, lies on a mark");
    read_again();
  }

  // The mark on either side of `a`, whichever is nearer to what was meant.
  Length nearest_of(Length a, Length meant) const {
    const Length more = a + how_.mark, less = a - how_.mark;
    return less.nm > 0 && absolute(less - meant) <= absolute(more - meant) ? less : more;
  }

  void even_margins(std::size_t c, std::size_t p) {
    const Card& old_card = how_.before.cards[c];
    const Piece& old = old_card.pieces[p];
    const Size old_carrier = carrier_size(how_.before, old_card, old.on);
    if (old_carrier == Size{} || old.role == Piece::Role::Base || !old.position.over.empty())
      return;
    for (const bool across : {true, false}) {
      const bool centred =
          across ? old.position.across == Position::Across::Centre && old.position.dx.nm == 0
                 : old.position.down == Position::Down::Centre && old.position.dy.nm == 0;
      const Number number = centred ? number_of(old_card.id, old.id, across) : Number{};
      if (!number) continue;
      const Size carrier = carrier_size(now_.project, card(c), piece(c, p).on);
      if (carrier == Size{}) continue;
      Length& own = number.value->now[number.index];
      const Length left = side(carrier, across) - own;
      if (!on_mark(side(carrier, across), how_.mark) || on_mark(left, how_.mark * 2)) continue;
      // It must leave something where something was left, and no more than all of it.
      const Length meant = number.value->lengths[number.index].value;
      const bool inside = side(old_carrier, across) >= side(old.size, across);
      Length better = nearest_of(own, meant);
      if (inside && better > side(carrier, across)) better = own - how_.mark;
      if (better.nm <= 0) continue;
      own = better;
      number.value->why = "so that as much is left on both sides";
      read_again();
      if (!alike(c)) return;
    }
  }

  // A size that was worked out and lies between two marks: no ruler shows it.
  void on_marks(std::size_t c, std::size_t p) {
    const Piece& own = piece(c, p);
    if (own.role == Piece::Role::Base || own.cut != Piece::CutBy::Trimmer) return;
    const Size size = own.size;
    const std::array wrong{!on_mark(size.width, how_.mark), !on_mark(size.height, how_.mark)};
    if (!wrong[0] && !wrong[1]) return;
    const Card& old_card = how_.before.cards[c];
    for (const std::string_view attribute : {"size", "inset", "width", "height"}) {
      MeasuredValue* value = find(old_card.id, own.id, attribute);
      if (value == nullptr) continue;
      if (attribute == "size" || attribute == "inset") {
        Size better{below(size.width, how_.mark), below(size.height, how_.mark)};
        if (better.width.nm <= 0 || better.height.nm <= 0) return;
        std::string sides;
        const auto parting = attribute == "size" ? reading::side_parting(value->text)
                                                 : std::optional<reading::Span>();
        if (parting) {
          // The side that lies on a mark stays as it is said.
          const std::string now = written_anew(*value, how_.unit, how_.mark);
          const auto there = reading::side_parting(now);
          if (!there) return;
          const auto kept = [&](bool across) {
            const std::string_view text = now;
            const auto span =
                reading::trimmed_span(text, across ? reading::Span{0, there->from}
                                                   : reading::Span{there->to, now.size()});
            return std::string(reading::slice(text, span));
          };
          sides = fmt::format("{} x {}", wrong[0] ? number(better.width) : kept(true),
                              wrong[1] ? number(better.height) : kept(false));
        } else {
          sides = fmt::format("{} x {}", number(better.width), number(better.height));
        }
        value->instead = std::move(sides);
        if (attribute == "inset") value->renamed = "size";
      } else {
        const bool across = attribute == "width";
        if (!wrong[across ? 0 : 1]) continue;
        value->instead = number(below(side(size, across), how_.mark));
      }
      value->why = "written out: what was worked out lies between two marks";
      read_again();
      return;
    }
  }

  std::string number(Length length) const { return file_number(length, how_.unit, how_.mark); }

  // As many come from one sheet as before, where those are few: a base of which two fill a sheet
  // must not grow by a hair.
  void from_sheet(std::size_t c, std::size_t p) {
    const Card& old_card = how_.before.cards[c];
    const Piece& old = old_card.pieces[p];
    const std::int64_t before = per_sheet(how_.before, old);
    const auto enough = [&] { return !alike(c) || per_sheet(now_.project, piece(c, p)) >= before; };
    if (before > few_of_a_sheet || enough()) return;
    const bool base = old.role == Piece::Role::Base;
    const auto numbers = [&](bool across) {
      if (base) return numbers_of_card(c, across);
      const Number own = number_of(old_card.id, old.id, across);
      return own ? std::vector<Number>{own} : std::vector<Number>{};
    };
    constexpr int most = 3; // marks: beyond that it is another design
    // The least that does: by marks in all, then by the broader side.
    std::vector<std::pair<int, int>> tries;
    for (int all = 1; all <= 2 * most; ++all)
      for (int across = 0; across <= std::min(all, most); ++across)
        if (all - across <= most) tries.emplace_back(across, all - across);
    const std::vector<MeasuredValue> as_it_was = values_;
    for (const auto& [across, down] : tries) {
      bool possible = true;
      for (const auto& [by, is_across] : {std::pair{across, true}, std::pair{down, false}}) {
        if (by == 0) continue;
        const std::vector<Number> sides = numbers(is_across);
        possible = possible && !sides.empty();
        if (sides.empty()) continue;
        const Length less = sides.front().value->now[sides.front().index] - how_.mark * by;
        possible = possible && less.nm > 0;
        say(sides, less,
            base ? "so that as many come from a sheet" : "so that it comes from a sheet");
      }
      if (possible) read_again();
      if (possible && enough()) return;
      values_ = as_it_was;
    }
    read_again(); // nothing helps: the rules will say so
  }

  const Settling& how_;
  std::vector<MeasuredValue>& values_;
  Reading now_;
};

} // namespace

Reading settle(const Settling& how, std::vector<MeasuredValue>& values) {
  return Settler(how, values).run();
}

} // namespace leafwright::edit
