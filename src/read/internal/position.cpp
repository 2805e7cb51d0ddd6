#include "read/expression.h"

#include "measure/letters.h"

#include <array>
#include <utility>

namespace leafwright::reading {
namespace {

constexpr std::string_view expected_position = "a position such as: centre, 3/8 from top";

struct Side {
  std::string_view word;
  bool across;
  bool far;
};
constexpr std::array sides = {
    Side{"left", true, false},
    Side{"right", true, true},
    Side{"top", false, false},
    Side{"bottom", false, true},
};
const Side* side_of(std::string_view word) {
  for (const Side& side : sides)
    if (side.word == word) return &side;
  return nullptr;
}

bool is_centre(std::string_view word) {
  return word == "centre" || word == "centred" || word == "center" || word == "centered" ||
         word == "middle";
}

std::optional<Impression::Arranged> arranged_of(std::string_view word) {
  if (word == "row") return Impression::Arranged::Row;
  if (word == "column") return Impression::Arranged::Column;
  if (word == "grid") return Impression::Arranged::Grid;
  if (word == "scatter" || word == "scattered") return Impression::Arranged::Scatter;
  return std::nullopt;
}

// The last word of a span, and what stands before it.
std::pair<Span, Span> split_last_word(std::string_view text, Span span) {
  std::size_t from = span.to;
  while (from > span.from && !detail::is_blank(static_cast<unsigned char>(text[from - 1]))) --from;
  return {trimmed_span(text, {span.from, from}), {from, span.to}};
}

class PositionReader {
 public:
  explicit PositionReader(std::string_view text) : text_(text) {}

  Parsed<ParsedPosition> run() {
    const Span whole{0, text_.size()};
    for (const Span& raw : split_outside(text_, whole, ',')) {
      const Span part = trimmed_span(text_, raw);
      if (part.empty()) return fault(raw, "leave no gap between commas");
      if (auto wrong = read_part(part)) return *wrong;
    }
    return position_;
  }

 private:
  ParseError fault(Span span, std::string fix) const {
    return detail::parse_error(text_, span.from, span.to, expected_position, std::move(fix));
  }

  std::optional<ParseError> set(bool across, Along along, Span part) {
    Along& target = across ? position_.across : position_.down;
    if (target.given)
      return fault(part,
                   across ? "say only once how it lies across" : "say only once how it lies down");
    along.given = true;
    target = along;
    return std::nullopt;
  }

  std::optional<ParseError> read_part(Span part) {
    const std::string_view words = slice(text_, part);
    if (is_centre(words)) return std::nullopt; // as it is when nothing else is said
    if (const auto arranged = arranged_of(words)) {
      position_.arranged = arranged;
      return std::nullopt;
    }
    if (words.starts_with("over ")) {
      if (position_.over) return fault(part, "it can lie over one thing only");
      position_.over = trimmed_span(text_, {part.from + 5, part.to});
      return std::nullopt;
    }
    const auto [before, last] = split_last_word(text_, part);
    const std::string_view word = slice(text_, last);
    if (const Side* side = side_of(word)) return read_side(part, before, *side);
    if (word == "up" || word == "down") {
      if (before.empty()) return fault(part, "say how far, as in: 1/8 up");
      return set(false, {Along::Kind::Centre, before, word == "up", true}, part);
    }
    return fault(part, "end with left, right, top or bottom, as in: 3/8 from top; or write centre, "
                       "over NAME, row, column, grid or scatter");
  }

  // "top", "top left", "3/8 from top", "1/8 left"
  std::optional<ParseError> read_side(Span part, Span before, const Side& side) {
    const Along flush{side.far ? Along::Kind::FromFar : Along::Kind::FromNear, {}, false, true};
    if (before.empty()) return set(side.across, flush, part);
    const auto [earlier, joint] = split_last_word(text_, before);
    const std::string_view word = slice(text_, joint);
    if (word == "from" || word == "the") {
      Span distance = earlier;
      if (word == "the") { // "from the top"
        const auto [rest, from] = split_last_word(text_, earlier);
        if (slice(text_, from) != "from") return fault(part, "write: 3/8 from top");
        distance = rest;
      }
      if (distance.empty()) return fault(part, "say how far, as in: 3/8 from top");
      Along along = flush;
      along.distance = distance;
      return set(side.across, along, part);
    }
    const Side* other = side_of(word);
    if (other != nullptr && earlier.empty()) {
      if (other->across == side.across) return fault(part, "these two exclude each other");
      if (auto wrong = set(side.across, flush, part)) return wrong;
      return set(other->across,
                 {other->far ? Along::Kind::FromFar : Along::Kind::FromNear, {}, false, true},
                 part);
    }
    if (side.across) { // "1/8 left": moved out of the middle
      return set(true, {Along::Kind::Centre, before, !side.far, true}, part);
    }
    return fault(part, "write: 3/8 from top, or 1/8 up");
  }

  std::string_view text_;
  ParsedPosition position_;
};

} // namespace

Parsed<ParsedPosition> parse_position(std::string_view text) { return PositionReader(text).run(); }

std::vector<Span> split_outside(std::string_view text, Span whole, char separator) {
  std::vector<Span> parts;
  int depth = 0;
  std::size_t from = whole.from;
  for (std::size_t i = whole.from; i < whole.to; ++i) {
    if (text[i] == '(') ++depth;
    if (text[i] == ')') --depth;
    if (text[i] != separator || depth > 0) continue;
    parts.push_back({from, i});
    from = i + 1;
  }
  parts.push_back({from, whole.to});
  return parts;
}

Span trimmed_span(std::string_view text, Span span) {
  const auto blank = [&](std::size_t i) {
    return detail::is_blank(static_cast<unsigned char>(text[i]));
  };
  while (span.from < span.to && blank(span.from)) ++span.from;
  while (span.to > span.from && blank(span.to - 1)) --span.to;
  return span;
}

std::string_view slice(std::string_view text, Span span) {
  return text.substr(span.from, span.to - span.from);
}

} // namespace leafwright::reading
