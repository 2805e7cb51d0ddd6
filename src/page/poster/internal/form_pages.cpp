#include "page/poster/form_pages.h"

#include "measure/index.h"
#include "page/flow.h"
#include "page/poster/internal/lettering.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::poster {

namespace {

using page::FormField;

constexpr Length form_margin = millimetres(17), part_gap = millimetres(4),
                 line_gap = millimetres(2);
constexpr Length tick_side = millimetres(4), tick_gap = millimetres(2);
constexpr Length line_height = millimetres(8), lines_height = millimetres(19);

class FormSetter {
 public:
  FormSetter(Size paper, const Style& style, const text::Fonts& fonts)
      : paper_(paper), width_(paper.width - form_margin * 2),
        fonts_(fonts), title_{text::Role::Display, points(20), points(25), style.look.ink},
        heading_{text::Role::TextBold, points(10.5), points(15), style.accent_words},
        words_{text::Role::Text, points(9.5), points(13.5), style.look.ink},
        rule_(style.look.quiet) {
    node("Document");
    out_.nodes.front().parent = -1;
    new_page();
  }

  page::Laid set(const FormWords& form) {
    say("H1", form.title, title_);
    y_ += line_gap;
    if (!form.lead.empty()) say("P", form.lead, words_);
    for (const FormPart& part : form.parts) set_part(part);
    y_ += part_gap;
    if (!form.close.empty()) say("P", form.close, words_);
    for (std::size_t i = 0; i < out_.pages.size(); ++i) out_.pages[i].label = std::to_string(i + 1);
    return std::move(out_);
  }

 private:
  void new_page() {
    out_.pages.emplace_back();
    out_.pages.back().size = paper_;
    y_ = form_margin;
  }
  void make_room(Length height) {
    if (y_ + height > paper_.height - form_margin && y_ > form_margin) new_page();
  }
  Length height_of(const std::string& words, const Lettering& how, Length width) const {
    return how.leading *
           static_cast<std::int64_t>(lines_of(words, how.role, how.size, width, fonts_).size());
  }
  int node(const std::string& type) {
    page::Node one;
    one.type = type;
    one.parent = 0;
    out_.nodes.push_back(std::move(one));
    return static_cast<int>(out_.nodes.size()) - 1;
  }

  // Returns where the words end; the pen stays where it is.
  Length put(const std::string& type, const std::string& words, const Lettering& how, Length left,
             Length width) {
    Drawing drawing;
    drawing.items.emplace_back(Begin{node(type)});
    const Length end = set_words(drawing, words, how, left, width, y_, fonts_);
    drawing.items.emplace_back(End{});
    append_moved(out_.pages.back().items, drawing, {});
    return end;
  }
  void say(const std::string& type, const std::string& words, const Lettering& how) {
    make_room(height_of(words, how, width_));
    y_ = put(type, words, how, form_margin, width_);
  }

  void set_part(const FormPart& part) {
    y_ += part_gap;
    // A heading stays with the first of what it is over.
    make_room(height_of(part.heading, heading_, width_) + height_of(part.words, words_, width_) +
              lines_height);
    if (!part.heading.empty()) say("H2", part.heading, heading_);
    if (!part.words.empty()) say("P", part.words, words_);
    const std::size_t columns = columns_of(part.lines);
    if (columns > 1) return set_ticks(part.lines, columns);
    for (const FormLine& line : part.lines) set_line(line);
  }

  Length column_width(std::size_t columns) const {
    const auto n = static_cast<std::int64_t>(columns);
    return (width_ - tick_gap * (n - 1)) / n;
  }
  // How many ticks stand beside each other with their words in one line: three, two or one.
  std::size_t columns_of(const std::vector<FormLine>& lines) const {
    for (const std::size_t columns : {3U, 2U}) {
      const Length room = column_width(columns) - tick_side - tick_gap;
      const bool all = std::ranges::all_of(lines, [&](const FormLine& line) {
        return line.kind == FormField::Kind::Tick &&
               fonts_.width(fonts_.face(words_.role), words_.size, line.label) <= room;
      });
      if (all && lines.size() >= columns) return columns;
    }
    return 1;
  }
  void set_ticks(const std::vector<FormLine>& lines, std::size_t columns) {
    const Length width = column_width(columns);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::size_t column = i % columns;
      if (column == 0) {
        y_ += i == 0 ? line_gap : words_.leading + line_gap;
        make_room(words_.leading);
      }
      put_tick(lines[i], form_margin + (width + tick_gap) * static_cast<std::int64_t>(column),
               width);
    }
    y_ += words_.leading;
  }
  void put_tick(const FormLine& line, Length left, Length width) {
    const Length words = tick_side + tick_gap;
    add_field(line, {{left, y_ + (words_.leading - tick_side) / 2}, {tick_side, tick_side}});
    put("P", line.label, words_, left + words, width - words);
  }

  void set_line(const FormLine& line) {
    y_ += line_gap;
    if (line.kind == FormField::Kind::Tick) {
      const Length height =
          std::max(tick_side, height_of(line.label, words_, width_ - tick_side - tick_gap));
      make_room(height);
      put_tick(line, form_margin, width_);
      y_ += height;
      return;
    }
    const Length height = line.kind == FormField::Kind::Lines ? lines_height : line_height;
    const Length above = line.label.empty() ? Length{} : height_of(line.label, words_, width_);
    make_room(above + height);
    if (!line.label.empty()) y_ = put("P", line.label, words_, form_margin, width_);
    add_field(line, {{form_margin, y_}, {width_, height}});
    y_ += height;
  }

  void add_field(const FormLine& line, Rect box) {
    std::vector<DrawItem>& items = out_.pages.back().items;
    items.emplace_back(Begin{-1});
    Stroke frame;
    frame.path = page::rectangle(box);
    frame.colour = rule_;
    items.emplace_back(std::move(frame));
    items.emplace_back(End{});
    FormField field;
    field.kind = line.kind;
    field.name = line.name;
    field.tooltip = line.tooltip;
    field.page = static_cast<int>(out_.pages.size()) - 1;
    field.box = box;
    field.node = node("Form");
    out_.fields.push_back(std::move(field));
  }

  Size paper_;
  Length width_;
  const text::Fonts& fonts_;
  Lettering title_, heading_, words_;
  Colour rule_;
  page::Laid out_;
  Length y_{};
};

} // namespace

page::Laid form_pages(const FormWords& words, Size paper, const Style& style,
                      const text::Fonts& fonts) {
  return FormSetter(paper, style, fonts).set(words);
}

} // namespace leafwright::poster
