#include "page/internal/blocks.h"
#include "page/paragraph.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::page {

namespace {

FramePtr with_ops(std::vector<Op> ops, Size size) {
  auto frame = std::make_shared<Frame>();
  frame->size = size;
  frame->ops = std::move(ops);
  return frame;
}

std::string link_words(const guide::Heading& heading) {
  if (!heading.link.empty()) return heading.link;
  return heading.number.empty() ? heading.text : heading.number + " " + heading.text;
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
    TextStyle right = aside_style;
    if (aside_beside) right.align = TextStyle::Align::Right;
    const Paragraph words(plain(heading.aside), right, context);
    ops.emplace_back(OpenNode{node_of("P"), false});
    const Length shift = aside_beside ? Length{} : indent;
    const Length top = aside_beside ? baseline_in(style.leading, context.look) -
                                          baseline_in(aside_style.leading, context.look)
                                    : y;
    Length line_y = top;
    for (const SetLine& line : words.set(width - shift, context)) {
      ops.emplace_back(Inset{{shift, line_y}, line.frame});
      line_y += aside_style.leading;
    }
    ops.emplace_back(CloseNode{});
    if (!aside_beside) y = line_y;
  }
  if (level == 1) {
    ops.emplace_back(
        rule_at({}, y + context.look.grid, width, context.look.hairline, context.colour("rule")));
    y += context.look.grid;
  }
  FlowItem item;
  item.frame = with_ops(std::move(ops), {width, on_grid(y + style.after, context.look.grid)});
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
      line.frame = with_ops({Inset{{indent, {}}, line.frame}}, {width, line.frame->size.height});
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
  item.frame = with_ops(std::move(ops), {width, words->size.height});
  item.space_before = std::max(style.before, context.look.grid);
  return {item};
}

Flow contents_flow(Length width, Context& context) {
  const TextStyle& style = context.look.style("contents");
  const TextStyle& aside_style = context.look.style("contents-aside");
  context.uses_labels = true;
  TextStyle right = style;
  right.align = TextStyle::Align::Right;
  right.tabular = true;
  TextStyle numbered = style;
  numbered.colour = context.look.colour("accent");
  const bool any_number =
      std::ranges::any_of(context.contents, [](const auto& line) { return !line.number.empty(); });
  const Length hang = any_number ? on_grid(style.size * 3 / 2, points(7)) : Length{};
  Flow flow;
  for (const Context::ContentsLine& line : context.contents) {
    const std::string label = context.label(line.anchor);
    const Paragraph title(plain(line.title + " "), style, context);
    const Paragraph page(plain(label), right, context);
    const Length page_width = page.widest();
    const std::vector<SetLine> lines =
        title.set(width - hang - page_width - context.look.gutter, context);
    std::vector<Op> ops;
    ops.emplace_back(OpenNode{node_of("TOCI"), false});
    // ISO 32000-1, 14.8.4.2: no Link directly in an entry of a table of contents.
    ops.emplace_back(OpenNode{node_of("Reference"), false});
    ops.emplace_back(OpenNode{node_of("Link"), false});
    if (!line.number.empty())
      ops.emplace_back(
          Inset{{}, paragraph_frame(plain(line.number + " "), numbered, hang, context, "")});
    Length y{};
    Length used{};
    for (const SetLine& set : lines) {
      ops.emplace_back(Inset{{hang, y}, set.frame});
      y += style.leading;
      used = hang + set.used;
    }
    const Length last_y = y - style.leading;
    const Length room = width - page_width - used - context.look.gutter;
    const Paragraph aside(plain(line.aside), aside_style, context);
    const Length drop =
        baseline_in(style.leading, context.look) - baseline_in(aside_style.leading, context.look);
    if (!aside.empty() && aside.widest() + points(14) <= room) {
      for (const SetLine& set : aside.set(aside.widest() + points(1), context)) {
        ops.emplace_back(Inset{{used + points(8), last_y + drop}, set.frame});
        used += points(8) + set.used;
      }
    }
    // A leader of dots that stand under each other from line to line.
    const Length pitch = points(7);
    const Length baseline = last_y + baseline_in(style.leading, context.look);
    Length x = on_grid(used + points(10), pitch);
    ops.emplace_back(Furniture{true});
    for (; x < width - page_width - points(7); x += pitch)
      ops.emplace_back(DrawItem{
          Fill{circle({x, baseline - points(0.6)}, points(0.55)), context.colour("rule"), 1.0}});
    ops.emplace_back(Furniture{false});
    for (const SetLine& set : page.set(width, context))
      ops.emplace_back(Inset{{Length{}, last_y}, set.frame});
    ops.emplace_back(LinkHere{{{}, {width, y}}, line.anchor});
    ops.emplace_back(CloseNode{});
    ops.emplace_back(CloseNode{});
    ops.emplace_back(CloseNode{});
    FlowItem item;
    item.frame = with_ops(std::move(ops), {width, on_grid(y, context.look.grid)});
    item.space_before = style.before;
    flow.push_back(std::move(item));
  }
  enclose(flow, {OpenNode{node_of("TOC"), false}}, {CloseNode{}});
  return flow;
}

} // namespace leafwright::page
