#include "page/internal/furniture.h"

#include "measure/length.h"
#include "measure/parse_length.h"
#include "page/internal/blocks.h"
#include "page/internal/paragraph.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace leafwright::page {

namespace {

// Where a field is empty, its neighbour's separator goes too.
std::string without_outer_separators(std::string text) {
  const std::string_view separator = " · ";
  while (text.ends_with(separator)) text.resize(text.size() - separator.size());
  while (text.starts_with(separator)) text.erase(0, separator.size());
  return text;
}

} // namespace

void replace_all(std::string& text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

PageGeometry page_geometry(const Template& look, const std::string& project_paper, int page_index) {
  const std::string& name = look.paper == "project" ? project_paper : look.paper;
  Size page{inches(8, 1, 2), inches(11)};
  if (const auto named = find_size(sheet_sizes(), name)) {
    page = *named;
  } else if (const Parsed<Size> measured = parse_size(name, Unit::Millimetre)) {
    page = *measured;
  }
  if (look.landscape) page = page.turned();
  const bool even = page_index % 2 == 1;
  const Length left = look.mirrored && even ? look.outer : look.inner;
  const Length right = look.mirrored && even ? look.inner : look.outer;
  Rect area{{left, look.top}, {page.width - left - right, page.height - look.top - look.bottom}};
  // Margins that leave nothing would make every word overfull: at least a business card's width.
  if (area.size.width < millimetres(50)) area.size.width = millimetres(50);
  if (area.size.height < millimetres(50)) area.size.height = millimetres(50);
  // Whole steps of the grid.
  area.size.height = {area.size.height.nm / look.grid.nm * look.grid.nm};
  return {page, area, look.mirrored && even};
}

FramePtr foot_frame(const PageGeometry& geometry, const guide::Document& document,
                    const std::string& running, const std::string& label, std::size_t pages,
                    Context& context) {
  const FootRule& rule = context.look.foot;
  auto frame = std::make_shared<Frame>();
  frame->size = geometry.page;
  const Rect& area = geometry.area;
  TextStyle style = context.look.style("running");
  const Length baseline = area.bottom() + rule.distance;
  if (rule.rule)
    frame->ops.emplace_back(rule_at(area.left(), baseline - style.leading, area.size.width,
                                    context.look.hairline, context.colour("rule")));
  const Length top = baseline - baseline_in(style.leading, context.look);
  const auto add = [&](std::string words, TextStyle::Align align) {
    if (words.find("{pages}") != std::string::npos) context.uses_labels = true;
    // A sheet of one section is called as that section is: once is enough.
    const bool said =
        words.find("{title}") != std::string::npos && document.title.ends_with(running);
    replace_all(words, "{title}", document.title);
    replace_all(words, "{running}", said ? std::string_view{} : running);
    replace_all(words, "{edition}", document.edition);
    replace_all(words, "{author}", document.author);
    replace_all(words, "{pages}", fmt::format("{}", pages));
    replace_all(words, "{page}", label);
    words = without_outer_separators(std::move(words));
    if (words.empty()) return;
    style.align = align;
    style.measure = {};
    frame->ops.emplace_back(Inset{
        {area.left(), top}, paragraph_frame(plain(words), style, area.size.width, context, "")});
  };
  add(geometry.turned ? rule.right : rule.left, TextStyle::Align::Left);
  add(rule.centre, TextStyle::Align::Centre);
  add(geometry.turned ? rule.left : rule.right, TextStyle::Align::Right);
  return frame;
}

DrawItem draft_word(Point centre, Length size, Angle slant, Context& context) {
  const std::string& words = context.look.words.draft;
  const int face = context.fonts.face(text::Role::TextBold);
  text::Shaped large = context.fonts.shape(face, size, words.substr(0, words.find_first_of(":, ")));
  const Colour pale = mixed({false, context.colour("caution"), 0.13}, context.input.accent);
  const double a = in_degrees(slant) * 3.14159265358979323846 / 180.0;
  const double half = static_cast<double>(large.width.nm) / 2.0;
  const double drop = static_cast<double>(size.nm) * 0.35;
  const Point baseline{centre.x + Length{std::llround(-half * std::cos(a) - drop * std::sin(a))},
                       centre.y + Length{std::llround(-half * std::sin(a) + drop * std::cos(a))}};
  return TextRun{std::move(large), baseline, pale, slant, {}};
}

FramePtr draft_frame(const PageGeometry& geometry, Context& context) {
  auto frame = std::make_shared<Frame>();
  frame->size = geometry.page;
  const Point centre{geometry.page.width / 2, geometry.page.height / 2};
  frame->ops.emplace_back(draft_word(centre, geometry.page.width / 4, degrees(-55), context));
  TextStyle style = context.look.style("draft");
  style.align = TextStyle::Align::Right;
  style.measure = {};
  frame->ops.emplace_back(Inset{{geometry.area.left(), geometry.area.top() - style.leading * 2},
                                paragraph_frame(plain(context.look.words.draft), style,
                                                geometry.area.size.width, context, "")});
  return frame;
}

namespace {

constexpr double distance = 9;    // points from the words: clear of them, and off no paper
constexpr double thickness = 1.5; // points

} // namespace

void add_change_bar(std::vector<Op>& ops, Point at, Length height, const Context& context) {
  const Length x = at.x - points(distance);
  Stroke bar;
  bar.path = straight({x, at.y}, {x, at.y + height});
  bar.colour = context.colour("accent");
  bar.width = points(thickness);
  ops.emplace_back(Furniture{true});
  ops.emplace_back(DrawItem{std::move(bar)});
  ops.emplace_back(DrawItem{Mark{"change-bar", {}, {{x, at.y}, {{}, height}}, {{}, height}}});
  ops.emplace_back(Furniture{false});
}

void mark_changed(Flow& flow, const Context& context) {
  for (FlowItem& item : flow) {
    auto frame = std::make_shared<Frame>();
    frame->size = item.frame->size;
    add_change_bar(frame->ops, {}, frame->size.height, context);
    frame->ops.emplace_back(Inset{{}, item.frame});
    item.frame = std::move(frame);
  }
}

namespace {

void stroke(Frame& into, Point from, Point to, Length width, Colour colour) {
  Stroke line;
  line.path = straight(from, to);
  line.width = width;
  line.colour = colour;
  into.ops.emplace_back(DrawItem{std::move(line)});
}

} // namespace

FramePtr ruler_frame(bool inch_first, Context& context) {
  const Length mid = points(12);
  const Colour ink = context.colour("ink");
  auto frame = std::make_shared<Frame>();
  const TextStyle& style = context.look.style("small");
  const auto ticks = [&](Length total, int parts, int major, bool up) {
    for (int k = 0; k <= parts; ++k) {
      const Length x = total * k / parts;
      const Length tall = k % major == 0 ? points(7) : points(4);
      stroke(*frame, {x, mid}, {x, up ? mid - tall : mid + tall}, points(0.5), ink);
    }
  };
  const Length inch_bar = inches(2);
  const Length mm_bar = millimetres(50);
  ticks(inch_bar, 16, 8, inch_first);
  ticks(mm_bar, 10, 2, !inch_first);
  stroke(*frame, {{}, mid}, {std::max(inch_bar, mm_bar), mid}, points(0.8), ink);
  frame->ops.emplace_back(
      DrawItem{Mark{"scale-bar", "inch", {{{}, mid}, {inch_bar, {}}}, {inch_bar, {}}}});
  frame->ops.emplace_back(
      DrawItem{Mark{"scale-bar", "mm", {{{}, mid}, {mm_bar, {}}}, {mm_bar, {}}}});
  const Length label_x = std::max(inch_bar, mm_bar) + points(5);
  const auto label = [&](const char* words, bool up) {
    const FramePtr set = paragraph_frame(plain(words), style, points(60), context, "");
    const Length baseline = baseline_in(style.leading, context.look);
    frame->ops.emplace_back(
        Inset{{label_x, (up ? mid - points(1.5) : mid + points(8)) - baseline}, set});
  };
  label("2 in", inch_first);
  label("50 mm", !inch_first);
  frame->size = {label_x + points(40), points(24)};
  return frame;
}

std::string ruler_words(bool inch_first, const Context& context) {
  std::string words = context.look.words.scale_bar;
  replace_all(words, "{upper}", inch_first ? "2 in" : "50 mm");
  replace_all(words, "{lower}", inch_first ? "50 mm" : "2 in");
  return words;
}

FramePtr check_square_frame(bool inch, Length side, Context& context) {
  auto frame = std::make_shared<Frame>();
  frame->size = {side, side};
  Stroke line;
  line.path = rectangle({{}, frame->size});
  line.width = points(0.5);
  line.colour = context.colour("ink");
  frame->ops.emplace_back(DrawItem{std::move(line)});
  frame->ops.emplace_back(
      DrawItem{Mark{"check-square", inch ? "inch" : "mm", {{}, frame->size}, frame->size}});
  TextStyle style = context.look.style("small");
  style.align = TextStyle::Align::Centre;
  const FramePtr words =
      paragraph_frame(plain(inch ? "1/2 in" : "12 mm"), style, side, context, "");
  frame->ops.emplace_back(Inset{{{}, (side - words->size.height) / 2}, words});
  return frame;
}

Flow note_lines_flow(const guide::NoteLines& lines, Length width, Context& context) {
  const FramePtr title =
      paragraph_frame(plain(lines.title), context.look.style("small"), width, context);
  auto frame = std::make_shared<Frame>();
  frame->ops.emplace_back(Inset{{}, title});
  // Far enough apart for a hand that writes in a hurry.
  const Length apart = context.look.grid * 3;
  Length y = std::max(on_grid(title->size.height, context.look.grid), apart);
  frame->ops.emplace_back(Furniture{true});
  for (int i = 0; i < lines.lines; ++i, y += apart)
    frame->ops.emplace_back(rule_at({}, y, width, context.look.hairline, context.colour("rule")));
  frame->ops.emplace_back(Furniture{false});
  frame->size = {width, y - apart + context.look.grid};
  // More of them to the foot of the page, where there is nothing else.
  auto further = std::make_shared<Frame>();
  further->ops.emplace_back(
      rule_at({}, apart - context.look.grid, width, context.look.hairline, context.colour("rule")));
  further->size = {width, apart};
  FlowItem item;
  item.repeat_below = std::move(further);
  item.frame = std::move(frame);
  item.space_before = context.look.grid * 2;
  return {item};
}

Flow scale_bar_flow(const guide::ScaleBar& bar, Length width, Context& context) {
  if (context.ruled) return {}; // the page has one already
  const FramePtr ruler = ruler_frame(bar.inch_first, context);
  auto frame = std::make_shared<Frame>();
  Node node;
  node.type = "Figure";
  node.alternative = ruler_words(bar.inch_first, context);
  node.box = {{}, ruler->size};
  frame->ops.emplace_back(OpenNode{std::move(node), true});
  frame->ops.emplace_back(Inset{{}, ruler});
  frame->ops.emplace_back(CloseNode{});
  Length y = ruler->size.height + points(3);
  const FramePtr words = paragraph_frame(plain(ruler_words(bar.inch_first, context)),
                                         context.look.style("small"), width, context);
  frame->ops.emplace_back(Inset{{{}, y}, words});
  frame->size = {width, on_grid(y + words->size.height, context.look.grid)};
  FlowItem item;
  item.frame = std::move(frame);
  item.space_before = context.look.grid;
  return {item};
}

FramePtr measured_foot(Length width, Context& context) {
  const bool inch = context.input.printing.unit == Unit::Inch;
  const FramePtr ruler = ruler_frame(inch, context);
  const Length side = inch ? inches(0, 1, 2) : millimetres(12);
  const Length x = ruler->size.width + context.look.gutter;
  const Length square_x = width - side;
  auto frame = std::make_shared<Frame>();
  frame->size = {width, ruler->size.height};
  frame->ops.emplace_back(Inset{{}, ruler});
  frame->ops.emplace_back(
      Inset{{square_x, ruler->size.height - side}, check_square_frame(inch, side, context)});
  frame->ops.emplace_back(
      Inset{{x, points(2)},
            paragraph_frame(plain(ruler_words(inch, context)), context.look.style("small"),
                            square_x - context.look.gutter - x, context, "")});
  return frame;
}

} // namespace leafwright::page
