#include "page/internal/section_pages.h"

#include "measure/index.h"
#include "measure/print_length.h"
#include "page/internal/block_flows.h"
#include "page/internal/blocks.h"
#include "page/internal/furniture.h"
#include "page/internal/labels.h"
#include "page/internal/paginate.h"
#include "page/internal/writer.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <span>

namespace leafwright::page {

namespace {

template <class What>
const What* first_of(const guide::Section& section) {
  for (const guide::Block& block : section.blocks)
    if (const auto* what = std::get_if<What>(&block.what)) return what;
  return nullptr;
}

class Pass {
 public:
  Pass(const guide::Document& document, Context& context, std::size_t pages_before)
      : document_(document), context_(context), writer_(laid_), pages_before_(pages_before) {}

  Laid run() {
    const std::vector<Chosen> chosen = chosen_sections(document_, context_.look);
    for (std::size_t i = 0; i < chosen.size(); ++i) add(std::span(chosen).subspan(i));
    flush();
    writer_.finish();
    laid_.title = document_.title;
    laid_.subject = document_.subject;
    laid_.author = document_.author;
    laid_.language = document_.language;
    laid_.keywords = document_.keywords;
    laid_.created = document_.created;
    for (LaidPage& page : laid_.pages) {
      page.bleed = context_.look.bleed;
      page.crop_marks = context_.look.crop_marks;
    }
    return std::move(laid_);
  }

 private:
  // What is gathered until a new page must begin.
  struct Chunk {
    Flow flow;
    const SectionRule* rule = nullptr;
    Length height; // of the text area for it
    bool ruler = false;
    int columns = 1;
    FramePtr opening; // above the columns of the first page
  };

  struct SetSection {
    Flow head, flow; // what spans the columns, and what stands in them
    std::size_t slices = 0;
  };

  PageGeometry geometry_of(std::size_t page) const {
    return page_geometry(context_.look, context_.input.paper, static_cast<int>(page));
  }
  PageGeometry geometry() const { return geometry_of(laid_.pages.size()); }
  PageGeometry geometry_of_last() const { return geometry_of(laid_.pages.size() - 1); }
  Length column_width(int columns) const {
    return page::column_width(geometry().area.size.width, columns, context_.look);
  }

  // The first of them; the others are still to come.
  void add(std::span<const Chosen> all) {
    const Chosen& chosen = all.front();
    const guide::Section& section = *chosen.section;
    if (const guide::Cover* cover = first_of<guide::Cover>(section))
      return add_cover(*cover, *chosen.rule);
    if (const guide::Labels* labels = first_of<guide::Labels>(section)) return add_labels(*labels);
    if (const guide::Slips* slips = slips_of(section)) return add_slips(*slips, chosen);
    // Full-size pages carry a printed ruler below the drawings.
    const bool ruler = holds_full_size(section);
    const Length full = geometry().area.size.height;
    const Length height = ruler ? full - context_.look.grid * 6 : full;
    context_.text_height = height;
    context_.ruled = ruler;
    const int columns = columns_of(*chosen.rule, context_.look);
    const std::size_t opening = opening_of(section, columns);
    const std::span<const guide::Block> blocks = section.blocks;
    const Length width = geometry().area.size.width;
    const auto set = [&](std::size_t shown) {
      SetSection made;
      if (shown > 0)
        made.head = section_flow(blocks.first(shown), width, {height, height}, context_);
      const FramePtr above = made.head.empty() ? nullptr : stacked(made.head, width);
      const Heights heights = heights_below(above, columns, height);
      made.flow = body_of(blocks.subspan(opening), heights, following(all));
      made.slices = paginate(made.flow, heights).slices.size();
      return made;
    };
    SetSection made = set(opening);
    // Swatches are no reason for another page.
    if (opening > 0 && shows_swatches(blocks[opening - 1]) && made.slices > as_index(columns))
      if (SetSection without = set(opening - 1); without.slices <= as_index(columns))
        made = std::move(without);
    auto& [head, flow, slices] = made;
    if (flow.empty()) return;
    const std::vector<Op> begin{RunningHere{section.running}, OpenNode{node_of("Sect"), false}};
    if (ruler && opening == 0 && begin_on_page_before(flow, begin, height, *chosen.rule)) return;
    enclose(head.empty() ? flow : head, begin, {});
    enclose(flow, {}, {CloseNode{}});
    if (joins(*chosen.rule, flow, columns, ruler)) {
      flow.front().space_before = std::max(flow.front().space_before, section_gap());
    } else {
      flush();
      chunk_.rule = chosen.rule;
      chunk_.height = height;
      chunk_.ruler = ruler;
      chunk_.columns = columns;
      if (!head.empty()) chunk_.opening = stacked(head, width);
    }
    std::move(flow.begin(), flow.end(), std::back_inserter(chunk_.flow));
  }

  void add_cover(const guide::Cover& cover, const SectionRule& rule) {
    flush();
    begin_page(rule);
    const PageGeometry page = geometry_of_last();
    writer_.open(node_of("Sect"));
    writer_.place(*cover_frame(cover, page.page, page.area, context_), {});
    writer_.close();
    end_page(rule);
  }

  void add_labels(const guide::Labels& labels) {
    flush();
    writer_.open(node_of("Sect"));
    for (const FramePtr& sheet : label_sheets(labels, document_.draft, context_)) {
      writer_.begin_page(labels.paper, fmt::format("{}", laid_.pages.size() + 1));
      writer_.place(*sheet, {});
      writer_.end_page();
    }
    writer_.close();
  }

  Heights heights_below(const FramePtr& opening, int columns, Length height) const {
    if (opening == nullptr) return {height, height, 0, as_index(columns)};
    const Length taken = opening->size.height + context_.look.grid * 3;
    return {height, height - taken, as_index(columns), as_index(columns)};
  }

  // What the sections after this one put below it, wherever that is: all are best on one page.
  Flow following(std::span<const Chosen> all) {
    Flow below;
    const Length height = context_.text_height;
    for (const Chosen& next : followers(all, context_.look)) {
      Flow flow = section_flow(next.section->blocks, column_width(1), {height, height}, context_);
      if (!flow.empty())
        flow.front().space_before = std::max(flow.front().space_before, section_gap());
      std::move(flow.begin(), flow.end(), std::back_inserter(below));
    }
    return below;
  }

  // Lines to write on at the end are not worth a page.
  Flow body_of(std::span<const guide::Block> blocks, Heights heights, const Flow& below) {
    const Length width = column_width(static_cast<int>(heights.columns));
    Flow flow = section_flow(blocks, width, heights, context_, below);
    if (blocks.size() < 2 || !std::holds_alternative<guide::NoteLines>(blocks.back().what) ||
        flow.empty())
      return flow;
    const std::size_t pages = paginate(flow, heights).slices.size();
    if (pages < 2) return flow;
    Flow without = section_flow(blocks.first(blocks.size() - 1), width, heights, context_, below);
    return paginate(without, heights).slices.size() < pages ? without : flow;
  }

  // Whether a section stands below the one before on its page.
  bool joins(const SectionRule& rule, const Flow& flow, int columns, bool ruler) const {
    using Start = SectionRule::Start;
    return !chunk_.flow.empty() && columns == 1 && chunk_.columns == 1 &&
           chunk_.rule->foot == rule.foot && (chunk_.ruler || !ruler) &&
           (rule.start == Start::Follow || (rule.start == Start::Fit && has_room_for(flow)));
  }

  // Full-size drawings mostly take a page each. Where what would stand on the first one has room on
  // the page before, it stands there, its ruler below it. False: nothing was done.
  bool begin_on_page_before(Flow& flow, const std::vector<Op>& begin, Length height,
                            const SectionRule& rule) {
    if (chunk_.flow.empty() || chunk_.columns > 1 || chunk_.rule->foot != rule.foot) return false;
    const auto end = static_cast<std::ptrdiff_t>(paginate(flow, height).slices.front().end);
    Flow before(flow.begin(), flow.begin() + end);
    if (std::ranges::any_of(before, &FlowItem::full_size)) before.push_back(ruler_item());
    if (!has_room_for(before)) return false;
    flow.erase(flow.begin(), flow.begin() + end);
    const bool all = flow.empty();
    enclose(before, begin, all ? std::vector<Op>{CloseNode{}} : std::vector<Op>{});
    before.front().space_before = std::max(before.front().space_before, section_gap());
    std::move(before.begin(), before.end(), std::back_inserter(chunk_.flow));
    if (all) return true;
    flush();
    enclose(flow, {}, {CloseNode{}});
    chunk_.rule = &rule;
    chunk_.height = height;
    chunk_.ruler = true;
    chunk_.flow = std::move(flow);
    return true;
  }

  FlowItem ruler_item() {
    const FramePtr ruler = measured_foot(geometry().area.size.width, context_);
    FlowItem item;
    item.frame = frame_of({Furniture{true}, Inset{{}, ruler}, Furniture{false}}, ruler->size);
    item.space_before = context_.look.grid * 3;
    return item;
  }

  // Run after run, since no page depends on those before it.
  void add_slips(const guide::Slips& slips, const Chosen& chosen) {
    flush();
    constexpr std::size_t run_length = 100;
    const Rect area = geometry().area;
    context_.text_height = area.size.height;
    context_.ruled = false;
    writer_.open(node_of("Sect"));
    std::span<const guide::Slip> rest = slips.slips;
    while (!rest.empty()) {
      SlipRun run = slip_run(rest, run_length, area.size.width, context_);
      rest = rest.subspan(run.taken);
      if (run.flow.empty()) continue;
      enclose(run.flow, {RunningHere{chosen.section->running}}, {});
      chunk_.flow = std::move(run.flow);
      chunk_.rule = chosen.rule;
      chunk_.height = area.size.height;
      flush();
    }
    writer_.close();
  }

  Length section_gap() const { return context_.look.grid * 6; }

  bool has_room_for(const Flow& flow) const {
    const Pagination pages = paginate(chunk_.flow, chunk_.height);
    return pages.slices.back().used + section_gap() + height(flow) <= chunk_.height;
  }

  void begin_page(const SectionRule& rule) {
    const PageGeometry page = geometry();
    writer_.begin_page(page.page, fmt::format("{}", laid_.pages.size() + 1));
    auto under = std::make_shared<Frame>();
    const Length bleed = context_.look.bleed;
    const Rect whole{{-bleed, -bleed}, {page.page.width + bleed * 2, page.page.height + bleed * 2}};
    if (rule.ground)
      under->ops.emplace_back(DrawItem{Fill{rectangle(whole), context_.colour(*rule.ground), 1.0}});
    if (document_.draft) under->ops.emplace_back(Inset{{}, draft_frame(page, context_)});
    if (!under->ops.empty()) writer_.place_furniture(*under, {});
  }

  void end_page(const SectionRule& rule) {
    if (rule.foot)
      writer_.place_furniture(*foot_frame(geometry_of_last(), document_,
                                          std::string(writer_.page_running()),
                                          rule.numbered ? laid_.pages.back().label : std::string{},
                                          pages_before_, context_),
                              {});
    writer_.end_page();
  }

  void flush() {
    if (chunk_.flow.empty() || chunk_.rule == nullptr) return;
    const Flow& flow = chunk_.flow;
    const int columns = chunk_.columns;
    const Heights heights = heights_below(chunk_.opening, columns, chunk_.height);
    const Length opening = chunk_.height - heights.first;
    const Pagination pages = paginate(flow, heights);
    const Length step = column_width(columns) + context_.look.gutter;
    int column = 0;
    for (std::size_t s = 0; s < pages.slices.size(); ++s) {
      const PageSlice& slice = pages.slices[s];
      if (slice.overfull)
        context_.tell(Severity::Warning, "page-overfull",
                      fmt::format("something is {} taller than page {}",
                                  length_text(slice.used - chunk_.height, context_.input.printing),
                                  laid_.pages.size() + 1),
                      "blocks that fit on a page", "shorten it or choose larger paper");
      if (column == 0) begin_page(*chunk_.rule);
      const bool below_opening = s < as_index(columns) && chunk_.opening;
      if (s == 0 && chunk_.opening) writer_.place(*chunk_.opening, geometry_of_last().area.origin);
      const bool last = s + 1 == pages.slices.size() || flow[slice.end - 1].break_after;
      const Point corner =
          geometry_of_last().area.origin + Point{step * column, below_opening ? opening : Length{}};
      place_slice(slice, corner, last, heights.of(s));
      ++column;
      if (column == columns || s + 1 == pages.slices.size()) {
        if (chunk_.ruler) place_ruler();
        end_page(*chunk_.rule);
        column = 0;
      }
    }
    chunk_ = {};
  }

  void place_slice(const PageSlice& slice, Point corner, bool last, Length tall) {
    const Flow& flow = chunk_.flow;
    Point at = corner;
    if (flow[slice.first].repeat_head) {
      writer_.place_furniture(*flow[slice.first].repeat_head, at);
      at.y += flow[slice.first].head_space;
    }
    const Length feather = last ? Length{} : feather_of(slice, tall);
    for (std::size_t i = slice.first; i < slice.end; ++i) {
      if (i > slice.first) {
        at.y += flow[i].space_before;
        if (flow[i].stretch.nm > 0) at.y += std::min(feather, flow[i].stretch);
      }
      writer_.place(*flow[i].frame, at);
      at.y += flow[i].frame->size.height;
    }
    const FramePtr& below = flow[slice.end - 1].repeat_below;
    while (below && at.y + below->size.height <= corner.y + tall) {
      writer_.place_furniture(*below, at);
      at.y += below->size.height;
    }
  }

  // What a nearly full page leaves over is shared out between its steps, in whole grid steps.
  Length feather_of(const PageSlice& slice, Length tall) const {
    std::int64_t places = 0;
    for (std::size_t i = slice.first + 1; i < slice.end; ++i)
      if (chunk_.flow[i].stretch.nm > 0) ++places;
    const Length left = tall - slice.used;
    if (places == 0 || left.nm <= 0) return {};
    const Length grid = context_.look.grid;
    return {left.nm / places / grid.nm * grid.nm};
  }

  void place_ruler() {
    const Rect area = geometry_of_last().area;
    const FramePtr ruler = measured_foot(area.size.width, context_);
    writer_.place_furniture(*ruler, {area.left(), area.bottom() - ruler->size.height});
  }

  const guide::Document& document_;
  Context& context_;
  Laid laid_;
  Writer writer_;
  std::size_t pages_before_;
  Chunk chunk_;
};

} // namespace

Laid laid_sections(const guide::Document& document, Context& context, std::size_t pages_before) {
  return Pass(document, context, pages_before).run();
}

} // namespace leafwright::page
