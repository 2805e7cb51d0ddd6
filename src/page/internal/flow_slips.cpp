#include "measure/index.h"
#include "page/internal/blocks.h"
#include "page/internal/paragraph.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>

namespace leafwright::page {

namespace {

// What the ticks say and how, in one word.
std::string key_of(const guide::Ticks& ticks, Length width) {
  std::string key =
      std::to_string(ticks.columns) + " " + std::to_string(width.nm) + " " + ticks.name;
  const auto add = [&](char kind, std::string_view words) {
    key += '\x1F';
    key += kind;
    key += words;
  };
  for (const guide::Inlines& item : ticks.items) {
    key += '\x1E';
    for (const guide::Inline& one : item)
      std::visit(
          [&](const auto& thing) {
            using Thing = std::decay_t<decltype(thing)>;
            if constexpr (std::is_same_v<Thing, guide::Words>)
              add(static_cast<char>('0' + static_cast<int>(thing.style)), thing.text);
            else if constexpr (std::is_same_v<Thing, guide::PieceLetter>)
              add('L', thing.letter);
            else if constexpr (std::is_same_v<Thing, guide::InkChip>)
              add('I', std::to_string(thing.ink));
            else if constexpr (std::is_same_v<Thing, guide::PageOf>)
              add('P', thing.anchor);
            else if constexpr (std::is_same_v<Thing, guide::Go>)
              add('G', thing.target + '\x1F' + thing.text);
            else
              add('T', {});
          },
          one);
  }
  return key;
}

// In a column of its own at the left; a caption of the list.
FramePtr ticks_name(const guide::Ticks& ticks, const TextStyle& style, Context& context) {
  if (ticks.name.empty()) return nullptr;
  const guide::Inlines words{guide::Words{ticks.name, guide::Words::Style::Strong}};
  const FramePtr set = paragraph_frame(words, style, style.size * 5, context, "");
  return frame_of({OpenNode{node_of("Caption"), false}, Inset{{}, set}, CloseNode{}}, set->size);
}

bool holds_letters(const guide::Ticks& ticks, std::size_t from, std::size_t count) {
  const std::size_t end = std::min(from + count, ticks.items.size());
  return std::any_of(ticks.items.begin() + static_cast<std::ptrdiff_t>(from),
                     ticks.items.begin() + static_cast<std::ptrdiff_t>(end),
                     [](const guide::Inlines& item) {
                       return std::ranges::any_of(item, [](const guide::Inline& one) {
                         return std::holds_alternative<guide::PieceLetter>(one);
                       });
                     });
}

Flow fresh_ticks(const guide::Ticks& ticks, Length width, Context& context) {
  const auto columns = as_index(std::max(ticks.columns, 1));
  const TextStyle& style = context.look.style("tick");
  const Length gap = context.look.gutter;
  const FramePtr name = ticks_name(ticks, style, context);
  const Length left = name ? style.size * 5 : Length{};
  const Length column = (width - left - gap * static_cast<std::int64_t>(columns - 1)) /
                        static_cast<std::int64_t>(columns);
  Flow flow;
  for (std::size_t from = 0; from < ticks.items.size(); from += columns) {
    auto frame = std::make_shared<Frame>();
    Length tallest{};
    if (from == 0 && name) frame->ops.emplace_back(Inset{{}, name});
    for (std::size_t c = 0; c < columns && from + c < ticks.items.size(); ++c) {
      const Length x = left + (column + gap) * static_cast<std::int64_t>(c);
      const FramePtr box =
          paragraph_frame(guide::Inlines{guide::TickBox{}}, style, style.size * 2, context, "");
      const Length indent = style.size * 3 / 2;
      const FramePtr words =
          paragraph_frame(ticks.items[from + c], style, column - indent, context, "");
      frame->ops.emplace_back(OpenNode{node_of("LI"), false});
      frame->ops.emplace_back(OpenNode{node_of("Lbl"), false});
      frame->ops.emplace_back(Inset{{x, {}}, box});
      frame->ops.emplace_back(CloseNode{});
      frame->ops.emplace_back(OpenNode{node_of("LBody"), false});
      frame->ops.emplace_back(Inset{{x + indent, {}}, words});
      frame->ops.emplace_back(CloseNode{});
      frame->ops.emplace_back(CloseNode{});
      tallest = std::max({tallest, words->size.height, box->size.height});
    }
    frame->size = {width, tallest};
    FlowItem item;
    item.frame = std::move(frame);
    item.space_before = from == 0 ? style.before : style.after;
    // Dots are taller than close lines: those of one row stand clear of the next one's.
    if (holds_letters(ticks, from, columns))
      item.space_before =
          std::max(item.space_before, context.figure_look.badge_size + points(0.5) - style.leading);
    flow.push_back(std::move(item));
  }
  Node list = node_of("L");
  list.list_numbering = "None";
  enclose(flow, {OpenNode{std::move(list), false}}, {CloseNode{}});
  return flow;
}

} // namespace

Flow ticks_flow(const guide::Ticks& ticks, Length width, Context& context) {
  const auto [made, fresh] = context.made_ticks.try_emplace(key_of(ticks, width));
  if (fresh) made->second = fresh_ticks(ticks, width, context);
  return made->second;
}

namespace {

// The slip as one frame of that height.
FramePtr whole_slip(const Flow& flow, Length width, Length tall) {
  auto frame = std::make_shared<Frame>();
  frame->ops.emplace_back(OpenNode{node_of("Sect"), false});
  frame->ops.emplace_back(Inset{{}, stacked(flow, width)});
  frame->ops.emplace_back(CloseNode{});
  frame->size = {width, tall};
  return frame;
}

// A dashed line across, `above` the frame's top, with which one slip is cut from the other.
FramePtr with_cut_line(FramePtr slip, Length above, Context& context) {
  auto frame = std::make_shared<Frame>();
  frame->size = slip->size;
  Stroke line;
  line.path = straight({{}, -above}, {slip->size.width, -above});
  line.colour = context.colour("quiet");
  line.width = context.look.hairline;
  line.dash = {points(4), points(3)};
  frame->ops.emplace_back(Furniture{true});
  frame->ops.emplace_back(DrawItem{std::move(line)});
  frame->ops.emplace_back(Furniture{false});
  frame->ops.emplace_back(Inset{{}, std::move(slip)});
  return frame;
}

} // namespace

namespace {

// A quarter, a third or a half of the page, so that a pile of pages is cut at one setting; else as
// tall as it is.
Length slip_share(Length tall, Length page, Length gap, const Context& context) {
  for (const std::int64_t parts : {4, 3, 2}) {
    const Length grid = context.look.grid;
    const Length share{(page - gap * (parts - 1)).nm / parts / grid.nm * grid.nm};
    if (tall <= share) return share;
  }
  return tall;
}

} // namespace

SlipRun slip_run(std::span<const guide::Slip> slips, std::size_t least, Length width,
                 Context& context) {
  const Length gap = context.look.grid * 4;
  const Length page = context.text_height;
  SlipRun run;
  Flow& flow = run.flow;
  Length used{}; // of the page begun
  for (const guide::Slip& slip : slips) {
    if (run.taken >= least && used == Length{}) break;
    const Place outer = context.place;
    if (slip.place.line > 0) context.place = slip.place;
    Flow blocks = blocks_flow(slip.blocks, width, context);
    context.place = outer;
    const Length own = height(blocks);
    // Below the last one nothing is cut: a short one takes what the page has left.
    const bool closes = &slip == &slips.back() && used > Length{} && used + gap + own <= page;
    const Length tall = blocks.empty() || closes ? own : slip_share(own, page, gap, context);
    if (used > Length{} && used + gap + tall > page) {
      flow.back().break_after = true;
      used = {};
      if (run.taken >= least) break;
    }
    ++run.taken;
    if (blocks.empty()) continue;
    if (tall > page) {
      enclose(blocks, {OpenNode{node_of("Sect"), false}}, {CloseNode{}});
      blocks.back().break_after = true;
      std::move(blocks.begin(), blocks.end(), std::back_inserter(flow));
      continue;
    }
    FlowItem item;
    item.frame = whole_slip(blocks, width, tall);
    if (used > Length{}) {
      item.space_before = gap;
      item.frame = with_cut_line(item.frame, gap / 2, context);
      flow.back().keep_with_next = true;
      used += gap;
    }
    used += tall;
    flow.push_back(std::move(item));
  }
  return run;
}

Flow slips_flow(const guide::Slips& slips, Length width, Context& context) {
  return slip_run(slips.slips, slips.slips.size(), width, context).flow;
}

} // namespace leafwright::page
