#include "read/edit/internal/measured_values.h"

#include "measure/length.h"
#include "measure/letters.h"
#include "measure/print_length.h"
#include "read/document.h"

#include <algorithm>
#include <array>
#include <span>
#include <utility>

namespace leafwright::edit {
namespace {

using Names = MeasuredAttribute::Names;

// Where the name of a size may stand for it.
struct NamedSides {
  std::string_view element, attribute;
  Names names;
};
constexpr std::array named_sides = {
    NamedSides{"stock", "sheet", Names::Sheets},  NamedSides{"sheet", "size", Names::Sheets},
    NamedSides{"labels", "paper", Names::Sheets}, NamedSides{"card", "size", Names::Cards},
    NamedSides{"card", "unfolded", Names::Cards}, NamedSides{"envelope", "size", Names::Envelopes},
};

std::optional<TypedAs> typed_as(std::string_view type) {
  if (type == "measure") return TypedAs::Length;
  if (type == "sides") return TypedAs::Size;
  if (type == "position") return TypedAs::Position;
  if (type == "points") return TypedAs::Points;
  if (type == "amount") return TypedAs::Amount;
  return std::nullopt;
}

} // namespace

std::optional<MeasuredAttribute> measured(std::string_view element, std::string_view attribute,
                                          bool in_supplies) {
  const bool spool = in_supplies && (element == "ribbon" || element == "twine");
  const auto as = typed_as(reading::value_type(spool ? "spool" : element, attribute));
  if (!as) return std::nullopt;
  MeasuredAttribute one{*as};
  // How far apart squares of adhesive are is her choice too.
  one.bought =
      (in_supplies && attribute != "spacing") || element == "labels" || element == "in-hand";
  const auto named = std::ranges::find_if(named_sides, [&](const NamedSides& row) {
    return row.element == element && row.attribute == attribute;
  });
  if (named != named_sides.end()) one.names = named->names;
  return one;
}

namespace {

class Collector {
 public:
  Collector(std::string_view text, Unit bare, MeasuredValues& to)
      : text_(text), bare_(bare), to_(to) {}

  void element(const ElementSpan& span, const std::string& path, const std::string& card,
               bool in_supplies) {
    const std::string id = value_of(span, "id");
    const std::string own = std::string(span.name) + (id.empty() ? "" : " " + id);
    const bool root = path.empty();
    const std::string here = root ? "project" : path == "project" ? own : path + " / " + own;
    const std::string thing = !id.empty() ? id : span.name == "base" ? "base" : std::string();
    for (const AttributeSpan& one : span.attributes)
      attribute(span, one, {card, thing, here}, in_supplies);
    if (is_prose(span.name)) sentences(span, {card, thing, here});
    const std::string inside = span.name == "card" ? id : card;
    for (const ElementSpan& child : span.children)
      element(child, here, inside, in_supplies || span.name == "supplies");
  }

 private:
  struct Home {
    const std::string& card;
    const std::string& thing;
    const std::string& path;
  };

  std::string value_of(const ElementSpan& span, std::string_view name) const {
    const AttributeSpan* one = span.find(name);
    return one ? std::string(text_.substr(one->value, one->length)) : std::string();
  }

  static bool is_prose(std::string_view name) {
    constexpr std::array prose = {"intro", "caution", "terms", "alternative",
                                  "step",  "tip",     "blurb", "outlay"};
    return std::find(prose.begin(), prose.end(), name) != prose.end();
  }

  void attribute(const ElementSpan& span, const AttributeSpan& one, const Home& home,
                 bool in_supplies) {
    const std::string_view raw = text_.substr(one.value, one.length);
    constexpr std::array in_words = {"name", "title", "subtitle"};
    if (std::find(in_words.begin(), in_words.end(), one.name) != in_words.end())
      to_.words.push_back({one.value, raw});
    const auto measure = measured(span.name, one.name, in_supplies);
    if (!measure) return;
    MeasuredValue value;
    value.card = span.name == "card" ? home.thing : home.card;
    value.thing = home.thing;
    value.element = std::string(span.name);
    value.attribute = std::string(one.name);
    value.where = home.path + ": " + value.attribute;
    value.at = one.value;
    value.name_at = one.begin;
    value.text = std::string(raw);
    value.quote = one.quote;
    value.measured = measure;
    add(std::move(value), measure->as);
  }

  void sentences(const ElementSpan& span, const Home& home) {
    std::size_t from = span.inner_begin;
    for (const ElementSpan& child : span.children) {
      sentence(from, child.begin, home);
      from = child.end;
    }
    sentence(from, span.inner_end, home);
  }

  // Braces as the reader of sentences takes them: doubled ones are signs, comments are not looked
  // into.
  void sentence(std::size_t from, std::size_t to, const Home& home) {
    std::size_t words = from;
    for (std::size_t i = from; i < to; ++i) {
      if (text_.substr(i).starts_with("<!--")) {
        const std::size_t end = std::min(text_.find("-->", i), to);
        to_.words.push_back({words, text_.substr(words, i - words)});
        words = i = end;
        continue;
      }
      if (text_[i] != '{') continue;
      if (i + 1 < to && text_[i + 1] == '{') {
        ++i;
        continue;
      }
      const std::size_t end = text_.find_first_of("{}", i + 1);
      if (end >= to || text_[end] == '{') continue;
      to_.words.push_back({words, text_.substr(words, i - words)});
      MeasuredValue value;
      value.card = home.card;
      value.thing = home.thing;
      value.where = home.path + ", in its words";
      value.at = i + 1;
      value.text = std::string(text_.substr(i + 1, end - i - 1));
      add(std::move(value), TypedAs::Expression);
      words = end + 1;
      i = end;
    }
    if (words < to) to_.words.push_back({words, text_.substr(words, to - words)});
  }

  void add(MeasuredValue value, TypedAs as) {
    if (value.text.find('&') != std::string::npos) {
      to_.unclear.push_back({value.at, text_.substr(value.at, value.text.size())});
      return;
    }
    const auto& measure = value.measured;
    const bool may_be_name = measure && measure->names != MeasuredAttribute::Names::None;
    value.lengths = typed_lengths(value.text, as, bare_);
    if (value.lengths.empty() && !may_be_name) return;
    for (const TypedLength& one : value.lengths) value.now.push_back(one.value);
    to_.values.push_back(std::move(value));
  }

  std::string_view text_;
  Unit bare_;
  MeasuredValues& to_;
};

} // namespace

MeasuredValues measured_values(std::string_view text, const ElementSpan& root, Unit bare) {
  MeasuredValues all;
  Collector(text, bare, all).element(root, "", "", false);
  std::stable_sort(all.values.begin(), all.values.end(),
                   [](const MeasuredValue& a, const MeasuredValue& b) { return a.at < b.at; });
  return all;
}

std::string_view unit_word(Unit unit) { return unit == Unit::Inch ? "in" : "mm"; }

std::string file_number(Length length, Unit unit, Length mark) {
  std::string text = number_text(length, {unit, mark, mark});
  constexpr std::string_view no_break = "\u00A0";
  for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break))
    text.replace(at, no_break.size(), " ");
  return text;
}

std::string written_anew(const MeasuredValue& value, Unit unit, Length mark) {
  if (value.instead) return *value.instead;
  std::string text;
  std::size_t at = 0;
  for (std::size_t i = 0; i < value.lengths.size(); ++i) {
    const TypedLength& one = value.lengths[i];
    // Written in the new unit already, and still right.
    const bool stays = one.unit == unit && value.now[i] == one.value;
    text += value.text.substr(at, one.at - at);
    if (stays) {
      text += value.text.substr(one.at, one.end - one.at);
    } else {
      text += file_number(value.now[i], unit, mark);
      if (one.end > one.at + one.length) text += " " + std::string(unit_word(unit));
    }
    at = one.end;
  }
  return text + value.text.substr(at);
}

std::string with_unit(const MeasuredValue& value, Unit bare) {
  std::string text;
  std::size_t at = 0;
  const bool pair = value.measured && value.measured->as == TypedAs::Size &&
                    value.lengths.size() == 2 && !value.lengths[0].unit && !value.lengths[1].unit;
  for (std::size_t i = 0; i < value.lengths.size(); ++i) {
    const TypedLength& one = value.lengths[i];
    text += value.text.substr(at, one.end - at);
    const bool zero = one.value.nm == 0;
    // The unit at the end of a size serves both of its sides.
    if (!one.unit && !zero && !(pair && i == 0)) text += " " + std::string(unit_word(bare));
    at = one.end;
  }
  return text + value.text.substr(at);
}

namespace {

using Names = MeasuredAttribute::Names;

struct Pair {
  std::string_view inch, metric;
  bool both_ways = true;
};
// Common practice: what stands on the shelf of a shop in its place.
constexpr std::array usual_sheets = {Pair{"letter", "A4"}, Pair{"half-letter", "A5"},
                                     Pair{"tabloid", "A3"}, Pair{"legal", "A4", false}};
constexpr std::array cards = {Pair{"A2", "C6"}, Pair{"A9", "C5"}, Pair{"slimline", "DL"},
                              Pair{"square-5", "square-135"}, Pair{"square-6", "square-150"}};
constexpr std::array envelopes = {Pair{"A2", "C6"}, Pair{"A9", "C5"}, Pair{"slimline", "DL"},
                                  Pair{"square-5", "square-140"}, Pair{"square-6", "square-155"}};

std::span<const Pair> pairs(Names among) {
  switch (among) {
  case Names::Sheets: return usual_sheets;
  case Names::Cards: return cards;
  case Names::Envelopes: return envelopes;
  case Names::None: break;
  }
  return {};
}

} // namespace

std::optional<std::string_view> usual_counterpart(Names among, std::string_view name, Unit to) {
  for (const Pair& pair : pairs(among)) {
    const bool metric = to == Unit::Millimetre;
    if (!metric && !pair.both_ways) continue;
    if (detail::same_ignoring_case(name, metric ? pair.inch : pair.metric))
      return metric ? pair.metric : pair.inch;
  }
  return std::nullopt;
}

std::optional<Size> named_size(Names among, std::string_view name) {
  switch (among) {
  case Names::Sheets: return find_size(sheet_sizes(), name);
  case Names::Cards: return find_size(card_sizes(), name);
  case Names::Envelopes: return find_size(envelope_sizes(), name);
  case Names::None: break;
  }
  return std::nullopt;
}

} // namespace leafwright::edit
