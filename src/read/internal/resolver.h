#pragma once

#include "read/document.h"
#include "read/expression.h"
#include "read/internal/draft.h"

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace leafwright::reading {

enum class Axis { Width, Height };

// Something that a name in an expression can mean.
struct DraftRef {
  int draft = -1;
};
struct FaceRef {
  int card = -1, face = -1;
};
struct CardRef {
  int card = -1;
};
struct SupplyRef {
  Supply supply;
};
using Ref = std::variant<std::monostate, DraftRef, FaceRef, CardRef, SupplyRef>;

// Works out sizes and places of named things on demand, each once. A thing that needs itself is a
// finding with the whole chain; what hangs on a failed measure fails without a word of its own.
class Resolver {
 public:
  enum class Measure { Width, Height, X, Y, Length };

  Resolver(Context& context, const Catalogue& catalogue, const Drafts& drafts);

  // Width and height as cut (before rotation), x and y of its top left corner on what it lies on,
  // of a ribbon: width, y its centre line, length its cut length.
  std::optional<Length> get(int draft, Measure measure);
  // Size of what a draft lies on.
  std::optional<Length> carrier(int draft, Axis axis);
  std::optional<Length> carrier(int card, Draft::On on, Axis axis);

  // An expression in `span` of a value, as the length it must be. `card` is where names are looked
  // up first; `axis` is what `mat.size` means.
  std::optional<Length> length(const Value& value, Span span, int card, Axis axis);
  std::optional<Quantity> worth(const Value& value, Span span, int card, Axis axis,
                                bool* saw_size = nullptr);
  // One side of a size attribute: `4 x 5 1/2`, `mat.width x 3 in`, `mat.size - 1/4`.
  std::optional<Length> side(const Value& value, int card, Axis axis);

  // Where a thing of size `own` lies along one axis by a position on a carrier.
  std::optional<Length> coordinate(const Value& value, const ParsedPosition& position, int card,
                                   Draft::On on, Axis axis, Length own);
  // The points of `3/8, 1/2; 1 1/4, 2`, as far as they are right.
  std::vector<Point> points(const Value& value, int card);

  Ref find(int card, std::string_view name) const; // `mat` or `trees/mat`
  std::optional<Quantity> property(const Value& value, Span name_span, Span property_span, int card,
                                   Axis axis, bool* saw_size);

  // A finding at a part of a value, with the chain of measures that led there.
  void fail(const Value& value, Span span, std::string_view code, std::string expected,
            std::string fix, std::string found = {});
  // The same for text that a parser refused, which began at `span`.
  void fail_parse(const Value& value, Span span, const ParseError& why, std::string_view code);
  Context& context() { return context_; }
  const Drafts& drafts() const { return drafts_; }
  const Catalogue& catalogue() const { return catalogue_; }
  Length unit() const { return context_.unit == Unit::Inch ? inches(1) : millimetres(1); }

 private:
  struct Cell {
    enum class State : char { Fresh, Busy, Known, Failed };
    State state = State::Fresh;
    Length value;
  };
  struct Step {
    int draft;
    Measure measure;
  };
  std::optional<Length> compute(int draft, Measure measure);
  std::optional<Length> side_of_piece(int draft, Axis axis);
  std::optional<Length> side_of_window(int draft, Axis axis);
  std::optional<Length> band_length(int draft);
  std::optional<ParsedPosition> position_in(const Value& value);
  std::optional<Length> place_of(int draft, Axis axis);
  std::optional<Length> ribbon_measure(int draft, Measure measure);
  std::optional<Length> centre_over(const Value& value, Span name, int card, Draft::On on,
                                    Axis axis);
  struct Root { // where coordinates of a chain of carriers begin
    Draft::On::Kind kind;
    int face;
    Length origin;
  };
  std::optional<Root> root(Draft::On on, Axis axis);
  std::optional<Quantity> property_of_draft(int draft, std::string_view property, Axis axis,
                                            bool* saw_size, bool& known);
  std::optional<Length> distance(int draft, std::string_view property);
  std::int64_t count_of(int draft);
  std::string near_name(int card, std::string_view name) const;
  void note_circle(int draft, Measure measure);
  std::string words(Step step) const;
  Place place(Step step) const;
  Cell& cell(int draft, Measure measure);

  Context& context_;
  const Catalogue& catalogue_;
  const Drafts& drafts_;
  std::vector<std::array<Cell, 5>> cells_;
  std::vector<Step> steps_; // being worked out, outermost first
  std::map<int, std::int64_t> counts_;
};

inline Length along(Size size, Axis axis) { return axis == Axis::Width ? size.width : size.height; }
inline Resolver::Measure side_of(Axis axis) {
  return axis == Axis::Width ? Resolver::Measure::Width : Resolver::Measure::Height;
}
inline Resolver::Measure place_on(Axis axis) {
  return axis == Axis::Width ? Resolver::Measure::X : Resolver::Measure::Y;
}

} // namespace leafwright::reading
