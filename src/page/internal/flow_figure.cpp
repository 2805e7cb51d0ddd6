#include "page/context.h"
#include "page/internal/blocks.h"
#include "page/internal/paragraph.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

namespace leafwright::page {

namespace {

double width_share(guide::Figure::Width width) {
  using enum guide::Figure::Width;
  return width == Narrow ? 0.32 : width == Half ? 0.5 : 1.0;
}

} // namespace

namespace {

// A sheet full of small pieces keeps its size: its labels would find no room.
double sheet_shrink(const figure::Scene& scene, double shrink) {
  constexpr std::int64_t many = 9;
  const auto pieces = std::ranges::count_if(scene.items, [](const figure::SceneItem& item) {
    const auto* mark = std::get_if<figure::SceneMark>(&item);
    return mark != nullptr && mark->kind == "cut";
  });
  return pieces > many ? 1.0 : shrink;
}

} // namespace

bool is_sheet(const figure::Scene& scene) {
  return std::ranges::any_of(scene.items, [](const figure::SceneItem& item) {
    const auto* mark = std::get_if<figure::SceneMark>(&item);
    return mark != nullptr && mark->kind == "sheet";
  });
}

FramePtr figure_frame(const Drawn& composed, const std::string& alternative) {
  Node node;
  node.type = "Figure";
  node.alternative = alternative;
  node.box = {{}, composed.drawing->size};
  return frame_of(
      {OpenNode{std::move(node), true}, InsetDrawing{{}, composed.drawing}, CloseNode{}},
      composed.drawing->size);
}

const Drawn& drawn(const figure::Scene& scene, Size room, double scale, Context& context) {
  const Drawn& composed = context.figures.composed(scene, room, scale);
  if (composed.crowded)
    context.tell(Severity::Warning, "page-crowded",
                 fmt::format("no room for every label of the drawing “{}”", scene.alternative),
                 "a drawing whose labels all find a place",
                 "give the figure more width in the template, or fewer labels");
  return composed;
}

std::string scale_note(const figure::Scene& scene, double scale, const Context& context) {
  if (!is_sheet(scene)) return {};
  if (scale == 1.0) return context.look.words.true_size;
  std::string note = context.look.words.drawn_at;
  const std::string_view place = "{percent}";
  if (const auto at = note.find(place); at != std::string::npos)
    note.replace(at, place.size(), fmt::format("{:.0f}", std::round(scale * 100.0)));
  return note;
}

Size drawn_size(const figure::Scene& scene, Size room, double scale, bool estimate,
                Context& context) {
  if (estimate) return context.figures.expected_size(scene, scale);
  return drawn(scene, room, scale, context).drawing->size;
}

double shrunk(double scale, double shrink) {
  const double wanted = scale * shrink;
  if (shrink >= 1.0 || wanted < 0.06) return scale;
  return std::floor(wanted * 100.0) / 100.0;
}

FramePtr captioned(const guide::Figure& figure, Size room, double scale, bool estimate,
                   Context& context) {
  const Size size = drawn_size(figure.scene, room, scale, estimate, context);
  guide::Inlines caption = figure.caption;
  // In a narrow column among others alike it would only be said again and again.
  const std::string note =
      stands_beside(room.width, context) ? scale_note(figure.scene, scale, context) : std::string{};
  if (!note.empty()) caption.emplace_back(guide::Words{(caption.empty() ? "" : " ") + note});
  std::vector<Op> ops;
  if (!estimate)
    ops.emplace_back(Inset{
        {}, figure_frame(drawn(figure.scene, room, scale, context), figure.scene.alternative)});
  Length y = size.height;
  if (!caption.empty()) {
    const TextStyle& style = context.look.style("caption");
    // No wider than the drawing, unless that is narrow.
    const Length wide = std::min(room.width, std::max(size.width, millimetres(45)));
    const FramePtr words = paragraph_frame(caption, style, wide, context);
    y = on_grid(y, context.look.grid) + style.before;
    ops.emplace_back(Inset{{{}, y}, words});
    y += words->size.height;
  }
  return frame_of(std::move(ops), {size.width, on_grid(y, context.look.grid)});
}

std::string scale_group_of(const figure::Scene& scene) {
  return fmt::format("{} {} {}", scene.scale_group, scene.box.size.width.nm,
                     scene.box.size.height.nm);
}

double chosen_scale(const figure::Scene& scene, Size room, Context& context) {
  const double fits = context.figures.fitting(scene, room);
  const auto found = context.group_scales.find(scale_group_of(scene));
  if (scene.scale_group.empty() || found == context.group_scales.end()) return fits;
  return std::min(fits, found->second);
}

bool stands_beside(Length width, const Context& context) {
  // In ems: large print needs the whole width for its words.
  return width >= context.look.style("body").size * 34;
}

Size beside_room(const guide::Beside& beside, Length width, const Context& context) {
  using enum guide::Figure::Width;
  const bool narrow = beside.figure.width == Narrow;
  if (!stands_beside(width, context))
    return {width, context.text_height * (narrow ? 30 : 42) / 100};
  const double share = narrow ? 0.3 : beside.figure.width == Half ? 0.54 : 0.6;
  const Length room{
      static_cast<std::int64_t>(static_cast<double>((width - context.look.gutter).nm) * share)};
  return {room, context.text_height * (narrow ? 30 : 85) / 100};
}

Length beside_words_width(const guide::Beside& beside, Length width, const Context& context) {
  if (!stands_beside(width, context)) return width;
  return width - beside_room(beside, width, context).width - context.look.gutter;
}

Size figure_room(const guide::Figure& figure, Length width, const Context& context) {
  const double share = width_share(figure.width);
  const Length room{static_cast<std::int64_t>(static_cast<double>(width.nm) * share)};
  const Length tallest = figure.width == guide::Figure::Width::Full
                             ? context.text_height * 8 / 10
                             : context.text_height * 55 / 100;
  return {room, tallest};
}

namespace {

// The pieces of a card, set out below what they become.
Flow set_out_flow(const guide::Figure& figure, Length width, Context& context) {
  const Size room{width, times(context.text_height, 0.42 * context.trial.shrink)};
  const Drawn& out = context.figures.set_out(figure.scene, room);
  FlowItem item;
  item.frame = frame_of({Inset{{}, figure_frame(out, figure.scene.alternative)}},
                        {width, on_grid(out.drawing->size.height, context.look.grid)});
  item.space_before = context.look.grid * 2;
  return {item};
}

} // namespace

Flow figure_flow(const guide::Figure& figure, Length width, Context& context) {
  if (!figure.scene.laid_out.empty()) return set_out_flow(figure, width, context);
  const Size room = figure_room(figure, width, context);
  FlowItem item;
  item.frame = captioned(figure, room,
                         shrunk(chosen_scale(figure.scene, room, context), context.trial.shrink),
                         context.trial.estimate, context);
  item.space_before = context.look.grid;
  return {item};
}

namespace {

// The figure first, then the words over the full width.
Flow figure_above_words(FramePtr figure, Flow words, Length grid) {
  Flow flow;
  FlowItem item;
  item.frame = std::move(figure);
  item.keep_with_next = true;
  item.space_before = grid;
  flow.push_back(std::move(item));
  if (!words.empty()) words.front().space_before = std::max(words.front().space_before, grid);
  // A figure and its words are best read in one column.
  constexpr double parting = 10.0;
  for (FlowItem& word : words) word.break_cost += parting;
  constexpr std::size_t opening = 3; // lines that stay with the figure
  for (std::size_t i = 0; i + 1 < words.size() && i < opening; ++i) words[i].keep_with_next = true;
  if (!words.empty()) words.back().break_cost -= parting;
  std::move(words.begin(), words.end(), std::back_inserter(flow));
  return flow;
}

// A drawing and its words in a narrow column, on one page of it unless they fill most of one.
Flow in_one_column(FramePtr figure, const guide::Beside& beside, Length width, Context& context) {
  Flow flow = figure_above_words(std::move(figure), blocks_flow(beside.blocks, width, context),
                                 context.look.grid);
  // Its list may run on in the next column, but hardly ever on the next page.
  constexpr double over_the_page = 400.0;
  if (is_sheet(beside.figure.scene) && height(flow) <= context.text_height)
    for (std::size_t i = 0; i + 1 < flow.size(); ++i) flow[i].page_break_cost = over_the_page;
  if (!beside.title.empty()) {
    const FramePtr again = paragraph_frame(plain(beside.title + ", continued"),
                                           context.look.style("heading-3"), width, context, "");
    for (std::size_t i = 1; i < flow.size(); ++i) {
      flow[i].repeat_head = again;
      flow[i].head_space = on_grid(again->size.height, context.look.grid);
    }
  }
  return flow;
}

} // namespace

Flow beside_flow(const guide::Beside& beside, Length width, Context& context) {
  if (beside.opens) return chapter_opening(beside, width, context);
  const Size room = beside_room(beside, width, context);
  const figure::Scene& scene = beside.figure.scene;
  const double shrink = is_sheet(scene) && stands_beside(width, context)
                            ? sheet_shrink(scene, context.trial.shrink)
                            : context.trial.shrink;
  const double scale = shrunk(chosen_scale(scene, room, context), shrink);
  const FramePtr figure = captioned(beside.figure, room, scale, context.trial.estimate, context);
  if (!stands_beside(width, context)) return in_one_column(figure, beside, width, context);
  const Length left_used = std::min(std::max(figure->size.width, room.width / 2), room.width);
  const Length x = left_used + context.look.gutter;
  Flow words = blocks_flow(beside.blocks, width - x, context);
  // Too much to stand beside anything: what fills most of a page must be able to part.
  if (height(words) > context.text_height * 7 / 10)
    return figure_above_words(figure, blocks_flow(beside.blocks, width, context),
                              context.look.grid);
  const FramePtr side = stacked(words, width - x);
  FlowItem item;
  item.frame = frame_of(
      {Inset{{}, figure}, Inset{{x, {}}, side}},
      {width, on_grid(std::max(figure->size.height, side->size.height), context.look.grid)});
  item.space_before = context.look.grid * 3;
  const double part_of_width =
      static_cast<double>(left_used.nm) / static_cast<double>(std::max(width.nm, std::int64_t{1}));
  const auto fill = [&](Length part) {
    return item.frame->size.height.nm > 0
               ? static_cast<double>(part.nm) / static_cast<double>(item.frame->size.height.nm)
               : 1.0;
  };
  item.filled = std::min(1.0, part_of_width * fill(figure->size.height) +
                                  (1.0 - part_of_width) * fill(side->size.height));
  return {item};
}

} // namespace leafwright::page
