#include "read/edit/internal/measured_values.h"

#include "measure/parse_length.h"
#include "read/expression.h"

#include <algorithm>
#include <utility>

namespace leafwright::edit {
namespace {

using detail::TextCursor;
using reading::Span;

// Takes an expression to pieces without working it out. What a bare number means shows only from
// what stands around it: beside a length it is one, as a factor it is a number.
class Finder {
 public:
  Finder(std::string_view text, Span span, Unit bare)
      : span_(span), bare_(bare), cursor_(text.substr(0, span.to)) {
    cursor_.go_to(span.from);
  }

  // Nothing when it cannot be read.
  std::optional<std::vector<TypedLength>> run() {
    auto all = terms();
    cursor_.skip_blanks();
    if (!all || !cursor_.done()) return std::nullopt;
    for (const std::size_t one : all->loose) lengths_.push_back(one);
    std::vector<TypedLength> found;
    std::sort(lengths_.begin(), lengths_.end());
    for (const std::size_t one : lengths_) found.push_back(numbers_[one]);
    return found;
  }

 private:
  // A part of the expression: whether it is a length, and which of its bare numbers are lengths if
  // it turns out to be one.
  struct Part {
    bool length = false;
    std::vector<std::size_t> loose;
  };

  void settle(const Part& part) {
    lengths_.insert(lengths_.end(), part.loose.begin(), part.loose.end());
  }

  // Things that are added or compared are all lengths or none is.
  Part alike(const std::vector<Part>& parts) {
    Part whole;
    for (const Part& part : parts) whole.length = whole.length || part.length;
    for (const Part& part : parts) {
      if (whole.length)
        settle(part);
      else
        whole.loose.insert(whole.loose.end(), part.loose.begin(), part.loose.end());
    }
    return whole;
  }

  std::optional<Part> terms() {
    std::vector<Part> parts;
    for (;;) {
      auto part = factors();
      if (!part) return std::nullopt;
      parts.push_back(std::move(*part));
      cursor_.skip_blanks();
      if (cursor_.peek() != U'+' && !detail::is_minus(cursor_.peek())) return alike(parts);
      cursor_.advance();
    }
  }

  std::optional<Part> factors() {
    std::vector<std::pair<Part, bool>> parts; // and whether it divides
    bool divides = false;
    for (;;) {
      auto part = atom();
      if (!part) return std::nullopt;
      parts.emplace_back(std::move(*part), divides);
      cursor_.skip_blanks();
      const char32_t sign = cursor_.peek();
      divides = sign == U'÷' || sign == U'/';
      if (!divides && sign != U'×' && sign != U'*' && sign != U'·') break;
      cursor_.advance();
    }
    int lengths = 0;
    for (const auto& [part, below] : parts) lengths += part.length ? (below ? -1 : 1) : 0;
    Part whole;
    whole.length = lengths > 0;
    const bool any =
        std::any_of(parts.begin(), parts.end(), [](const auto& one) { return one.first.length; });
    if (any) return whole;
    // Numbers only: one of them is the length. A fraction rather than a whole number of times.
    const Part* best = nullptr;
    for (const auto& [part, below] : parts) {
      if (below || part.loose.empty()) continue;
      if (best == nullptr || (is_whole(*best) && !is_whole(part))) best = &part;
    }
    if (best != nullptr) whole.loose = best->loose;
    return whole;
  }

  bool is_whole(const Part& part) const {
    return std::all_of(part.loose.begin(), part.loose.end(), [&](std::size_t one) {
      return numbers_[one].value.nm % bare_unit(bare_).nm == 0;
    });
  }

  std::optional<Part> atom() {
    cursor_.skip_blanks();
    const char32_t c = cursor_.peek();
    if (detail::is_minus(c)) {
      cursor_.advance();
      return ++depth_ > deepest ? std::nullopt : atom();
    }
    if (c == U'(') return group();
    if (reading::is_name_start(c)) return name();
    return number();
  }

  // ( … ), or the arguments of a function between commas. Each is read as if it stood alone: a
  // comma behind a number would be a decimal comma.
  std::optional<Part> group() {
    if (++depth_ > deepest || !cursor_.take(U'(')) return std::nullopt;
    const std::size_t from = cursor_.at();
    const std::string_view text = cursor_.text();
    std::size_t to = from;
    for (int open = 1; to < text.size(); ++to) {
      if (text[to] == '(') ++open;
      if (text[to] == ')' && --open == 0) break;
    }
    if (to >= text.size()) return std::nullopt;
    const TextCursor outside = cursor_;
    std::vector<Part> parts;
    for (const Span& argument : reading::split_outside(text, {from, to}, ',')) {
      cursor_ = TextCursor(text.substr(0, argument.to));
      cursor_.go_to(argument.from);
      auto part = terms();
      cursor_.skip_blanks();
      if (!part || !cursor_.done()) return std::nullopt;
      parts.push_back(std::move(*part));
    }
    cursor_ = outside;
    cursor_.go_to(to + 1);
    return alike(parts);
  }

  std::optional<Part> name() {
    const std::size_t from = cursor_.at();
    std::size_t property = std::string_view::npos;
    for (; !cursor_.done(); cursor_.advance()) {
      const char32_t c = cursor_.peek();
      if (reading::is_name_start(c) || detail::is_digit(c)) continue;
      TextCursor ahead = cursor_;
      ahead.advance();
      const bool letter = reading::is_name_start(ahead.peek());
      const bool digit = detail::is_digit(ahead.peek());
      if (c == U'.' && property == std::string_view::npos && letter)
        property = ahead.at();
      else if (!(c == U'-' && (letter || (digit && property == std::string_view::npos))) &&
               !(c == U'/' && letter && property == std::string_view::npos))
        break;
    }
    if (cursor_.peek() == U'(') return group(); // half, min, max
    const std::string_view word = cursor_.text().substr(from, cursor_.at() - from);
    Part part;
    part.length = !word.ends_with(".count") && !word.ends_with(".minutes");
    return part;
  }

  std::optional<Part> number() {
    const auto read = detail::read_number(cursor_, "");
    if (!read) return std::nullopt;
    TypedLength one;
    one.at = (*read).at;
    one.length = one.end = cursor_.at();
    one.length -= one.at;
    std::int64_t nm = bare_unit(bare_).nm;
    TextCursor ahead = cursor_;
    ahead.skip_blanks();
    if (const LengthUnit* unit = take_length_unit(ahead)) {
      one.unit = unit->system;
      nm = unit->nm;
      one.end = ahead.at();
      cursor_ = ahead;
    }
    const auto value = detail::times_nearest(*read, nm);
    if (!value) return std::nullopt;
    one.value = {*value};
    numbers_.push_back(one);
    Part part;
    part.length = one.unit.has_value();
    if (part.length)
      lengths_.push_back(numbers_.size() - 1);
    else
      part.loose.push_back(numbers_.size() - 1);
    return part;
  }

  static constexpr int deepest = 64;
  Span span_;
  Unit bare_;
  TextCursor cursor_;
  std::vector<TypedLength> numbers_;
  std::vector<std::size_t> lengths_; // indices of those that are lengths
  int depth_ = 0;
};

void take(std::vector<TypedLength>& all, std::string_view text, Span span, Unit bare) {
  if (span.empty()) return;
  if (const auto found = Finder(text, span, bare).run())
    all.insert(all.end(), found->begin(), found->end());
}

std::vector<TypedLength> of_size(std::string_view text, Span span, Unit bare) {
  std::vector<TypedLength> all;
  const std::string_view own = reading::slice(text, span);
  const auto parting = reading::side_parting(own);
  if (!parting) {
    take(all, text, span, bare);
    return all;
  }
  const Span first{span.from, span.from + parting->from};
  const Span second{span.from + parting->to, span.to};
  take(all, text, second, bare);
  // "70 x 148 mm": the unit at the end serves both.
  const bool plain = parse_size(own, bare).ok();
  const std::optional<Unit> shared =
      plain && all.size() == 1 && all.front().end == reading::trimmed_span(text, second).to
          ? all.front().unit
          : std::nullopt;
  std::vector<TypedLength> before;
  take(before, text, first, shared.value_or(bare));
  if (shared && before.size() == 1 && !before.front().unit) {
    // In centimetres a millimetre would be ten times too short.
    if (const auto size = parse_size(own, bare)) before.front().value = (*size).width;
    before.front().unit = shared;
  }
  before.insert(before.end(), all.begin(), all.end());
  return before;
}

std::vector<TypedLength> of_position(std::string_view text, Unit bare) {
  std::vector<TypedLength> all;
  const auto position = reading::parse_position(text);
  if (!position) return all;
  take(all, text, (*position).across.distance, bare);
  take(all, text, (*position).down.distance, bare);
  std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  return all;
}

std::vector<TypedLength> of_points(std::string_view text, Unit bare) {
  std::vector<TypedLength> all;
  for (const Span& point : reading::split_outside(text, {0, text.size()}, ';'))
    for (const Span& side : reading::split_outside(text, point, ','))
      take(all, text, reading::trimmed_span(text, side), bare);
  return all;
}

// Only an amount with a unit or of a size is a length: 20 are twenty pieces.
std::vector<TypedLength> of_amount(std::string_view text, Unit bare) {
  const std::size_t of = text.find(" of ");
  if (of != std::string_view::npos && reading::side_parting(text.substr(of + 4)))
    return of_size(text, {of + 4, text.size()}, bare);
  std::vector<TypedLength> all;
  take(all, text, {0, text.size()}, bare);
  std::erase_if(all, [](const TypedLength& one) { return !one.unit; });
  return all;
}

} // namespace

std::vector<TypedLength> typed_lengths(std::string_view text, TypedAs how, Unit bare) {
  std::vector<TypedLength> all;
  switch (how) {
  case TypedAs::Length: take(all, text, {0, text.size()}, bare); break;
  case TypedAs::Size: return of_size(text, {0, text.size()}, bare);
  case TypedAs::Position: return of_position(text, bare);
  case TypedAs::Points: return of_points(text, bare);
  case TypedAs::Expression:
    if (text.find_first_of("0123456789") != std::string_view::npos)
      take(all, text, {0, text.size()}, bare);
    break;
  case TypedAs::Amount: return of_amount(text, bare);
  }
  return all;
}

} // namespace leafwright::edit
