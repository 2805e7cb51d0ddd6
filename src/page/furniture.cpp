#include "page/furniture.h"

#include "page/blocks.h"
#include "page/paragraph.h"

#include "measure/paper_sizes.h"
#include "measure/parse_length.h"

#include <fmt/format.h>

#include <cmath>

namespace leafwright::page {

namespace {

// Where a field is empty, its neighbour's separator goes too.
std::string without_outer_separators(std::string text) {
  const std::string_view separator = " · ";
  while (text.ends_with(separator)) text.resize(text.size() - separator.size());
  while (text.starts_with(separator)) text.erase(0, separator.size());
  return text;
}

} // namespace

void replace_all(std::string& text, std::string_view what, std::string_view with) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

PageGeometry page_geometry(const Template& look, const std::string& project_paper, int page_index) {
  const std::string& name = look.paper == "project" ? project_paper : look.paper;
  Size page{inches(8, 1, 2), inches(11)};
  if (const auto named = find_size(sheet_sizes(), name)) {
    page = *named;
  } else if (const Parsed<Size> measured = parse_size(name, Unit::Millimetre)) {
    page = *measured;
  }
  if (look.landscape) page = page.turned();
  const bool even = page_index % 2 == 1;
  const Length left = look.mirrored && even ? look.outer : look.inner;
  const Length right = look.mirrored && even ? look.inner : look.outer;
  Rect area{{left, look.top}, {page.width - left - right, page.height - look.top - look.bottom}};
  // Margins that leave nothing would make every word overfull: at least a business card's width.
  if (area.size.width < millimetres(50)) area.size.width = millimetres(50);
  if (area.size.height < millimetres(50)) area.size.height = millimetres(50);
  // Whole steps of the grid.
  area.size.height = {area.size.height.nm / look.grid.nm * look.grid.nm};
  return {page, area, look.mirrored && even};
}

FramePtr foot_frame(const PageGeometry& geometry, const guide::Document& document,
                    const std::string& running, const std::string& label, std::size_t pages,
                    Context& context) {
  const FootRule& rule = context.look.foot;
  auto frame = std::make_shared<Frame>();
  frame->size = geometry.page;
  const Rect& area = geometry.area;
  TextStyle style = context.look.style("running");
  const Length baseline = area.bottom() + rule.distance;
  if (rule.rule)
    frame->ops.emplace_back(rule_at(area.left(), baseline - style.leading, area.size.width,
                                    context.look.hairline, context.colour("rule")));
  const Length top = baseline - baseline_in(style.leading, context.look);
  const auto add = [&](std::string words, TextStyle::Align align) {
    if (words.find("{pages}") != std::string::npos) context.uses_labels = true;
    // A sheet of one section is called as that section is: once is enough.
    const bool said =
        words.find("{title}") != std::string::npos && document.title.ends_with(running);
    replace_all(words, "{title}", document.title);
    replace_all(words, "{running}", said ? std::string_view{} : running);
    replace_all(words, "{edition}", document.edition);
    replace_all(words, "{author}", document.author);
    replace_all(words, "{pages}", fmt::format("{}", pages));
    replace_all(words, "{page}", label);
    words = without_outer_separators(std::move(words));
    if (words.empty()) return;
    style.align = align;
    style.measure = {};
    frame->ops.emplace_back(Stand{
        {area.left(), top}, paragraph_frame(plain(words), style, area.size.width, context, "")});
  };
  add(geometry.turned ? rule.right : rule.left, TextStyle::Align::Left);
  add(rule.centre, TextStyle::Align::Centre);
  add(geometry.turned ? rule.left : rule.right, TextStyle::Align::Right);
  return frame;
}

DrawItem draft_word(Point centre, Length size, Angle slant, Context& context) {
  const std::string& words = context.look.words.draft;
  const int face = context.fonts.face(text::Role::TextBold);
  text::Shaped large = context.fonts.shape(face, size, words.substr(0, words.find_first_of(":, ")));
  const Colour pale = mixed({false, context.colour("caution"), 0.13}, context.input.accent);
  const double a = in_degrees(slant) * 3.14159265358979323846 / 180.0;
  const double half = static_cast<double>(large.width.nm) / 2.0;
  const double drop = static_cast<double>(size.nm) * 0.35;
  const Point baseline{centre.x + Length{std::llround(-half * std::cos(a) - drop * std::sin(a))},
                       centre.y + Length{std::llround(-half * std::sin(a) + drop * std::cos(a))}};
  return TextRun{std::move(large), baseline, pale, slant, {}};
}

FramePtr draft_frame(const PageGeometry& geometry, Context& context) {
  auto frame = std::make_shared<Frame>();
  frame->size = geometry.page;
  const Point centre{geometry.page.width / 2, geometry.page.height / 2};
  frame->ops.emplace_back(draft_word(centre, geometry.page.width / 4, degrees(-55), context));
  TextStyle style = context.look.style("draft");
  style.align = TextStyle::Align::Right;
  style.measure = {};
  frame->ops.emplace_back(Stand{{geometry.area.left(), geometry.area.top() - style.leading * 2},
                                paragraph_frame(plain(context.look.words.draft), style,
                                                geometry.area.size.width, context, "")});
  return frame;
}

} // namespace leafwright::page
