#include "page/poster/internal/lettering.h"

#include "guide/figure/scenes.h"
#include "guide/sections.h"
#include "measure/index.h"
#include "page/flow.h"
#include "page/poster/poster.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace leafwright::poster {

std::vector<std::string> lines_of(std::string_view words, text::Role role, Length size,
                                  Length width, const text::Fonts& fonts) {
  std::vector<std::string> lines;
  const int face = fonts.face(role);
  while (!words.empty()) {
    const std::size_t end = std::min(words.find(' '), words.size());
    const std::string word(words.substr(0, end));
    words.remove_prefix(std::min(end + 1, words.size()));
    if (word.empty()) continue;
    const std::string longer = lines.empty() ? word : lines.back() + " " + word;
    if (!lines.empty() && fonts.width(face, size, longer) <= width)
      lines.back() = longer;
    else
      lines.push_back(word);
  }
  return lines;
}

Length fitting_size(std::string_view words, text::Role role, Length most, Length least,
                    Length width, std::size_t most_lines, const text::Fonts& fonts) {
  for (Length size = most; size > least; size -= most / 20) {
    const std::vector<std::string> lines = lines_of(words, role, size, width, fonts);
    bool fits = lines.size() <= most_lines;
    for (const std::string& line : lines)
      fits = fits && fonts.width(fonts.face(role), size, line) <= width;
    if (fits) return size;
  }
  return least;
}

Length set_words(Drawing& into, std::string_view words, const Lettering& how, Length left,
                 Length width, Length top, const text::Fonts& fonts) {
  const int face = fonts.face(how.role);
  const Length rise = how.size * fonts.metrics(face).ascent / 1000;
  const Length fall = how.size * -fonts.metrics(face).descent / 1000;
  for (const std::string& line : lines_of(words, how.role, how.size, width, fonts)) {
    text::Shaped shaped = fonts.shape(face, how.size, line);
    const Length indent = how.stand == Alignment::Left ? Length{} : (width - shaped.width) / 2;
    const Length baseline = top + (how.leading - rise - fall) / 2 + rise;
    into.items.emplace_back(
        TextRun{std::move(shaped), {left + indent, baseline}, how.colour, {}, {}});
    top += how.leading;
  }
  return top;
}

namespace {

// The margin of a picture, as a share of its longer side.
constexpr std::int64_t margins_in_side = 16;

void add_steps(std::vector<CardView>& views, const Project& project, int card) {
  const guide::Section section = guide::card_section(project, card);
  for (const guide::Block& block : section.blocks) {
    const auto* steps = std::get_if<guide::Steps>(&block.what);
    if (steps == nullptr) continue;
    int count = 0;
    for (const guide::Step& step : steps->steps) {
      ++count;
      if (!step.figure) continue;
      CardView view{fmt::format("step-{:02}", count),
                    step.number.empty() ? step.title : step.number + "\u2002" + step.title,
                    step.figure->scene, "step"};
      views.push_back(std::move(view));
    }
  }
}

} // namespace

Style style_of(const page::Template& page_look, Colour accent) {
  Style style;
  style.look.accent = accent;
  style.look.ink = mixed(page_look.colour("ink"), accent);
  style.look.quiet = mixed(page_look.colour("quiet"), accent);
  style.look.ground = mixed(page_look.colour("ground"), accent);
  style.accent_words = accent;
  return style;
}

std::vector<CardView> views_of(const Project& project, int index) {
  const Card& card = project.cards.at(as_index(index));
  std::vector<CardView> views;
  const auto seen = [&](leafwright::View view) { return guide::has_something_on(card, view); };
  using enum leafwright::View;
  views.push_back({"front", "Front", figure::finished(project, card, Front), ""});
  const Size inside = card.plan.inside_view;
  if (inside.width > Length{} && inside.height > Length{})
    views.push_back({"inside", "Inside", figure::finished(project, card, Inside), ""});
  if (seen(Back)) views.push_back({"back", "Back", figure::finished(project, card, Back), ""});
  if (card.envelope >= 0)
    views.push_back({"envelope", "Envelope", figure::finished_envelope(project, card), ""});
  if (seen(Front))
    views.push_back({"layers", "Layers", figure::exploded(project, card, Front), ""});
  if (seen(Inside))
    views.push_back(
        {"layers-inside", "Layers inside", figure::exploded(project, card, Inside), ""});
  std::erase_if(views, [](const CardView& view) { return view.scene.items.empty(); });
  add_steps(views, project, index);
  return views;
}

std::vector<Shown> shown(const std::vector<CardView>& views, Size room, const Style& style,
                         const text::Fonts& fonts) {
  page::FigureCache cache(style.look, fonts);
  // Scales as in the steps of the booklet: one for each look at the card.
  std::map<std::string, double> scales;
  for (const CardView& view : views) {
    if (view.group.empty()) continue;
    const double fits = cache.fitting(view.scene, room);
    const auto [entry, fresh] = scales.emplace(view.group + ' ' + view.scene.scale_group, fits);
    if (!fresh) entry->second = std::min(entry->second, fits);
  }
  std::map<std::string, Size> frames;
  std::vector<const page::Drawn*> drawn;
  for (const CardView& view : views) {
    const double scale = view.group.empty() ? cache.fitting(view.scene, room)
                                            : scales.at(view.group + ' ' + view.scene.scale_group);
    const page::Drawn& one = cache.composed(view.scene, room, scale);
    drawn.push_back(&one);
    Size& frame = frames[view.group.empty() ? view.name : view.group];
    frame = {std::max(frame.width, one.drawing->size.width),
             std::max(frame.height, one.drawing->size.height)};
  }
  std::vector<Shown> out;
  for (std::size_t i = 0; i < views.size(); ++i) {
    const CardView& view = views[i];
    const Drawing& drawing = *drawn[i]->drawing;
    const Size frame = frames.at(view.group.empty() ? view.name : view.group);
    const Length margin = std::max(frame.width, frame.height) / margins_in_side;
    Shown one{view.name, view.title, view.scene.alternative, {}, drawn[i]->crowded};
    one.drawing.size = {frame.width + margin * 2, frame.height + margin * 2};
    one.drawing.items.emplace_back(
        Fill{page::rectangle({{}, one.drawing.size}), style.look.ground, 1.0});
    append_moved(one.drawing.items, drawing,
                 {(one.drawing.size.width - drawing.size.width) / 2,
                  (one.drawing.size.height - drawing.size.height) / 2});
    out.push_back(std::move(one));
  }
  return out;
}

} // namespace leafwright::poster
