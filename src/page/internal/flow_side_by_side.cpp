#include "measure/index.h"
#include "page/context.h"
#include "page/internal/blocks.h"

#include <algorithm>
#include <iterator>
#include <span>
#include <utility>

// Texts in columns, of one width unless the first of two takes a share of its own.

namespace leafwright::page {

namespace {

using Texts = std::span<const guide::SideBySide::Text>;

// Narrower than this a line holds too few words.
constexpr Length least_column = points(108);

struct Columns {
  std::size_t count;
  Length width, gap, padding;
  Length wider{}; // by so much the second of two is wider than the first

  Length width_of(std::size_t i) const { return i == 0 ? width : width + wider; }
};

Columns abreast_columns(const guide::SideBySide& abreast, Length width, const Context& context) {
  const Length gap = abreast.framed ? context.look.gutter / 2 : context.look.gutter;
  const Length padding = abreast.framed ? context.look.grid * 2 : Length{};
  const std::size_t all = abreast.texts.size();
  if (abreast.first_percent > 0 && all == 2) {
    const Length first = (width - gap) * abreast.first_percent / 100;
    return {2, first, gap, padding, width - gap - first * 2};
  }
  const auto room = static_cast<std::size_t>(
      std::max<std::int64_t>((width + gap).nm / (least_column + gap).nm, 1));
  const std::size_t rows = (all + room - 1) / room;
  const std::size_t count = (all + rows - 1) / rows; // the rows of one length, or nearly
  const auto gaps = static_cast<std::int64_t>(count - 1);
  return {count, (width - gap * gaps) / static_cast<std::int64_t>(count), gap, padding};
}

// On the page's ground, with a bar in the project's colour above.
void add_card(std::vector<Op>& ops, Rect card, const Context& context) {
  const Length bar = points(2.5);
  ops.emplace_back(Furniture{true});
  ops.emplace_back(DrawItem{Fill{rectangle(card), context.colour("ground"), 1.0}});
  ops.emplace_back(DrawItem{
      Fill{rectangle({card.origin, {card.size.width, bar}}), context.colour("accent"), 1.0}});
  ops.emplace_back(Furniture{false});
}

FlowItem row_of_texts(Texts texts, const Columns& columns, bool framed, Length width,
                      Context& context) {
  std::vector<FramePtr> inner;
  Length tallest{};
  for (const guide::SideBySide::Text& text : texts) {
    const Length room = columns.width_of(inner.size()) - columns.padding * 2;
    inner.push_back(stacked(blocks_flow(text.blocks, room, context), room));
    tallest = std::max(tallest, inner.back()->size.height);
  }
  const Length high = on_grid(tallest + columns.padding * 2, context.look.grid);
  std::vector<Op> ops;
  for (std::size_t i = 0; i < inner.size(); ++i) {
    const Length x = (columns.width + columns.gap) * static_cast<std::int64_t>(i);
    if (framed) add_card(ops, {{x, {}}, {columns.width_of(i), high}}, context);
    ops.emplace_back(OpenNode{node_of("Sect"), false});
    ops.emplace_back(Inset{{x + columns.padding, columns.padding}, inner[i]});
    ops.emplace_back(CloseNode{});
  }
  FlowItem item;
  item.frame = frame_of(std::move(ops), {width, high});
  item.space_before = framed ? context.look.grid * 3 : context.look.grid * 2;
  return item;
}

} // namespace

Flow side_by_side_flow(const guide::SideBySide& abreast, Length width, Context& context) {
  const Texts texts = abreast.texts;
  if (texts.empty()) return {};
  const Columns columns = abreast_columns(abreast, width, context);
  Flow flow;
  bool fits = true;
  for (std::size_t from = 0; from < texts.size(); from += columns.count) {
    const std::size_t count = std::min(columns.count, texts.size() - from);
    flow.push_back(
        row_of_texts(texts.subspan(from, count), columns, abreast.framed, width, context));
    fits = fits && flow.back().frame->size.height <= context.text_height * 7 / 10;
  }
  if (fits) return flow;
  // What fills most of a page must be able to part.
  flow.clear();
  for (const guide::SideBySide::Text& text : texts) {
    Flow one = blocks_flow(text.blocks, width, context);
    enclose(one, {OpenNode{node_of("Sect"), false}}, {CloseNode{}});
    std::move(one.begin(), one.end(), std::back_inserter(flow));
  }
  return flow;
}

} // namespace leafwright::page
