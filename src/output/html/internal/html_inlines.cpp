#include "output/html/internal/html_writer.h"

#include "guide/prose.h"
#include "measure/index.h"
#include "output/pictures.h"
#include "page/flow.h"
#include "text/fractions.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <type_traits>

namespace leafwright::html {
namespace {

constexpr std::string_view no_break_space = "\u00A0";

// Only what opens a page or a letter: "javascript:" in a project must never become a link.
bool is_safe_address(std::string_view target) {
  return target.starts_with("https://") || target.starts_with("http://") ||
         target.starts_with("mailto:");
}
bool is_address(std::string_view target) {
  return target.find("://") != std::string_view::npos || target.starts_with("mailto:");
}

// There are no page numbers here: of "on page 12" the words before the number are cut off.
void cut_page_words(std::string& markup) {
  const std::string_view words = "on page\u00A0";
  if (!markup.ends_with(words)) return;
  markup.resize(markup.size() - words.size());
  markup += "under ";
}

} // namespace

std::string text_markup(std::string_view text) {
  std::string out;
  std::size_t done = 0;
  for (const text::ByteRange range : text::fractions_in(text)) {
    // The no-break space of a mixed number ("4 1/4") shall hardly be seen.
    std::size_t from = range.begin;
    const bool mixed = text.substr(0, range.begin).ends_with(no_break_space) &&
                       range.begin > done + no_break_space.size() &&
                       text[range.begin - no_break_space.size() - 1] >= '0' &&
                       text[range.begin - no_break_space.size() - 1] <= '9';
    if (mixed) from -= no_break_space.size();
    out += text::xml_text(text.substr(done, from - done));
    if (mixed) out += fmt::format("<span class=\"and\">{}</span>", no_break_space);
    out += fmt::format("<span class=\"part\">{}</span>",
                       text::xml_text(text.substr(range.begin, range.end - range.begin)));
    done = range.end;
  }
  return out + text::xml_text(text.substr(done));
}

std::string InlineWriter::link(std::string_view target, std::string words) const {
  if (is_address(target)) {
    if (!is_safe_address(target)) return words;
    return fmt::format("<a href=\"{}\">{}</a>", text::xml_text(target), words);
  }
  if (!anchors_.contains(target)) return words;
  return fmt::format("<a href=\"#{}\">{}</a>", text::xml_text(target), words);
}

std::string InlineWriter::chip(int ink) const {
  const auto index = as_index(std::max(ink, 0));
  if (ink < 0 || index >= input_.inks.size()) return {};
  const page::LayoutInput::InkLook& known = input_.inks[index];
  const Rect box{{micrometres(100), micrometres(100)}, {millimetres(4), millimetres(4)}};
  page::Frame frame;
  page::draw_chip(box, known.colour, known.mark, mixed(look_.colour("ink"), input_.accent), frame);
  Drawing drawing{{micrometres(4200), micrometres(4200)}, {}};
  for (const page::Op& op : frame.ops)
    if (const auto* item = std::get_if<DrawItem>(&op)) drawing.items.push_back(*item);
  if (grey_) page::make_grey(drawing.items);
  const text::Fonts no_fonts;
  // The ink's name always stands beside it.
  return fmt::format("<svg class=\"chip\" aria-hidden=\"true\" viewBox=\"0 0 4.2 4.2\">{}</svg>",
                     svg::SvgParts(no_fonts, {}).draw(drawing));
}

std::string InlineWriter::markup(const guide::Inlines& inlines) const {
  std::string out;
  bool kept = false; // a chip waits for the word that belongs to it
  for (const guide::Inline& one : inlines) {
    const auto* after_chip = kept ? std::get_if<guide::Words>(&one) : nullptr;
    if (after_chip != nullptr && after_chip->style == guide::Words::Style::Plain) {
      const std::string_view text = after_chip->text;
      const std::size_t end = std::min(text.find(' '), text.size());
      out += text_markup(text.substr(0, end)) + "</span>" + text_markup(text.substr(end));
      kept = false;
      continue;
    }
    if (kept) out += "</span>";
    kept = std::holds_alternative<guide::InkChip>(one);
    if (kept) out += "<span class=\"keep\">";
    std::visit(
        [&](const auto& what) {
          using What = std::decay_t<decltype(what)>;
          if constexpr (std::is_same_v<What, guide::Words>) {
            using enum guide::Words::Style;
            const std::string words = text_markup(what.text);
            switch (what.style) {
            case Plain: out += words; break;
            case Strong: out += "<strong>" + words + "</strong>"; break;
            case Emphasis: out += "<em>" + words + "</em>"; break;
            case Quiet: out += "<span class=\"quiet\">" + words + "</span>"; break;
            }
          } else if constexpr (std::is_same_v<What, guide::PieceLetter>) {
            out += fmt::format("<span class=\"letter\">{}</span>", text::xml_text(what.letter));
          } else if constexpr (std::is_same_v<What, guide::InkChip>) {
            out += chip(what.ink);
          } else if constexpr (std::is_same_v<What, guide::PageOf>) {
            const auto known = anchors_.find(what.anchor);
            cut_page_words(out);
            out += link(what.anchor, text_markup(known == anchors_.end() ? "?" : known->second));
          } else if constexpr (std::is_same_v<What, guide::Go>) {
            out += link(what.target, text_markup(what.text));
          } else {
            static_assert(std::is_same_v<What, guide::TickBox>);
            out += "<span class=\"tick\" role=\"img\" aria-label=\"to tick\"></span>";
          }
        },
        one);
  }
  return kept ? out + "</span>" : out;
}

namespace {

std::string_view align_class(guide::Column::Align align) {
  using enum guide::Column::Align;
  switch (align) {
  case Left: break;
  case Right:
  case Decimal: return " class=\"right\"";
  case Centre: return " class=\"centre\"";
  }
  return "";
}

template <class What>
bool holds(const guide::Table& table, std::size_t column) {
  return std::ranges::any_of(table.rows, [column](const guide::Row& row) {
    return row.kind != guide::Row::Kind::Group && column < row.cells.size() &&
           std::ranges::any_of(row.cells[column], [](const guide::Inline& one) {
             return std::holds_alternative<What>(one);
           });
  });
}

// A column without a printed head is named by what is in it, for those who are told the head of
// every cell.
std::string_view unseen_head(const guide::Table& table, std::size_t column) {
  if (holds<guide::TickBox>(table, column)) return "Tick";
  if (holds<guide::PieceLetter>(table, column)) return "Letter";
  if (holds<guide::InkChip>(table, column)) return "Ink";
  return column == 0 ? "Item" : "Note";
}

} // namespace

void Writer::add(const guide::Row& row, const guide::Table& table) {
  using enum guide::Row::Kind;
  out_ += row.kind == Total
              ? (row.changed ? "<tr class=\"total changed\">" : "<tr class=\"total\">")
          : row.changed ? "<tr class=\"changed\">"
                        : "<tr>";
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const guide::Column& column = table.columns[c];
    std::string words = c < row.cells.size() ? inlines_.markup(row.cells[c]) : std::string();
    if (c == 0 && row.changed) words.insert(0, changed_words);
    // A header cell says something.
    if (column.is_row_head && !words.empty())
      out_ += fmt::format("<th scope=\"row\"{}>{}</th>", align_class(column.align), words);
    else
      out_ += fmt::format("<td{}>{}</td>", align_class(column.align), words);
  }
  out_ += "</tr>\n";
}

void Writer::write(const guide::Table& table) {
  if (table.columns.empty() || table.rows.empty()) return;
  using enum guide::Row::Kind;
  // Wide tables may be pushed sideways within themselves on a narrow screen; by keys as well.
  constexpr std::size_t narrow = 3;
  const bool wide = table.columns.size() > narrow;
  if (wide)
    out_ += fmt::format("<div class=\"wide\" role=\"group\" tabindex=\"0\" aria-label=\"{}\">\n",
                        text::xml_text("Table: " + (table.caption.empty() ? std::string("values")
                                                                          : table.caption)));
  out_ += "<table>\n";
  if (!table.caption.empty())
    out_ += fmt::format("<caption{}>{}</caption>\n", table.show_caption ? "" : " class=\"unseen\"",
                        text_markup(table.caption));
  const bool headed = std::ranges::any_of(
      table.columns, [](const guide::Column& column) { return !column.head.empty(); });
  if (headed) {
    out_ += "<thead>\n<tr>";
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      const guide::Column& column = table.columns[c];
      out_ += fmt::format("<th scope=\"col\"{}>{}</th>", align_class(column.align),
                          column.head.empty() ? fmt::format("<span class=\"unseen\">{}</span>",
                                                            unseen_head(table, c))
                                              : inlines_.markup(column.head));
    }
    out_ += "</tr>\n</thead>\n";
  }
  bool open = false;
  for (const guide::Row& row : table.rows) {
    if (row.kind == Group || !open) {
      if (open) out_ += "</tbody>\n";
      out_ += "<tbody>\n";
      open = true;
    }
    if (row.kind == Group)
      out_ +=
          fmt::format("<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"{}\">{}</th></tr>\n",
                      table.columns.size(),
                      row.cells.empty() ? std::string() : inlines_.markup(row.cells.front()));
    else
      add(row, table);
  }
  out_ += "</tbody>\n</table>\n";
  if (wide) out_ += "</div>\n";
}

} // namespace leafwright::html
