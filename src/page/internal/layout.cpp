#include "page/layout.h"

#include "guide/figure/scene.h"
#include "measure/index.h"
#include "page/context.h"
#include "page/internal/furniture.h"
#include "page/internal/section_pages.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::page {

namespace {

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

figure::Look figure_look_of(const Template& look, const LayoutInput& input) {
  figure::Look own;
  own.accent = input.accent;
  own.ink = mixed(look.colour("ink"), input.accent);
  own.quiet = mixed(look.colour("quiet"), input.accent);
  own.ground = mixed(look.colour("ground"), input.accent);
  if (const auto label = look.styles.find("figure-label"); label != look.styles.end()) {
    own.label_size = label->second.size;
    own.badge_size = label->second.size * 25 / 16;
  }
  if (const auto measure = look.styles.find("figure-dimension"); measure != look.styles.end())
    own.dimension_size = measure->second.size;
  return own;
}

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

void note_all_group_scales(const guide::Document& document, Length width, Context& context) {
  for (const Chosen& chosen : chosen_sections(document, context.look)) {
    const int columns = columns_of(*chosen.rule, context.look);
    const std::size_t opening = opening_of(*chosen.section, columns);
    const std::span<const guide::Block> blocks = chosen.section->blocks;
    note_group_scales(blocks.first(opening), width, context);
    note_group_scales(blocks.subspan(opening), column_width(width, columns, context.look), context);
  }
}

void forget_pass(Context& context) {
  context.findings.clear();
  context.told.clear();
  context.made_words.clear();
  context.made_blocks.clear();
  context.made_ticks.clear();
  context.uses_labels = false;
}

} // namespace

LayoutInput layout_input(const Project& project) {
  LayoutInput input;
  input.accent = project.accent;
  input.paper = project.paper;
  input.printing = project.printing;
  for (const Ink& ink : project.inks) input.inks.push_back({ink.colour, ink.mark, ink.name});
  for (const Picture& picture : project.pictures)
    input.pictures.push_back({picture.width_px, picture.height_px});
  return input;
}

Laid lay_out(const guide::Document& document, const Template& look, const text::Fonts& fonts,
             const LayoutInput& input, LayoutCache* kept) {
  const figure::Look figure_look = figure_look_of(look, input);
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
  note_all_group_scales(document, first.area.size.width, context);

  // Page numbers change widths, and widths may move pages: again, until nothing moves.
  constexpr int most_passes = 6;
  std::size_t pages = 0;
  Laid laid;
  for (int pass = 1;; ++pass) {
    forget_pass(context);
    context.text_height = first.area.size.height;
    laid = {};
    laid = laid_sections(document, context, pages);
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
