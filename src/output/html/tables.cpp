#include "output/html/writer.h"

#include "guide/prose/prose.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::html {
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
