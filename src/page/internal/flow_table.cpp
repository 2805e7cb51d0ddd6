#include "page/internal/block_flows.h"
#include "page/internal/blocks.h"
#include "page/internal/furniture.h"
#include "page/internal/paragraph.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace leafwright::page {

namespace {

using guide::Column;

// The table's text, measured once.
struct Measured {
  std::vector<Paragraph> head;              // by column
  std::vector<std::vector<Paragraph>> rows; // by row, by column
  std::vector<Length> decimal_left;         // by column: widest whole-number part
  std::vector<std::vector<Length>> decimal; // by row, by column: this cell's part
  Length gap;
  bool any_head = false;
};

// Width of what stands before the decimal point, or of the leading whole number.
Length whole_number_part(const Paragraph& cell, Context& context) {
  if (cell.atoms().empty() || cell.atoms().front().kind != Atom::Kind::Word) return {};
  const Atom& first = cell.atoms().front();
  std::size_t end = 0;
  while (end < first.text.size() &&
         ((first.text[end] >= '0' && first.text[end] <= '9') || first.text[end] == ','))
    ++end;
  // "1/2" has no whole part: its fraction stands where fractions stand.
  if (end < first.text.size() && first.text[end] == '/') end = 0;
  if (end == 0) return {};
  return shape_word(std::string_view(first.text).substr(0, end), first.face, first.size, true,
                    context)
      .width;
}

TextStyle cell_style(const Column& column, TextStyle style) {
  using enum Column::Align;
  style.tabular = column.align == Right || column.align == Decimal;
  style.align = column.align == Right    ? TextStyle::Align::Right
                : column.align == Centre ? TextStyle::Align::Centre
                                         : TextStyle::Align::Left;
  return style;
}

Measured measure(const guide::Table& table, bool small, Context& context) {
  Measured result;
  result.gap = small ? context.look.cell_gap / 2 : context.look.cell_gap;
  const TextStyle& body = context.look.style(small ? "table-small" : "table");
  const TextStyle& head = context.look.style(small ? "table-head-small" : "table-head");
  TextStyle total = body;
  total.role = context.look.style("table-total").role;
  for (const Column& column : table.columns) {
    result.head.emplace_back(column.head, cell_style(column, head), context);
    result.any_head = result.any_head || !result.head.back().empty();
  }
  result.decimal_left.resize(table.columns.size());
  for (const guide::Row& row : table.rows) {
    std::vector<Paragraph> cells;
    std::vector<Length> parts;
    if (row.kind != guide::Row::Kind::Group)
      for (std::size_t c = 0; c < table.columns.size(); ++c) {
        static const guide::Inlines nothing;
        const guide::Inlines& text = c < row.cells.size() ? row.cells[c] : nothing;
        cells.emplace_back(
            text, cell_style(table.columns[c], row.kind == guide::Row::Kind::Total ? total : body),
            context);
        Length part{};
        if (table.columns[c].align == Column::Align::Decimal)
          part = whole_number_part(cells.back(), context);
        parts.push_back(part);
        result.decimal_left[c] = std::max(result.decimal_left[c], part);
      }
    result.rows.push_back(std::move(cells));
    result.decimal.push_back(std::move(parts));
  }
  return result;
}

// The room a cell's text leaves at its left, so that the numbers of a column stand under each
// other.
Length cell_indent(const Measured& measured, std::size_t row, std::size_t c, const Column& column) {
  if (column.align != Column::Align::Decimal) return {};
  return measured.decimal_left[c] - measured.decimal[row][c];
}

std::vector<ColumnNeed> needs_of(const guide::Table& table, const Measured& measured) {
  std::vector<ColumnNeed> needs(table.columns.size());
  for (std::size_t c = 0; c < needs.size(); ++c) {
    ColumnNeed& need = needs[c];
    need.share = table.columns[c].share;
    need.narrowest = measured.head[c].narrowest();
    need.widest = std::max(need.narrowest, std::min(measured.head[c].widest(), points(64)));
    need.cells.push_back(measured.head[c].widest());
    for (std::size_t r = 0; r < measured.rows.size(); ++r) {
      if (measured.rows[r].empty()) continue;
      const Paragraph& cell = measured.rows[r][c];
      const Length indent = cell_indent(measured, r, c, table.columns[c]);
      need.narrowest = std::max(need.narrowest, indent + cell.narrowest());
      need.widest = std::max(need.widest, indent + cell.widest());
      need.cells.push_back(indent + cell.widest());
    }
    need.narrowest += points(0.5); // rounding
    need.widest += points(0.5);
  }
  return needs;
}

Length needed(const std::vector<ColumnNeed>& needs, Length gap) {
  Length sum = gap * static_cast<std::int64_t>(needs.size() - 1);
  for (const ColumnNeed& need : needs) sum += need.narrowest;
  return sum;
}

// A row of set cells under each other's baselines; `foot_rule` is drawn along its lower edge.
struct RowMaker {
  const guide::Table& table;
  const Measured& measured;
  const std::vector<Length>& lefts;
  const std::vector<Length>& widths;
  Length width;
  Context& context;

  FramePtr body(std::size_t r) const {
    const guide::Row& row = table.rows[r];
    const bool total = row.kind == guide::Row::Kind::Total;
    const Length padding = context.look.row_padding;
    std::vector<Op> ops;
    ops.emplace_back(OpenNode{node_of("TR"), false});
    Length tallest{};
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      const Paragraph& cell = measured.rows[r][c];
      Node node = node_of(table.columns[c].is_row_head ? "TH" : "TD");
      if (table.columns[c].is_row_head) node.scope = "Row";
      ops.emplace_back(OpenNode{std::move(node), false});
      const Length indent = cell_indent(measured, r, c, table.columns[c]);
      Length y = padding;
      for (const SetLine& line : cell.set(widths[c] - indent, context)) {
        ops.emplace_back(Inset{{lefts[c] + indent, y}, line.frame});
        y += cell.style().leading;
      }
      tallest = std::max(tallest, y + padding);
      ops.emplace_back(CloseNode{});
    }
    // Half steps: a whole one would part the rows of a long list too far.
    const Length height = on_grid(std::max(tallest, context.look.grid * 2), context.look.grid / 2);
    if (total)
      ops.emplace_back(
          rule_at({}, {}, width, context.look.hairline * 2, context.colour("strong-rule")));
    ops.emplace_back(rule_at({}, height, width, context.look.hairline, context.colour("rule")));
    ops.emplace_back(CloseNode{});
    if (row.changed) add_change_bar(ops, {}, height, context);
    auto frame = std::make_shared<Frame>();
    frame->size = {width, height};
    frame->ops = std::move(ops);
    return frame;
  }

  FramePtr head() const {
    Length tallest{};
    std::vector<std::vector<SetLine>> cells;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      cells.push_back(measured.head[c].set(widths[c], context));
      tallest = std::max(tallest, measured.head[c].style().leading *
                                      static_cast<std::int64_t>(cells.back().size()));
    }
    const Length height = on_grid(tallest + context.look.row_padding, context.look.grid);
    std::vector<Op> ops;
    ops.emplace_back(OpenNode{node_of("THead"), false});
    ops.emplace_back(OpenNode{node_of("TR"), false});
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
      Node node = node_of("TH");
      node.scope = "Column";
      ops.emplace_back(OpenNode{std::move(node), false});
      // Heads stand on the rule, so that one line and three lines end alike.
      const Length leading = measured.head[c].style().leading;
      Length y =
          height - context.look.row_padding - leading * static_cast<std::int64_t>(cells[c].size());
      for (const SetLine& line : cells[c]) {
        ops.emplace_back(Inset{{lefts[c], y}, line.frame});
        y += leading;
      }
      ops.emplace_back(CloseNode{});
    }
    ops.emplace_back(CloseNode{});
    ops.emplace_back(
        rule_at({}, height, width, context.look.hairline * 3 / 2, context.colour("strong-rule")));
    ops.emplace_back(CloseNode{});
    auto frame = std::make_shared<Frame>();
    frame->size = {width, height};
    frame->ops = std::move(ops);
    return frame;
  }

  // `continued`: said again above those of its rows that come first in a column.
  FramePtr group(std::size_t r, bool continued = false) const {
    const guide::Row& row = table.rows[r];
    const TextStyle& style = context.look.style("table-group");
    guide::Inlines name = row.cells.empty() ? guide::Inlines{} : row.cells.front();
    if (continued) name.emplace_back(guide::Words{", continued"});
    const FramePtr words = paragraph_frame(name, style, width, context, "");
    const Length padding = context.look.row_padding;
    // Space above belongs to the name, so that it also stands clear of a table's head.
    const Length height =
        on_grid(words->size.height + padding + context.look.grid, context.look.grid / 2);
    Node cell = node_of("TH");
    cell.scope = "Row";
    cell.column_span = static_cast<int>(table.columns.size());
    auto frame = std::make_shared<Frame>();
    frame->size = {width, height};
    frame->ops = {OpenNode{node_of("TR"), false},
                  OpenNode{std::move(cell), false},
                  Inset{{{}, height - padding - words->size.height}, words},
                  CloseNode{},
                  rule_at({}, height, width, context.look.hairline, context.colour("rule")),
                  CloseNode{}};
    return frame;
  }
};

Flow rows_of(const guide::Table& table, const RowMaker& maker) {
  Flow rows;
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    using enum guide::Row::Kind;
    FlowItem item;
    const bool group = table.rows[r].kind == Group;
    item.frame = group ? maker.group(r) : maker.body(r);
    // A group's name is never last on a page, nor is a total alone at the top of one.
    item.keep_with_next = r + 1 < table.rows.size() && (group || table.rows[r + 1].kind == Total);
    const bool starts_group = r + 1 < table.rows.size() && table.rows[r + 1].kind == Group;
    const bool few_left = r + 4 > table.rows.size();
    const bool few_before = r < 6;
    const bool ends = few_left || few_before || (table.rows[r - 1].kind == Group && !starts_group);
    // A short table is read at one look.
    constexpr std::size_t short_table = 12;
    const bool short_one = table.rows.size() <= short_table;
    const bool last = r + 1 == table.rows.size();
    item.break_cost = last ? 0.0 : short_one ? 60.0 : ends ? 24.0 : starts_group ? 0.0 : 8.0;
    rows.push_back(std::move(item));
  }
  return rows;
}

// Above a row that comes first on a page or in a column: the heads, and its group unless that
// begins there.
void repeat_heads(Flow& rows, const RowMaker& maker, const FramePtr& head) {
  FramePtr above = head;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const bool begins = maker.table.rows[r].kind == guide::Row::Kind::Group;
    const FramePtr here = begins ? head : above;
    if (here) {
      rows[r].repeat_head = here;
      rows[r].head_space = here->size.height;
    }
    if (!begins) continue;
    const FramePtr group = maker.group(r, true);
    auto both = std::make_shared<Frame>();
    const Length below = head ? head->size.height : Length{};
    if (head) both->ops.emplace_back(Inset{{}, head});
    both->ops.emplace_back(Inset{{{}, below}, group});
    both->size = {group->size.width, below + group->size.height};
    above = std::move(both);
  }
}

} // namespace

Flow table_flow(const guide::Table& table, Length width, Context& context) {
  if (table.columns.empty()) return {};
  Measured measured = measure(table, false, context);
  std::vector<ColumnNeed> needs = needs_of(table, measured);
  if (needed(needs, measured.gap) > width) {
    measured = measure(table, true, context);
    needs = needs_of(table, measured);
  }
  const auto gaps = static_cast<std::int64_t>(needs.size() - 1);
  const ColumnWidths set = column_widths(needs, width - measured.gap * gaps);
  if (!set.fits)
    context.tell(Severity::Warning, "page-overfull",
                 fmt::format("the table “{}” with {} columns is too wide for the page",
                             table.caption, table.columns.size()),
                 "columns whose words fit beside each other", "take columns out or shorten words");
  std::vector<Length> lefts;
  Length x{};
  for (const Length w : set.widths) {
    lefts.push_back(x);
    x += w + measured.gap;
  }
  const RowMaker maker{table, measured, lefts, set.widths, width, context};

  Flow rows = rows_of(table, maker);
  if (rows.empty()) return {};
  enclose(rows, {OpenNode{node_of("TBody"), false}}, {CloseNode{}});

  Flow flow;
  if (table.show_caption && !table.caption.empty()) {
    flow = paragraph_flow(plain(table.caption), context.look.style("heading-3"), width, context,
                          "Caption");
    for (FlowItem& item : flow) item.keep_with_next = true;
  }
  if (measured.any_head) {
    FlowItem head;
    head.frame = maker.head();
    head.keep_with_next = true;
    if (flow.empty()) head.space_before = context.look.grid;
    flow.push_back(std::move(head));
  }
  repeat_heads(rows, maker, measured.any_head ? flow.back().frame : nullptr);
  std::move(rows.begin(), rows.end(), std::back_inserter(flow));
  Node node = node_of("Table");
  node.summary = table.caption;
  enclose(flow, {OpenNode{std::move(node), false}}, {CloseNode{}});
  return flow;
}

} // namespace leafwright::page
