#include "measure/index.h"
#include "page/internal/blocks.h"
#include "page/internal/paragraph.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::page {

namespace {

std::string link_words(const guide::Heading& heading) {
  if (!heading.link.empty()) return heading.link;
  return heading.number.empty() ? heading.text : heading.number + " " + heading.text;
}

// What stands small beside a heading, at the right, or below it; where it ends.
Length add_aside(std::vector<Op>& ops, const std::string& words, Point at, Length width,
                 bool at_right, Context& context) {
  TextStyle style = context.look.style("heading-aside");
  if (at_right) style.align = TextStyle::Align::Right;
  ops.emplace_back(OpenNode{node_of("P"), false});
  for (const SetLine& line : Paragraph(plain(words), style, context).set(width - at.x, context)) {
    ops.emplace_back(Inset{at, line.frame});
    at.y += style.leading;
  }
  ops.emplace_back(CloseNode{});
  return at.y;
}

} // namespace

Op rule_at(Length x, Length y, Length width, Length thickness, Colour colour) {
  Stroke rule;
  rule.path = straight({x, y}, {x + width, y});
  rule.colour = colour;
  rule.width = thickness;
  return DrawItem{std::move(rule)};
}

Flow heading_flow(const guide::Heading& heading, Length width, Context& context) {
  const int level = std::clamp(heading.level, 1, 3);
  const TextStyle& style = context.look.style(fmt::format("heading-{}", level));
  const TextStyle& aside_style = context.look.style("heading-aside");
  // The number hangs before the title; the title's further lines stand under its first.
  Length indent{};
  FramePtr number;
  if (!heading.number.empty()) {
    TextStyle number_style = style;
    number_style.colour = context.look.colour("accent");
    const guide::Inlines words = plain(heading.number + " ");
    const Length number_width = Paragraph(words, number_style, context).widest();
    indent = number_width + style.size * 6 / 10;
    number = paragraph_frame(words, number_style, number_width + points(1), context, "");
  }
  const Paragraph title(plain(heading.text), style, context);
  const Paragraph aside(plain(heading.aside), aside_style, context);
  const Length aside_width = aside.empty() ? Length{} : aside.widest();
  const Length gap = context.look.gutter;
  const bool aside_beside = !aside.empty() && title.widest() + indent + gap + aside_width <= width;
  const std::vector<SetLine> lines = title.set(width - indent, context);

  std::vector<Op> ops;
  if (level == 1)
    ops.emplace_back(OutlineHere{
        level, heading.number.empty() ? heading.text : heading.number + "  " + heading.text});
  else if (!heading.anchor.empty())
    ops.emplace_back(OutlineHere{level, heading.text});
  if (!heading.anchor.empty()) ops.emplace_back(AnchorHere{heading.anchor, link_words(heading)});
  ops.emplace_back(OpenNode{node_of(fmt::format("H{}", level)), false});
  if (number) ops.emplace_back(Inset{{}, number});
  Length y{};
  for (const SetLine& line : lines) {
    ops.emplace_back(Inset{{indent, y}, line.frame});
    y += style.leading;
  }
  ops.emplace_back(CloseNode{});
  if (!aside.empty()) {
    const Length top =
        baseline_in(style.leading, context.look) - baseline_in(aside_style.leading, context.look);
    const Length below =
        add_aside(ops, heading.aside, aside_beside ? Point{{}, top} : Point{indent, y}, width,
                  aside_beside, context);
    if (!aside_beside) y = below;
  }
  if (level == 1) {
    ops.emplace_back(
        rule_at({}, y + context.look.grid, width, context.look.hairline, context.colour("rule")));
    y += context.look.grid;
  }
  FlowItem item;
  item.frame = frame_of(std::move(ops), {width, on_grid(y + style.after, context.look.grid)});
  item.space_before = style.before;
  item.keep_with_next = true;
  return {item};
}

Flow body_flow(const guide::Paragraph& paragraph, Length width, Context& context) {
  using enum guide::Paragraph::Kind;
  const TextStyle& style = context.look.style(paragraph.kind == Lead    ? "lead"
                                              : paragraph.kind == Small ? "small"
                                                                        : "body");
  Flow flow = paragraph_flow(paragraph.text, style, width, context);
  // Words under a title are short and read at once.
  if (paragraph.kind == Lead)
    for (std::size_t i = 0; i + 1 < flow.size(); ++i) flow[i].keep_with_next = true;
  return flow;
}

Flow list_flow(const guide::List& list, Length width, Context& context) {
  const TextStyle& style = context.look.style("list");
  const Length indent = on_grid(style.size * 3 / 2, points(7));
  Flow flow;
  int count = 0;
  for (const guide::Inlines& text : list.items) {
    ++count;
    TextStyle label_style = style;
    label_style.colour = context.look.colour("accent");
    Flow item = paragraph_flow(text, style, width - indent, context, "");
    if (item.empty()) continue;
    for (FlowItem& line : item)
      line.frame = frame_of({Inset{{indent, {}}, line.frame}}, {width, line.frame->size.height});
    const FramePtr label =
        paragraph_frame(plain((list.numbered ? fmt::format("{}.", count) : std::string("•")) + " "),
                        label_style, indent, context, "");
    enclose(item,
            {OpenNode{node_of("LI"), false}, OpenNode{node_of("Lbl"), false}, Inset{{}, label},
             CloseNode{}, OpenNode{node_of("LBody"), false}},
            {CloseNode{}, CloseNode{}});
    item.front().space_before = flow.empty() ? style.before : style.after;
    std::move(item.begin(), item.end(), std::back_inserter(flow));
  }
  constexpr std::size_t short_list = 3; // items: not parted
  if (list.items.size() <= short_list)
    for (std::size_t i = 0; i + 1 < flow.size(); ++i) flow[i].keep_with_next = true;
  Node node = node_of("L");
  node.list_numbering = list.numbered ? "Decimal" : "Disc";
  enclose(flow, {OpenNode{std::move(node), false}}, {CloseNode{}});
  return flow;
}

Flow notice_flow(const guide::Notice& notice, Length width, Context& context) {
  using enum guide::Notice::Kind;
  const TextStyle& style = context.look.style("notice");
  const bool stern = notice.kind == Caution || notice.kind == Warning || notice.kind == Draft;
  const Colour colour = context.colour(stern ? "caution" : "accent");
  guide::Inlines text;
  if (!notice.title.empty()) {
    text.emplace_back(guide::Words{notice.title, guide::Words::Style::Strong});
    text.emplace_back(guide::Words{" "});
  }
  text.insert(text.end(), notice.text.begin(), notice.text.end());
  const Length indent = points(12);
  const Length bar = stern ? points(3) : points(1.5);
  const FramePtr words = paragraph_frame(text, style, width - indent, context);
  std::vector<Op> ops;
  ops.emplace_back(Furniture{true});
  Stroke line;
  line.path = straight({bar / 2, points(1.5)}, {bar / 2, words->size.height + points(1.5)});
  line.colour = colour;
  line.width = bar;
  if (notice.kind == Alternative) line.dash = {points(3), points(2)};
  ops.emplace_back(DrawItem{std::move(line)});
  ops.emplace_back(Furniture{false});
  ops.emplace_back(Inset{{indent, {}}, words});
  FlowItem item;
  item.frame = frame_of(std::move(ops), {width, words->size.height});
  item.space_before = std::max(style.before, context.look.grid);
  return {item};
}

namespace {

// Lines of a table of contents, all to the same measures.
class ContentsSetter {
 public:
  ContentsSetter(Length width, Context& context)
      : width_(width), context_(context), style_(context.look.style("contents")),
        aside_style_(context.look.style("contents-aside")), page_style_(style_),
        number_style_(style_) {
    page_style_.align = TextStyle::Align::Right;
    page_style_.tabular = true;
    number_style_.colour = context.look.colour("accent");
    const bool any_number = std::ranges::any_of(
        context.contents, [](const auto& line) { return !line.number.empty(); });
    if (any_number) hang_ = on_grid(style_.size * 3 / 2, points(7));
  }

  FlowItem entry(const Context::ContentsLine& line) {
    const Paragraph title(plain(line.title + " "), style_, context_);
    const Paragraph page(plain(context_.label(line.anchor)), page_style_, context_);
    const Length page_width = page.widest();
    std::vector<Op> ops;
    ops.emplace_back(OpenNode{node_of("TOCI"), false});
    // ISO 32000-1, 14.8.4.2: no Link directly in an entry of a table of contents.
    ops.emplace_back(OpenNode{node_of("Reference"), false});
    ops.emplace_back(OpenNode{node_of("Link"), false});
    if (!line.number.empty())
      ops.emplace_back(
          Inset{{}, paragraph_frame(plain(line.number + " "), number_style_, hang_, context_, "")});
    Length y{};
    Length used{};
    for (const SetLine& set :
         title.set(width_ - hang_ - page_width - context_.look.gutter, context_)) {
      ops.emplace_back(Inset{{hang_, y}, set.frame});
      y += style_.leading;
      used = hang_ + set.used;
    }
    const Length last_y = y - style_.leading;
    add_aside(ops, line, last_y, width_ - page_width - context_.look.gutter, used);
    // A leader of dots that stand under each other from line to line.
    const Length pitch = points(7);
    const Length baseline = last_y + baseline_in(style_.leading, context_.look);
    ops.emplace_back(Furniture{true});
    for (Length x = on_grid(used + points(10), pitch); x < width_ - page_width - points(7);
         x += pitch)
      ops.emplace_back(DrawItem{
          Fill{circle({x, baseline - points(0.6)}, points(0.55)), context_.colour("rule"), 1.0}});
    ops.emplace_back(Furniture{false});
    for (const SetLine& set : page.set(width_, context_))
      ops.emplace_back(Inset{{Length{}, last_y}, set.frame});
    ops.emplace_back(LinkHere{{{}, {width_, y}}, line.anchor});
    ops.insert(ops.end(), 3, CloseNode{});
    FlowItem item;
    item.frame = frame_of(std::move(ops), {width_, on_grid(y, context_.look.grid)});
    item.space_before = style_.before;
    return item;
  }

 private:
  // What stands small behind the title, where there is room up to `right`.
  void add_aside(std::vector<Op>& ops, const Context::ContentsLine& line, Length y, Length right,
                 Length& used) {
    const Paragraph aside(plain(line.aside), aside_style_, context_);
    if (aside.empty() || aside.widest() + points(14) > right - used) return;
    const Length drop = baseline_in(style_.leading, context_.look) -
                        baseline_in(aside_style_.leading, context_.look);
    for (const SetLine& set : aside.set(aside.widest() + points(1), context_)) {
      ops.emplace_back(Inset{{used + points(8), y + drop}, set.frame});
      used += points(8) + set.used;
    }
  }

  Length width_;
  Context& context_;
  TextStyle style_, aside_style_, page_style_, number_style_;
  Length hang_{};
};

} // namespace

Flow contents_flow(Length width, Context& context) {
  context.uses_labels = true;
  ContentsSetter setter(width, context);
  Flow flow;
  for (const Context::ContentsLine& line : context.contents) flow.push_back(setter.entry(line));
  enclose(flow, {OpenNode{node_of("TOC"), false}}, {CloseNode{}});
  return flow;
}

namespace {

Length number_width(const Context& context) {
  return on_grid(context.look.style("step-number").size * 14 / 10, context.look.grid);
}

// The photograph of a step, as wide as the words up to a limit.
FramePtr photograph(const guide::Step& step, Length width, const Context& context) {
  if (!step.picture || *step.picture < 0 ||
      as_index(*step.picture) >= context.input.pictures.size())
    return nullptr;
  const LayoutInput::PictureLook& look = context.input.pictures[as_index(*step.picture)];
  if (look.width_px <= 0 || look.height_px <= 0) return nullptr;
  Length wide = std::min(width, millimetres(70));
  Length high = wide * look.height_px / look.width_px;
  const Length tallest = context.text_height / 3;
  if (high > tallest) {
    wide = wide * tallest.nm / high.nm;
    high = tallest;
  }
  auto frame = std::make_shared<Frame>();
  frame->size = {width, on_grid(high, context.look.grid)};
  Node node = node_of("Figure");
  node.alternative = step.picture_words;
  node.box = {{}, {wide, high}};
  frame->ops = {OpenNode{std::move(node), true},
                DrawItem{Image{*step.picture, {{}, {wide, high}}, {}}}, CloseNode{}};
  return frame;
}

} // namespace

FramePtr step_words(const guide::Step& step, Length width, Context& context) {
  const auto [made, fresh] = context.made_words.try_emplace({&step, width.nm});
  if (!fresh) return made->second;
  const TextStyle& number_style = context.look.style("step-number");
  const TextStyle& title_style = context.look.style("step-title");
  const TextStyle& text_style = context.look.style("step-text");
  const TextStyle& parts_style = context.look.style("step-parts");
  const Length indent = number_width(context);
  const Length inner = width - indent;
  auto frame = std::make_shared<Frame>();
  std::vector<Op>& ops = frame->ops;
  // The number is taller than the title: raised, so that the title's top is the figure's top.
  const Length raise = context.look.grid;
  Length y = std::max(number_style.leading - title_style.leading - raise, Length{});
  if (!step.number.empty()) {
    ops.emplace_back(OpenNode{node_of("Lbl"), false});
    ops.emplace_back(Inset{
        {{}, y + title_style.leading - number_style.leading},
        paragraph_frame(plain(step.number + " "), number_style, indent + points(7), context, "")});
    ops.emplace_back(CloseNode{});
  }
  ops.emplace_back(OpenNode{node_of("LBody"), false});
  const auto add = [&](const FramePtr& what, Length x) {
    ops.emplace_back(Inset{{x, y}, what});
    y += what->size.height;
  };
  const Length top = y;
  if (!step.title.empty())
    add(paragraph_frame(plain(step.title), title_style, inner, context), indent);
  if (!step.parts.empty()) add(paragraph_frame(step.parts, parts_style, inner, context), indent);
  // What is done stands below both, over the whole width.
  y = std::max(y, top + title_style.leading + raise) + context.look.grid / 2;
  bool first = true;
  for (const guide::Inlines& paragraph : step.text) {
    if (!first) y += context.look.grid / 2;
    first = false;
    add(paragraph_frame(paragraph, text_style, width, context), {});
  }
  y = on_grid(y, context.look.grid);
  for (const guide::Notice& notice : step.notices) {
    y += context.look.grid;
    add(stacked(notice_flow(notice, width, context), width), {});
  }
  if (const FramePtr photo = photograph(step, width, context)) {
    y += context.look.grid;
    add(photo, {});
  }
  frame->size = {width, on_grid(y, context.look.grid)};
  made->second = frame;
  return frame;
}

} // namespace leafwright::page
