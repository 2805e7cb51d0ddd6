#include "read/source.h"

#include "measure/length_units.h"
#include "measure/letters.h"
#include "measure/number.h"
#include "measure/parse_length.h"
#include "read/expression.h"
#include "read/internal/elements.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cstdint>
#include <limits>
#include <utility>

namespace leafwright::reading {
namespace {

Wide magnitude(Wide a) { return a < 0 ? -a : a; }

Wide common(Wide a, Wide b) {
  a = magnitude(a);
  b = magnitude(b);
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

// Far above any sensible measure and far below overflow: 10^27.
constexpr Wide largest_part = Wide{1'000'000'000'000'000} * 1'000'000'000'000;

bool too_large(Wide a) { return magnitude(a) > largest_part; }

} // namespace

std::optional<Fraction> fraction(Wide above, Wide below) {
  if (below == 0) return std::nullopt;
  const Wide shared = common(above, below);
  Fraction result{above / shared, below / shared};
  if (result.below < 0) result = {-result.above, -result.below};
  if (too_large(result.above) || too_large(result.below)) return std::nullopt;
  return result;
}

std::optional<Fraction> sum(Fraction a, Fraction b) {
  Wide left = 0, right = 0, above = 0, below = 0;
  if (__builtin_mul_overflow(a.above, b.below, &left) ||
      __builtin_mul_overflow(b.above, a.below, &right) ||
      __builtin_add_overflow(left, right, &above) ||
      __builtin_mul_overflow(a.below, b.below, &below))
    return std::nullopt;
  return fraction(above, below);
}

std::optional<Fraction> product(Fraction a, Fraction b) {
  Wide above = 0, below = 0;
  if (__builtin_mul_overflow(a.above, b.above, &above) ||
      __builtin_mul_overflow(a.below, b.below, &below))
    return std::nullopt;
  return fraction(above, below);
}

std::optional<Fraction> quotient(Fraction a, Fraction b) {
  return product(a, b.above < 0 ? Fraction{-b.below, -b.above} : Fraction{b.below, b.above});
}

Fraction negated(Fraction a) { return {-a.above, a.below}; }

bool less(Fraction a, Fraction b) {
  const auto difference = sum(a, negated(b));
  if (difference) return difference->above < 0;
  // Too fine to subtract exactly: the quotients tell them apart well enough to order them.
  return static_cast<double>(a.above) / static_cast<double>(a.below) <
         static_cast<double>(b.above) / static_cast<double>(b.below);
}

Quantity quantity(Length length) { return {Quantity::Kind::Length, {length.nm, 1}}; }

std::optional<Length> as_length(const Quantity& quantity, Length unit) {
  std::optional<Fraction> nm = quantity.value;
  if (quantity.kind == Quantity::Kind::Bare) nm = product(quantity.value, {unit.nm, 1});
  if (!nm) return std::nullopt;
  const Wide half = nm->above < 0 ? -nm->below / 2 : nm->below / 2;
  const Wide nearest = (nm->above + half) / nm->below;
  if (magnitude(nearest) > Wide{100'000} * nm_per_mm) return std::nullopt;
  return Length{static_cast<std::int64_t>(nearest)};
}

std::string kind_words(const Quantity& quantity) {
  return quantity.kind == Quantity::Kind::Length ? "a length" : "a number";
}

namespace {

std::string character(std::uint32_t code) {
  std::string out;
  detail::append_character(out, code);
  return out;
}

// Char of XML 1.0, 2.2, without those it discourages as no characters.
bool is_xml_character(std::uint32_t code) {
  return code == 0x9 || code == 0xA || code == 0xD || (code >= 0x20 && code <= 0xD7FF) ||
         (code >= 0xE000 && code <= 0x10FFFF && !detail::is_noncharacter(code));
}

} // namespace

namespace {

std::string entity_text(std::string_view name) {
  if (name == "lt") return "<";
  if (name == "gt") return ">";
  if (name == "amp") return "&";
  if (name == "quot") return "\"";
  if (name == "apos") return "'";
  if (name.size() < 2 || name[0] != '#') return {};
  const bool hex = name[1] == 'x';
  const std::string_view digits = name.substr(hex ? 2 : 1);
  std::uint32_t code = 0;
  const char* end = digits.data() + digits.size();
  const auto [stop, fault] = std::from_chars(digits.data(), end, code, hex ? 16 : 10);
  if (fault != std::errc{} || stop != end || !is_xml_character(code)) return {};
  return character(code);
}

bool belongs_to_reference(char c) {
  return is_letter(c) || is_digit(c) || c == '#' || c == '_' || c == ':' || c == '-' || c == '.' ||
         static_cast<unsigned char>(c) >= 0x80;
}

} // namespace

Reference reference_at(std::string_view text, std::size_t at) {
  const std::size_t limit = std::min(text.size(), at + longest_reference);
  std::size_t end = at + 1;
  while (end < limit && belongs_to_reference(text[end])) ++end;
  Reference one;
  one.name = text.substr(at + 1, end - at - 1);
  one.closed = end < limit && text[end] == ';';
  one.length = end - at + (one.closed ? 1 : 0);
  one.looked_at = std::min(end + 1, limit) - at;
  if (one.closed) one.text = entity_text(one.name);
  return one;
}

Value::Value(const SourceText& source, std::int32_t file, std::size_t from, std::size_t length,
             As as)
    : source_(&source), file_(file), from_(from), length_(length) {
  const std::string_view raw = source.text().substr(from, length);
  for (std::size_t i = 0; i < raw.size();) {
    std::string decoded;
    std::size_t taken = 1;
    bool written_out = false; // by a reference: a blank given so is meant
    if (raw[i] == '&') {
      Reference reference = reference_at(raw, i);
      if (!reference.text.empty()) {
        decoded = std::move(reference.text);
        taken = reference.length;
        written_out = true;
      }
    } else if (raw[i] == '\r') {
      decoded = "\n";
      if (i + 1 < raw.size() && raw[i + 1] == '\n') taken = 2;
    }
    if (decoded.empty()) decoded = raw.substr(i, 1);
    const bool blank = decoded == " " || decoded == "\t" || decoded == "\n";
    if (blank && as == As::Attribute && !written_out) decoded = " ";
    if (blank && as == As::Prose && !written_out) {
      if (!text_.empty() && text_.back() != ' ') push(" ", from + i);
    } else {
      push(decoded, from + i);
      if (taken != decoded.size()) joints_.push_back({text_.size(), from + i + taken});
    }
    i += taken;
  }
  if (as == As::Prose && !text_.empty() && text_.back() == ' ') text_.pop_back();
}

void Value::push(std::string_view bytes, std::size_t source_at) {
  const bool in_step = !joints_.empty() && joints_.back().source_at + text_.size() ==
                                               source_at + joints_.back().text_at;
  if (!in_step) joints_.push_back({text_.size(), source_at});
  text_ += bytes;
}

std::size_t Value::source_at(std::size_t at) const {
  const auto after =
      std::upper_bound(joints_.begin(), joints_.end(), at,
                       [](std::size_t value, const Joint& joint) { return value < joint.text_at; });
  if (after == joints_.begin()) return from_ + length_;
  const Joint& joint = *(after - 1);
  return joint.source_at + (at - joint.text_at);
}

Place Value::place(std::size_t at, std::size_t length) const {
  if (source_ == nullptr) return {};
  const std::size_t from = at < text_.size() ? source_at(at) : from_ + length_;
  std::size_t to = from;
  if (length > 0 && at < text_.size()) {
    const std::size_t last = std::min(at + length, text_.size());
    to = last < text_.size() ? source_at(last) : from_ + length_;
  }
  return source_->place(file_, from, to > from ? to - from : 1);
}

Place Value::place() const {
  if (source_ == nullptr) return {};
  if (!text_.empty()) return place(0, text_.size());
  return source_->place(file_, from_, std::max<std::size_t>(length_, 1));
}

void Value::append(const Value& more) {
  if (source_ == nullptr) {
    *this = more;
    return;
  }
  if (more.text_.empty()) return;
  if (!text_.empty()) text_ += ' ';
  for (const Joint& joint : more.joints_)
    joints_.push_back({joint.text_at + text_.size(), joint.source_at});
  text_ += more.text_;
  length_ = more.from_ + more.length_ - from_;
}

namespace {

constexpr std::string_view expected_amount =
    "an amount: as needed, whole, 2 whole, 1/2 of a pack, 22 in, 20, 4 sheets, 2 of 6 x 12";

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

} // namespace

Parsed<Amount> parse_amount(std::string_view text, Unit bare) {
  using Kind = Amount::Kind;
  const Span span = trimmed_span(text, {0, text.size()});
  const std::string_view words = slice(text, span);
  Amount amount;
  if (words == "as needed") return amount;
  if (one_of(words, {"whole", "a whole one", "a whole pack"})) {
    amount.kind = Kind::Whole;
    return amount;
  }
  detail::TextCursor cursor(words);
  const auto number = detail::read_number(cursor, expected_amount);
  if (!number) {
    ParseError why = number.parse_error();
    why.at += span.from;
    return why;
  }
  const auto& n = *number;
  cursor.skip_blanks();
  const std::string_view rest = cursor.rest();
  const auto fault = [&](std::string fix) {
    return detail::parse_error(text, span.from, span.to, expected_amount, std::move(fix));
  };
  if (is_length_unit(rest)) {
    const auto length = parse_length(words, bare);
    if (!length || (*length).nm <= 0) return fault("write a length of more than nothing");
    amount.kind = Kind::Length;
    amount.length = *length;
    return amount;
  }
  constexpr std::int64_t most = 1'000'000;
  const bool whole = n.numerator == 0 && n.whole >= 1 && n.whole <= most;
  if (one_of(rest, {"of a pack", "pack", "of a bolt", "bolt", "of a spool", "spool", "packs"})) {
    if (whole) {
      amount.kind = Kind::Whole;
      amount.count = static_cast<int>(n.whole);
      return amount;
    }
    if (n.whole != 0 || n.decimal || n.numerator < 1 || n.numerator >= n.denominator ||
        n.denominator > 1000)
      return fault("write the share as a fraction below 1, such as 1/2 of a pack");
    amount.kind = Kind::Share;
    amount.numerator = static_cast<int>(n.numerator);
    amount.denominator = static_cast<int>(n.denominator);
    return amount;
  }
  if (!whole) return fault("write a whole number, a length with its unit, or a share of a pack");
  amount.count = static_cast<int>(n.whole);
  if (rest == "whole") {
    amount.kind = Kind::Whole;
    return amount;
  }
  if (rest.empty() || one_of(rest, {"pieces", "piece", "sheets", "sheet"})) {
    amount.kind = Kind::Count;
    return amount;
  }
  if (rest.starts_with("of ")) {
    const auto size = parse_size(rest.substr(3), bare);
    if (size && (*size).width.nm > 0 && (*size).height.nm > 0) {
      amount.kind = Kind::Sheets;
      amount.piece = *size;
      return amount;
    }
  }
  return fault("write it as one of these");
}

} // namespace leafwright::reading
