#include "page/internal/blocks.h"

#include "page/context.h"
#include "page/internal/furniture.h"

#include <algorithm>
#include <type_traits>

namespace leafwright::page {

namespace {

Length space_after(const guide::Block& block, const Context& context) {
  const Template& look = context.look;
  return std::visit(
      [&](const auto& what) -> Length {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, guide::Paragraph>) {
          using enum guide::Paragraph::Kind;
          return look.style(what.kind == Lead    ? "lead"
                            : what.kind == Small ? "small"
                                                 : "body")
              .after;
        } else if constexpr (std::is_same_v<What, guide::List>) {
          return look.style("body").after;
        } else if constexpr (std::is_same_v<What, guide::Notice>) {
          return look.style("notice").after;
        } else if constexpr (std::is_same_v<What, guide::Ticks>) {
          return what.name.empty() ? look.grid * 2 : Length{}; // one list of several parts
        } else if constexpr (std::is_same_v<What, guide::Heading>) {
          return {}; // part of the heading itself, so that nothing comes between
        } else {
          return look.grid * 2;
        }
      },
      block.what);
}

// A short paragraph under a heading, or a lead, before anything that is not another paragraph.
bool introduces(std::span<const guide::Block> blocks, std::size_t i, const guide::Block& next) {
  const auto* paragraph = std::get_if<guide::Paragraph>(&blocks[i].what);
  if (paragraph == nullptr || std::holds_alternative<guide::Paragraph>(next.what) ||
      std::holds_alternative<guide::Heading>(next.what) ||
      std::holds_alternative<guide::FullSize>(next.what))
    return false;
  if (paragraph->kind == guide::Paragraph::Kind::Lead) return true;
  return i > 0 && std::holds_alternative<guide::Heading>(blocks[i - 1].what);
}

} // namespace

bool depends_on_trial(const guide::Block& block) {
  if (const auto* abreast = std::get_if<guide::SideBySide>(&block.what))
    return std::ranges::any_of(abreast->texts, [](const guide::SideBySide::Text& text) {
      return std::ranges::any_of(text.blocks, depends_on_trial);
    });
  return std::holds_alternative<guide::Figure>(block.what) ||
         std::holds_alternative<guide::FigureRow>(block.what) ||
         std::holds_alternative<guide::Beside>(block.what) ||
         std::holds_alternative<guide::Steps>(block.what);
}

namespace {

Flow one_flow(const guide::Block& block, Length width, Context& context) {
  return std::visit(
      [&](const auto& what) -> Flow {
        using What = std::decay_t<decltype(what)>;
        if constexpr (std::is_same_v<What, guide::Heading>) {
          return heading_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Paragraph>) {
          return body_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::List>) {
          return list_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Table>) {
          return table_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Figure>) {
          return figure_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::FigureRow>) {
          return figure_row_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Beside>) {
          return beside_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Notice>) {
          return notice_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Steps>) {
          return steps_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Contents>) {
          return contents_flow(width, context);
        } else if constexpr (std::is_same_v<What, guide::NoteLines>) {
          return note_lines_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::ScaleBar>) {
          return scale_bar_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Ticks>) {
          return ticks_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::SideBySide>) {
          return side_by_side_flow(what, width, context);
        } else if constexpr (std::is_same_v<What, guide::Slips>) {
          return slips_flow(what, width, context);
        } else {
          // Covers and labels are pages of their own (layout.cpp); the others are no flow by
          // themselves.
          static_assert(std::is_same_v<What, guide::FullSize> ||
                        std::is_same_v<What, guide::PageBreak> ||
                        std::is_same_v<What, guide::Cover> || std::is_same_v<What, guide::Labels>);
          return {};
        }
      },
      block.what);
}

// Notices that follow each other, two abreast where the page is wide enough: a list of cautions is
// read, not skipped, when it stands on one page.
Flow notices_flow(std::span<const guide::Block> run, Length width, Context& context) {
  const Length column = (width - context.look.gutter) / 2;
  Flow flow;
  for (std::size_t i = 0; i < run.size(); i += 2) {
    auto frame = std::make_shared<Frame>();
    FlowItem item;
    for (std::size_t k = i; k < std::min(i + 2, run.size()); ++k) {
      Flow one = notice_flow(std::get<guide::Notice>(run[k].what), column, context);
      item.space_before = std::max(item.space_before, one.front().space_before);
      const FramePtr notice = stacked(one, column);
      const Length x = k == i ? Length{} : column + context.look.gutter;
      frame->ops.emplace_back(Inset{{x, {}}, notice});
      frame->size = {width, std::max(frame->size.height, notice->size.height)};
    }
    item.frame = std::move(frame);
    item.keep_with_next = i + 2 < run.size();
    flow.push_back(std::move(item));
  }
  return flow;
}

std::size_t cautions_from(std::span<const guide::Block> blocks, std::size_t first) {
  std::size_t end = first;
  for (; end < blocks.size(); ++end) {
    const auto* notice = std::get_if<guide::Notice>(&blocks[end].what);
    if (notice == nullptr || notice->kind != guide::Notice::Kind::Caution) break;
  }
  return end - first;
}

constexpr std::size_t least_abreast = 3;
constexpr Length least_wide = millimetres(120);

} // namespace

Flow blocks_flow(std::span<const guide::Block> blocks, Length width, Context& context) {
  Flow flow;
  const Place outer = context.place;
  Length wished_after{};
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const guide::Block& block = blocks[i];
    if (block.place.line > 0) context.place = block.place;
    Flow part;
    if (std::holds_alternative<guide::PageBreak>(block.what)) {
      if (!flow.empty()) flow.back().break_after = true;
    } else if (std::holds_alternative<guide::FullSize>(block.what)) {
      std::size_t end = i + 1;
      while (end < blocks.size() && std::holds_alternative<guide::FullSize>(blocks[end].what))
        ++end;
      part = full_size_flow(blocks.subspan(i, end - i), width, context);
      i = end - 1;
    } else if (const std::size_t cautions = cautions_from(blocks, i);
               cautions >= least_abreast && width >= least_wide) {
      part = notices_flow(blocks.subspan(i, cautions), width, context);
      i += cautions - 1;
    } else if (depends_on_trial(block)) {
      part = one_flow(block, width, context);
    } else {
      const auto [made, fresh] = context.made_blocks.try_emplace({&block, width.nm});
      if (fresh) made->second = one_flow(block, width, context);
      part = made->second;
    }
    if (part.empty()) continue;
    if (block.changed) mark_changed(part, context);
    // What introduces something stays with its beginning.
    if (i > 0 && !flow.empty() && introduces(blocks, i - 1, block))
      flow.back().keep_with_next = true;
    // A remark in small print belongs to what it remarks on.
    const auto* remark = std::get_if<guide::Paragraph>(&block.what);
    if (remark != nullptr && remark->kind == guide::Paragraph::Kind::Small && !flow.empty())
      flow.back().keep_with_next = true;
    // Between two blocks the larger wish counts, in whole steps of the grid.
    part.front().space_before =
        on_grid(std::max(part.front().space_before, wished_after), context.look.grid);
    wished_after = space_after(block, context);
    std::move(part.begin(), part.end(), std::back_inserter(flow));
  }
  context.place = outer;
  return flow;
}

namespace {

void note(const figure::Scene& scene, Size room, Context& context) {
  if (scene.scale_group.empty()) return;
  const double fits = context.figures.fitting(scene, room);
  const auto [entry, fresh] = context.group_scales.emplace(scale_group_of(scene), fits);
  if (!fresh) entry->second = std::min(entry->second, fits);
}

void walk(std::span<const guide::Block> blocks, Length width, Context& context) {
  for (const guide::Block& block : blocks)
    std::visit(
        [&](const auto& what) {
          using What = std::decay_t<decltype(what)>;
          if constexpr (std::is_same_v<What, guide::Figure>) {
            note(what.scene, figure_room(what, width, context), context);
          } else if constexpr (std::is_same_v<What, guide::Beside>) {
            note(what.figure.scene, beside_room(what, width, context), context);
            walk(what.blocks, beside_words_width(what, width, context), context);
          }
          // Rows of figures and steps settle their own common scale.
        },
        block.what);
}

} // namespace

void note_group_scales(std::span<const guide::Block> blocks, Length width, Context& context) {
  walk(blocks, width, context);
}

} // namespace leafwright::page
