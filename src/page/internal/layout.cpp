#include "page/layout.h"

#include "guide/figure/scene.h"
#include "measure/index.h"
#include "page/context.h"
#include "page/cover.h"
#include "page/internal/blocks.h"
#include "page/internal/flow.h"
#include "page/internal/furniture.h"
#include "page/internal/labels.h"
#include "page/internal/paginate.h"
#include "page/internal/writer.h"
#include "page/paragraph.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::page {

namespace {

bool takes(const SectionRule& rule, const guide::Section& section) {
  if (rule.name == "cards") return section.name.starts_with("card-");
  return rule.name == section.name;
}

bool holds_full_size(const guide::Section& section) {
  return std::ranges::any_of(section.blocks, [](const guide::Block& block) {
    return std::holds_alternative<guide::FullSize>(block.what);
  });
}

const guide::Cover* cover_of(const guide::Section& section) {
  for (const guide::Block& block : section.blocks)
    if (const auto* cover = std::get_if<guide::Cover>(&block.what)) return cover;
  return nullptr;
}

const guide::Labels* labels_of(const guide::Section& section) {
  for (const guide::Block& block : section.blocks)
    if (const auto* labels = std::get_if<guide::Labels>(&block.what)) return labels;
  return nullptr;
}

// Of a section that holds nothing else.
const guide::Slips* slips_of(const guide::Section& section) {
  return section.blocks.size() == 1 ? std::get_if<guide::Slips>(&section.blocks.front().what)
                                    : nullptr;
}

// The sections that the template takes, in its order.
struct Chosen {
  const guide::Section* section;
  const SectionRule* rule;
};
std::vector<Chosen> chosen_sections(const guide::Document& document, const Template& look) {
  std::vector<Chosen> chosen;
  for (const SectionRule& rule : look.sections)
    for (const guide::Section& section : document.sections)
      if (takes(rule, section)) chosen.push_back({&section, &rule});
  return chosen;
}

int columns_of(const SectionRule& rule, const Template& look) {
  return std::max(rule.columns > 0 ? rule.columns : look.columns, 1);
}

Length column_width(Length width, int columns, const Template& look) {
  return (width - look.gutter * (columns - 1)) / columns;
}

// In a section of several columns, what stands above them: its title and the words below it.
std::size_t opening_of(const guide::Section& section, int columns) {
  if (columns < 2) return 0;
  const auto first = std::ranges::find_if(section.blocks, [](const guide::Block& block) {
    const auto* heading = std::get_if<guide::Heading>(&block.what);
    if (heading != nullptr) return heading->level > 1;
    return !std::holds_alternative<guide::Paragraph>(block.what) &&
           !std::holds_alternative<guide::Notice>(block.what);
  });
  return first == section.blocks.end() ? 0 : as_index(first - section.blocks.begin());
}

// One pass over the document with the page numbers known so far.
class Pass {
 public:
  Pass(const guide::Document& document, Context& context, std::size_t pages_before)
      : document_(document), context_(context), writer_(laid_), pages_before_(pages_before) {}

  Laid run() {
    for (const Chosen& chosen : chosen_sections(document_, context_.look)) add(chosen);
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

  PageGeometry geometry() const {
    return page_geometry(context_.look, context_.input.paper, static_cast<int>(laid_.pages.size()));
  }
  Length column_width(int columns) const {
    return page::column_width(geometry().area.size.width, columns, context_.look);
  }

  void add(const Chosen& chosen) {
    const guide::Section& section = *chosen.section;
    if (const guide::Cover* cover = cover_of(section)) {
      flush();
      begin_page(*chosen.rule);
      const PageGeometry page = geometry_of_last();
      Node sect;
      sect.type = "Sect";
      writer_.open(std::move(sect));
      writer_.place(*cover_frame(*cover, page.page, page.area, context_), {});
      writer_.close();
      end_page(*chosen.rule);
      return;
    }
    if (const guide::Labels* labels = labels_of(section)) {
      flush();
      Node sect;
      sect.type = "Sect";
      writer_.open(std::move(sect));
      for (const FramePtr& sheet : label_sheets(*labels, document_.draft, context_)) {
        writer_.begin_page(labels->paper, fmt::format("{}", laid_.pages.size() + 1));
        writer_.place(*sheet, {});
        writer_.end_page();
      }
      writer_.close();
      return;
    }
    if (const guide::Slips* slips = slips_of(section)) {
      flush();
      add_slips(*slips, chosen);
      return;
    }
    // Full-size pages carry a printed ruler below the drawings.
    const bool ruler = holds_full_size(section);
    const Length full = geometry().area.size.height;
    const Length height = ruler ? full - context_.look.grid * 6 : full;
    context_.text_height = height;
    context_.ruled = ruler;
    const int columns = columns_of(*chosen.rule, context_.look);
    const std::size_t opening = opening_of(section, columns);
    const std::span<const guide::Block> blocks = section.blocks;
    Flow head;
    if (opening > 0)
      head = section_flow(blocks.first(opening), geometry().area.size.width, height, context_);
    Flow flow = section_flow(blocks.subspan(opening), column_width(columns), height, context_);
    if (flow.empty()) return;
    if (blocks.size() > opening + 1 &&
        std::holds_alternative<guide::NoteLines>(blocks.back().what)) {
      // Lines to write on are not worth a page.
      const std::size_t pages = paginate(flow, height).slices.size();
      if (pages > 1) {
        Flow without = section_flow(blocks.subspan(opening, blocks.size() - opening - 1),
                                    column_width(columns), height, context_);
        if (paginate(without, height).slices.size() < pages) flow = std::move(without);
      }
    }
    Node sect;
    sect.type = "Sect";
    const std::vector<Op> begin{RunningHere{section.running}, OpenNode{std::move(sect), false}};
    if (ruler && opening == 0 && begin_on_page_before(flow, begin, height, *chosen.rule)) return;
    enclose(head.empty() ? flow : head, begin, {});
    enclose(flow, {}, {CloseNode{}});
    using Start = SectionRule::Start;
    const bool joins = !chunk_.flow.empty() && columns == 1 && chunk_.columns == 1 &&
                       chunk_.rule->foot == chosen.rule->foot && (chunk_.ruler || !ruler) &&
                       (chosen.rule->start == Start::Follow ||
                        (chosen.rule->start == Start::Fit && has_room_for(flow)));
    if (!joins) {
      flush();
      chunk_.rule = chosen.rule;
      chunk_.height = height;
      chunk_.ruler = ruler;
      chunk_.columns = columns;
      if (!head.empty()) chunk_.opening = stacked(head, geometry().area.size.width);
    } else {
      flow.front().space_before = std::max(flow.front().space_before, section_gap());
    }
    std::move(flow.begin(), flow.end(), std::back_inserter(chunk_.flow));
  }

  // Full-size drawings mostly take a page each. Where the words before them would stand on one
  // alone and the page before has room, they stand there. False: nothing was done.
  bool begin_on_page_before(Flow& flow, const std::vector<Op>& begin, Length height,
                            const SectionRule& rule) {
    if (chunk_.flow.empty() || chunk_.columns > 1 || chunk_.rule->foot != rule.foot) return false;
    const std::size_t words = paginate(flow, height).slices.front().end;
    Flow before(flow.begin(), flow.begin() + static_cast<std::ptrdiff_t>(words));
    const bool alone = std::ranges::none_of(before, &FlowItem::full_size);
    if (!alone || words == flow.size() || !has_room_for(before)) return false;
    flow.erase(flow.begin(), flow.begin() + static_cast<std::ptrdiff_t>(words));
    enclose(before, begin, {});
    before.front().space_before = std::max(before.front().space_before, section_gap());
    std::move(before.begin(), before.end(), std::back_inserter(chunk_.flow));
    flush();
    enclose(flow, {}, {CloseNode{}});
    chunk_.rule = &rule;
    chunk_.height = height;
    chunk_.ruler = true;
    chunk_.flow = std::move(flow);
    return true;
  }

  // Run after run, since no page depends on those before it.
  void add_slips(const guide::Slips& slips, const Chosen& chosen) {
    constexpr std::size_t run_length = 100;
    const Rect area = geometry().area;
    context_.text_height = area.size.height;
    context_.ruled = false;
    Node sect;
    sect.type = "Sect";
    writer_.open(std::move(sect));
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

  PageGeometry geometry_of_last() const {
    return page_geometry(context_.look, context_.input.paper,
                         static_cast<int>(laid_.pages.size()) - 1);
  }

  Rect with_bleed(Size page) const {
    const Length bleed = context_.look.bleed;
    return {{-bleed, -bleed}, {page.width + bleed * 2, page.height + bleed * 2}};
  }

  void begin_page(const SectionRule& rule) {
    const PageGeometry page = geometry();
    writer_.begin_page(page.page, fmt::format("{}", laid_.pages.size() + 1));
    auto under = std::make_shared<Frame>();
    if (rule.ground)
      under->ops.emplace_back(
          DrawItem{Fill{rectangle(with_bleed(page.page)), context_.colour(*rule.ground), 1.0}});
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
    const Length opening =
        chunk_.opening ? chunk_.opening->size.height + context_.look.grid * 3 : Length{};
    const Pagination pages = paginate(
        flow, {chunk_.height, chunk_.height - opening, chunk_.opening ? as_index(columns) : 0});
    const Length step = column_width(columns) + context_.look.gutter;
    int column = 0;
    for (std::size_t s = 0; s < pages.slices.size(); ++s) {
      const PageSlice& slice = pages.slices[s];
      if (slice.overfull)
        context_.tell(Severity::Warning, "page-overfull",
                      fmt::format("something is {:.0f} mm taller than page {}",
                                  in_mm(slice.used - chunk_.height), laid_.pages.size() + 1),
                      "blocks that fit on a page", "shorten it or choose larger paper");
      if (column == 0) begin_page(*chunk_.rule);
      const bool below_opening = s < as_index(columns) && chunk_.opening;
      if (s == 0 && chunk_.opening) writer_.place(*chunk_.opening, geometry_of_last().area.origin);
      const bool last = s + 1 == pages.slices.size() || flow[slice.end - 1].break_after;
      const Point corner =
          geometry_of_last().area.origin + Point{step * column, below_opening ? opening : Length{}};
      place_slice(slice, corner, last, below_opening ? chunk_.height - opening : chunk_.height);
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
    const PageGeometry page = geometry_of_last();
    const FramePtr ruler = ruler_frame(context_.input.inch_first, context_);
    const TextStyle& style = context_.look.style("small");
    auto frame = std::make_shared<Frame>();
    frame->ops.emplace_back(Inset{{}, ruler});
    const Length x = ruler->size.width + context_.look.gutter;
    // A printer may stretch one way only: the square shows it.
    const Length side = context_.input.inch_first ? inches(0, 1, 2) : millimetres(12);
    const FramePtr square = check_square_frame(context_.input.inch_first, side, context_);
    const Length square_x = page.area.size.width - side;
    frame->ops.emplace_back(Inset{{square_x, ruler->size.height - side}, square});
    frame->ops.emplace_back(
        Inset{{x, points(2)},
              paragraph_frame(plain(ruler_words(context_.input.inch_first, context_)), style,
                              square_x - context_.look.gutter - x, context_, "")});
    writer_.place_furniture(*frame, {page.area.left(), page.area.bottom() - ruler->size.height});
  }

  const guide::Document& document_;
  Context& context_;
  Laid laid_;
  Writer writer_;
  std::size_t pages_before_;
  Chunk chunk_;
};

std::vector<Context::ContentsLine> contents_of(const guide::Document& document,
                                               const Template& look) {
  std::vector<Context::ContentsLine> lines;
  for (const Chosen& chosen : chosen_sections(document, look))
    for (const guide::Block& block : chosen.section->blocks) {
      const auto* heading = std::get_if<guide::Heading>(&block.what);
      if (heading == nullptr || heading->level != 1 || heading->anchor.empty() ||
          chosen.section->name == "contents")
        continue;
      lines.push_back({heading->anchor, heading->number, heading->text, heading->aside});
    }
  return lines;
}

std::map<std::string, std::string, std::less<>> labels_of(const Laid& laid) {
  std::map<std::string, std::string, std::less<>> labels;
  for (const Anchor& anchor : laid.anchors)
    labels.emplace(anchor.id, laid.pages[as_index(anchor.page)].label);
  return labels;
}

// Links that lead nowhere are taken out; the words stay.
void drop_dead_links(Laid& laid, const std::map<std::string, std::string, std::less<>>& labels,
                     Context& context) {
  context.place = {};
  for (LaidPage& page : laid.pages)
    std::erase_if(page.items, [&](const DrawItem& item) {
      const Link* link = std::get_if<Link>(&item);
      if (link == nullptr || link->target.find("://") != std::string::npos ||
          link->target.starts_with("mailto:") || labels.contains(link->target))
        return false;
      context.tell(
          Severity::Warning, "page-unknown-anchor",
          fmt::format("a reference to “{}”, which is nowhere in the document", link->target),
          "the name of something that is printed",
          "take the reference out, or have the template print that section");
      return true;
    });
}

// A number alone tells nobody where a link leads (ISO 14289-1, 7.18.5).
void say_where_links_lead(Laid& laid) {
  std::map<std::string_view, const Anchor*> anchors;
  for (const Anchor& anchor : laid.anchors) anchors.emplace(anchor.id, &anchor);
  for (LaidPage& page : laid.pages)
    for (DrawItem& item : page.items) {
      Link* link = std::get_if<Link>(&item);
      const auto to = link != nullptr ? anchors.find(link->target) : anchors.end();
      if (to == anchors.end()) continue;
      const std::string& label = laid.pages[as_index(to->second->page)].label;
      link->says =
          to->second->title.empty() ? "Page " + label : to->second->title + ", page " + label;
    }
}

} // namespace

namespace {

// What paragraphs depend on beside their words, their style and their width.
Fingerprint bench_of(const guide::Document& document, const Template& look,
                     const LayoutInput& input, const figure::Look& figure_look) {
  Fingerprinter print;
  const auto colour = [&print](Colour c) { print.put(c.red, c.green, c.blue); };
  print.put(document.language, input.hyphenation_file, look.grid, look.hairline, figure_look);
  colour(input.accent);
  for (const auto& [name, tint] : look.colours) {
    print.put(name);
    colour(mixed(tint, input.accent));
  }
  for (const LayoutInput::InkLook& ink : input.inks) {
    print.put(ink.mark, ink.name);
    colour(ink.colour);
  }
  return print.result();
}

} // namespace

LayoutInput layout_input(const Project& project) {
  LayoutInput input;
  input.accent = project.accent;
  input.paper = project.paper;
  for (const Ink& ink : project.inks) input.inks.push_back({ink.colour, ink.mark, ink.name});
  for (const Picture& picture : project.pictures)
    input.pictures.push_back({picture.width_px, picture.height_px});
  return input;
}

Laid lay_out(const guide::Document& document, const Template& look, const text::Fonts& fonts,
             const LayoutInput& input, LayoutCache* kept) {
  figure::Look figure_look;
  figure_look.accent = input.accent;
  figure_look.ink = mixed(look.colour("ink"), input.accent);
  figure_look.quiet = mixed(look.colour("quiet"), input.accent);
  figure_look.ground = mixed(look.colour("ground"), input.accent);
  if (const auto label = look.styles.find("figure-label"); label != look.styles.end()) {
    figure_look.label_size = label->second.size;
    figure_look.badge_size = label->second.size * 25 / 16;
  }
  if (const auto measure = look.styles.find("figure-dimension"); measure != look.styles.end())
    figure_look.dimension_size = measure->second.size;
  // Within one document too much is set twice: pages are counted first.
  LayoutCache own(3000);
  if (kept == nullptr) kept = &own;
  const Hyphenation given(input.hyphenation_file);
  const Hyphenation& hyphenation =
      input.hyphenation_file.empty() ? kept->hyphenation(document.language) : given;
  FigureCache figures(figure_look, fonts, kept);
  Context context(look, fonts, input, hyphenation, figures);
  context.kept = kept;
  context.bench = bench_of(document, look, input, figure_look);
  context.figure_look = figure_look;
  context.contents = contents_of(document, look);
  const PageGeometry first = page_geometry(look, input.paper, 0);
  context.text_height = first.area.size.height;
  for (const Chosen& chosen : chosen_sections(document, look)) {
    const int columns = columns_of(*chosen.rule, look);
    const std::size_t opening = opening_of(*chosen.section, columns);
    const std::span<const guide::Block> blocks = chosen.section->blocks;
    note_group_scales(blocks.first(opening), first.area.size.width, context);
    note_group_scales(blocks.subspan(opening), column_width(first.area.size.width, columns, look),
                      context);
  }

  // Page numbers change widths, and widths may move pages: again, until nothing moves.
  constexpr int most_passes = 6;
  std::size_t pages = 0;
  Laid laid;
  for (int pass = 1;; ++pass) {
    context.findings.clear();
    context.told.clear();
    context.made_words.clear();
    context.made_blocks.clear();
    context.made_ticks.clear();
    context.uses_labels = false;
    context.text_height = first.area.size.height;
    laid = {};
    laid = Pass(document, context, pages).run();
    auto labels = labels_of(laid);
    const bool settled = labels == context.labels && laid.pages.size() == pages;
    context.labels = std::move(labels);
    pages = laid.pages.size();
    if (settled || !context.uses_labels) break;
    if (pass == most_passes) {
      context.place = {};
      context.tell(Severity::Warning, "page-restless", "page numbers still move after six passes",
                   "a layout that comes to rest", "reword a paragraph that refers to a page");
      break;
    }
  }
  drop_dead_links(laid, context.labels, context);
  say_where_links_lead(laid);
  laid.findings = std::move(context.findings);
  return laid;
}

} // namespace leafwright::page
