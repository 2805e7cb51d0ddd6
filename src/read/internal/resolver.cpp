#include "read/internal/resolver.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "measure/print_length.h"
#include "model/carrier.h"
#include "read/document.h"
#include "read/internal/elements.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::reading {
namespace {

constexpr std::size_t longest_chain = 150; // keeps a hostile chain of names off the stack
constexpr std::size_t longest_trace = 12;

std::string_view measure_word(Resolver::Measure measure) {
  switch (measure) {
  case Resolver::Measure::Width: return "width";
  case Resolver::Measure::Height: return "height";
  case Resolver::Measure::X: return "left";
  case Resolver::Measure::Y: return "top";
  case Resolver::Measure::Length: return "length";
  }
  return {};
}

} // namespace

Resolver::Resolver(Context& context, const Catalogue& catalogue, const Drafts& drafts)
    : context_(context), catalogue_(catalogue), drafts_(drafts), cells_(drafts.size()) {}

Resolver::Cell& Resolver::cell(int draft, Measure measure) {
  return cells_.at(as_index(draft)).at(as_index(measure));
}

std::string Resolver::words(Step step) const {
  const Draft& draft = drafts_.at(step.draft);
  const std::string name = draft.id.empty() ? std::string(draft.element.name()) : draft.id;
  return fmt::format("{}.{}", name, measure_word(step.measure));
}

Place Resolver::place(Step step) const {
  const bool side = step.measure == Measure::Width || step.measure == Measure::Height;
  const bool length = step.measure == Measure::Length;
  const auto names = side     ? std::array<std::string_view, 4>{"size", "inset", "width", "height"}
                     : length ? std::array<std::string_view, 4>{"length", "extra", "", ""}
                              : std::array<std::string_view, 4>{"at", "places", "", ""};
  for (const std::string_view name : names)
    if (const auto value = drafts_.attribute(step.draft, name)) return value->place();
  return drafts_.at(step.draft).element.place();
}

void Resolver::fail(const Value& value, Span span, std::string_view code, std::string expected,
                    std::string fix, std::string found) {
  if (!span.empty()) span = trimmed_span(value.view(), span);
  Finding finding{Severity::Error,
                  std::string(code),
                  value.place(span.from, span.to - span.from),
                  found.empty() ? detail::shown(slice(value.view(), span)) : std::move(found),
                  std::move(expected),
                  std::move(fix),
                  {}};
  // The innermost step is where the finding stands; those before say who asked for it.
  for (std::size_t i = steps_.size(); i-- > 1 && finding.trace.size() < longest_trace;)
    finding.trace.push_back(
        {place(steps_[i - 1]), fmt::format("{} needs {}", words(steps_[i - 1]), words(steps_[i]))});
  context_.journal.add(std::move(finding));
}

void Resolver::fail_parse(const Value& value, Span span, const ParseError& why,
                          std::string_view code) {
  const std::size_t from = span.from + why.at;
  fail(value, {from, from + why.length}, code, why.expected, why.fix, why.found);
}

void Resolver::note_circle(int draft, Measure measure) {
  const auto first = std::find_if(steps_.begin(), steps_.end(), [&](const Step& step) {
    return step.draft == draft && step.measure == measure;
  });
  const Step begun{draft, measure};
  Finding finding{Severity::Error,
                  "read-circle",
                  place(begun),
                  fmt::format("{} depends on itself", words(begun)),
                  "measures that lead back to a written number",
                  "give one of them as a measure",
                  {}};
  for (auto step = first; step != steps_.end() && finding.trace.size() < longest_trace; ++step) {
    const Step next = step + 1 == steps_.end() ? begun : *(step + 1);
    finding.trace.push_back({place(*step), fmt::format("{} needs {}", words(*step), words(next))});
  }
  context_.journal.add(std::move(finding));
}

std::optional<Length> Resolver::get(int draft, Measure measure) {
  Cell& known = cell(draft, measure);
  switch (known.state) {
  case Cell::State::Known: return known.value;
  case Cell::State::Failed: return std::nullopt;
  case Cell::State::Busy: note_circle(draft, measure); return std::nullopt;
  case Cell::State::Fresh: break;
  }
  if (steps_.size() >= longest_chain) {
    const Step step{draft, measure};
    context_.journal.error("read-chain", place(step),
                           fmt::format("a chain of more than {} measures", longest_chain),
                           "a shorter chain", "give one of them as a measure");
    known.state = Cell::State::Failed;
    return std::nullopt;
  }
  known.state = Cell::State::Busy;
  steps_.push_back({draft, measure});
  const std::optional<Length> value = compute(draft, measure);
  steps_.pop_back();
  Cell& done = cell(draft, measure);
  done = value ? Cell{Cell::State::Known, *value} : Cell{Cell::State::Failed, {}};
  return value;
}

std::optional<Length> Resolver::compute(int draft, Measure measure) {
  const Draft& one = drafts_.at(draft);
  const Project& project = context_.project;
  const Axis axis = measure == Measure::Width || measure == Measure::X ? Axis::Width : Axis::Height;
  const bool side = measure == Measure::Width || measure == Measure::Height;
  switch (one.kind) {
  case Draft::Kind::Base:
    if (!side) return Length{};
    return along(leafwright::at(project.cards, one.card).plan.unfolded, axis);
  case Draft::Kind::Ribbon: return ribbon_measure(draft, measure);
  case Draft::Kind::Embellishment:
    if (one.item < 0) return std::nullopt;
    return side ? along(leafwright::at(project.embellishments, one.item).size, axis)
                : place_of(draft, axis);
  case Draft::Kind::Piece: return side ? side_of_piece(draft, axis) : place_of(draft, axis);
  case Draft::Kind::Window: return side ? side_of_window(draft, axis) : place_of(draft, axis);
  }
  return std::nullopt;
}

std::optional<Length> Resolver::carrier(int card, Draft::On on, Axis axis) {
  const Card& model = leafwright::at(context_.project.cards, card);
  switch (on.kind) {
  case Draft::On::Kind::Draft: return get(on.index, side_of(axis));
  case Draft::On::Kind::Face:
    return along(carrier_size(context_.project, model, {Carrier::Kind::Face, on.index}), axis);
  case Draft::On::Kind::EnvelopeFront:
  case Draft::On::Kind::EnvelopeInside:
    if (model.envelope < 0) return std::nullopt;
    return along(envelope_as_it_lies(context_.project, model), axis);
  }
  return std::nullopt;
}

std::optional<Length> Resolver::carrier(int draft, Axis axis) {
  const Draft& one = drafts_.at(draft);
  if (one.kind == Draft::Kind::Window) return get(one.owner, side_of(axis));
  return carrier(one.card, one.on, axis);
}

// A side must be more than nothing; the finding stands at the attribute that gave it.
std::optional<Length> Resolver::side_of_piece(int draft, Axis axis) {
  const bool across = axis == Axis::Width;
  const std::string_view own = across ? "width" : "height";
  const auto checked = [&](const Value& value, std::optional<Length> length) {
    if (length && length->nm <= 0) {
      fail(value, trimmed_span(value.view(), {0, value.view().size()}), "read-nothing-left",
           "a size of more than nothing", "make it larger, or what is taken away smaller",
           fmt::format("{} would come out as {}", words({draft, side_of(axis)}), *length));
      return std::optional<Length>{};
    }
    return length;
  };
  int level = draft;
  for (int step = 0; level >= 0 && step < 16; ++step) {
    const Element& element = drafts_.at(level).element;
    std::array<std::string_view, 3> order{own, "size", "inset"};
    std::stable_sort(order.begin(), order.end(), [&](std::string_view a, std::string_view b) {
      return element.overridden(a) && !element.overridden(b);
    });
    for (const std::string_view name : order) {
      const auto value = element.attribute(name);
      if (!value) continue;
      const int scope = drafts_.at(level).card;
      const Span whole{0, value->view().size()};
      if (name == own) return checked(*value, length(*value, whole, scope, axis));
      if (name == "size") return checked(*value, side(*value, scope, axis));
      const auto around = length(*value, whole, scope, axis);
      const auto on = carrier(draft, axis);
      if (!around || !on) return std::nullopt;
      return checked(*value, *on - *around * 2);
    }
    level = drafts_.at(level).like;
  }
  const Draft& one = drafts_.at(draft);
  if (one.item >= 0) return along(leafwright::at(context_.project.dies, one.item).size, axis);
  if (drafts_.attribute(draft, "outline-of")) return side_around(*this, draft, axis);
  if (one.element.is("band") && across) return band_length(draft);
  const bool die_is_wrong = drafts_.attribute(draft, "die").has_value();
  if (!die_is_wrong && one.like < 0) {
    const bool other = one.element.has(across ? "height" : "width");
    context_.journal.error("read-no-size", one.element.place(),
                           other ? fmt::format("<{}> without {}", one.element.name(), own)
                                 : fmt::format("<{}> without a size", one.element.name()),
                           "a size, an inset, or a die",
                           other ? fmt::format("write {}=\"…\"", own)
                                 : "write size=\"3 x 4\" or inset=\"1/8\"");
  }
  return std::nullopt;
}

// A band goes round the front with an overlap of 1 in (25 mm), common practice.
std::optional<Length> Resolver::band_length(int draft) {
  const auto on = carrier(draft, Axis::Width);
  if (!on) return std::nullopt;
  return *on * 2 + (context_.unit == Unit::Inch ? inches(1) : millimetres(25));
}

std::optional<Length> Resolver::side_of_window(int draft, Axis axis) {
  const Draft& one = drafts_.at(draft);
  if (const auto value = one.element.attribute("size")) return side(*value, one.card, axis);
  if (one.item >= 0) return along(leafwright::at(context_.project.dies, one.item).size, axis);
  if (!one.element.has("die"))
    context_.journal.error("read-no-size", one.element.place(), "<window> without a size",
                           "a size or a die", "write size=\"2 x 2\" or die=\"…\"");
  return std::nullopt;
}

std::optional<ParsedPosition> Resolver::position_in(const Value& value) {
  const Parsed<ParsedPosition> position = parse_position(value.view());
  if (position) return *position;
  fail_parse(value, {}, position.parse_error(), "read-position");
  return std::nullopt;
}

std::optional<Length> Resolver::place_of(int draft, Axis axis) {
  const Draft& one = drafts_.at(draft);
  if (const auto value = drafts_.attribute(draft, "places")) {
    const std::vector<Point> all = points(*value, one.card);
    if (all.empty()) return std::nullopt;
    return axis == Axis::Width ? all.front().x : all.front().y;
  }
  const auto own = get(draft, side_of(axis));
  const Draft::On on =
      one.kind == Draft::Kind::Window ? Draft::On{Draft::On::Kind::Draft, one.owner} : one.on;
  const auto value = drafts_.attribute(draft, "at");
  if (!value) {
    const auto whole = carrier(one.card, on, axis);
    if (!whole || !own) return std::nullopt;
    return (*whole - *own) / 2;
  }
  const auto position = position_in(*value);
  if (!position) return std::nullopt;
  // Without a size of its own the position is still looked through for faults.
  const auto at = coordinate(*value, *position, one.card, on, axis, own.value_or(Length{}));
  return own ? at : std::nullopt;
}

std::optional<Length> Resolver::coordinate(const Value& value, const ParsedPosition& position,
                                           int card, Draft::On on, Axis axis, Length own) {
  const Along& along = axis == Axis::Width ? position.across : position.down;
  std::optional<Length> distance = Length{};
  if (!along.distance.empty()) distance = length(value, along.distance, card, axis);
  if (!distance) return std::nullopt;
  if (!along.given && position.over) {
    const auto centre = centre_over(value, *position.over, card, on, axis);
    if (!centre) return std::nullopt;
    return *centre - own / 2;
  }
  if (along.kind == Along::Kind::FromNear) return distance;
  const auto whole = carrier(card, on, axis);
  if (!whole) return std::nullopt;
  if (along.kind == Along::Kind::FromFar) return *whole - own - *distance;
  return (*whole - own) / 2 + (along.back ? -*distance : *distance);
}

std::vector<Point> Resolver::points(const Value& value, int card) {
  std::vector<Point> list;
  constexpr std::size_t most = 2000;
  for (const Span& raw : split_outside(value.view(), {0, value.view().size()}, ';')) {
    const Span part = trimmed_span(value.view(), raw);
    if (part.empty() && raw.to == value.view().size() && !list.empty()) break; // a ; at the end
    const std::vector<Span> sides = split_outside(value.view(), part, ',');
    if (sides.size() != 2 || part.empty()) {
      fail(value, part, "read-position", "points such as 3/8, 1/2; 1 1/4, 2",
           "write across, down for each point and ; between points");
      return {};
    }
    const auto x = length(value, trimmed_span(value.view(), sides[0]), card, Axis::Width);
    const auto y = length(value, trimmed_span(value.view(), sides[1]), card, Axis::Height);
    if (!x || !y) return {};
    list.push_back({*x, *y});
    if (list.size() > most) {
      fail(value, part, "read-too-many", fmt::format("at most {} points", most), "use fewer");
      return {};
    }
  }
  return list;
}

// Overlap of a ribbon's ends or what a tie takes, common practice.
std::optional<Length> Resolver::ribbon_measure(int draft, Measure measure) {
  const Draft& one = drafts_.at(draft);
  if (one.item < 0) return std::nullopt;
  const Length breadth = leafwright::at(context_.project.ribbons, one.item).width;
  const bool upright = drafts_.attribute(draft, "along").value_or(Value{}).view() == "height";
  switch (measure) {
  case Measure::Width:
  case Measure::Height: return breadth;
  case Measure::X: return Length{};
  case Measure::Y: break;
  case Measure::Length: {
    if (const auto given = one.element.attribute("length"))
      return length(*given, {0, given->view().size()}, one.card, Axis::Width);
    const auto whole = carrier(draft, upright ? Axis::Height : Axis::Width);
    if (!whole) return std::nullopt;
    const std::string as = one.element.attribute("as").value_or(Value{}).text();
    const bool inch = context_.unit == Unit::Inch;
    Length extra = inch ? inches(1) : millimetres(25);
    if (as == "bow") extra = inch ? inches(10) : millimetres(250);
    if (as == "knot") extra = inch ? inches(5) : millimetres(130);
    if (const auto given = one.element.attribute("extra")) {
      const auto said = length(*given, {0, given->view().size()}, one.card, Axis::Width);
      if (!said) return std::nullopt;
      extra = *said;
    }
    const bool band = as.empty() || as == "band";
    return (band ? *whole : *whole * 2) + extra;
  }
  }
  const Axis axis = upright ? Axis::Width : Axis::Height;
  const auto whole = carrier(draft, axis);
  if (!whole) return std::nullopt;
  const auto value = one.element.attribute("at");
  if (!value) return *whole / 2;
  const auto position = position_in(*value);
  if (!position) return std::nullopt;
  // The distances of a ribbon are those of its centre line: a thing without breadth.
  return coordinate(*value, *position, one.card, one.on, axis, {});
}

} // namespace leafwright::reading
