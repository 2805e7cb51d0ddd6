#include "guide/plain/plain.h"

#include "guide/plain/lines.h"
#include "guide/prose.h"
#include "measure/index.h"

#include <algorithm>
#include <string_view>
#include <vector>

namespace leafwright::guide {
namespace {

class TextWriter {
 public:
  explicit TextWriter(const PlainLook& look)
      : width_(as_index(std::max(look.width, 40))), tables_(look.tables) {}

  std::string take() {
    while (out_.ends_with("\n\n")) out_.pop_back();
    return std::move(out_);
  }
  void block(const Block& one) {
    std::visit([this](const auto& what) { write(what); }, one.what);
  }

 private:
  // One empty line and no more.
  void gap() {
    if (!out_.empty() && !out_.ends_with("\n\n")) out_ += "\n";
  }
  void lines(std::string_view text, std::string_view first = {}, std::string_view rest = {}) {
    out_ += plaintext::wrapped(text, width_, first, rest);
  }

  void write(const Heading& one) {
    gap();
    std::string text = one.number.empty() ? one.text : one.number + " " + one.text;
    if (!one.aside.empty()) text += (one.level == 1 ? ", " : ": ") + one.aside;
    lines(text);
    if (one.level > 2) return;
    const std::size_t wide = std::min(plaintext::columns_of(text), width_);
    out_ += std::string(wide, one.level == 1 ? '=' : '-') + "\n\n";
  }
  void write(const Paragraph& one) {
    lines(spoken(one.text));
    out_ += "\n";
  }
  void write(const List& one) {
    int number = 0;
    for (const Inlines& item : one.items) {
      const std::string mark = one.numbered ? std::to_string(++number) + ". " : "- ";
      lines(spoken(item), mark, std::string(mark.size(), ' '));
    }
    out_ += "\n";
  }
  void write(const Table& one) {
    if (one.show_caption) lines(one.caption + ":");
    out_ += tables_ == PlainLook::Tables::OneCellALine ? plaintext::told(one, width_)
                                                       : plaintext::in_columns(one, width_);
    out_ += "\n";
  }
  // A caption that the words of the drawing do not hold stands before them.
  void write(const Figure& one) {
    const std::string caption = spoken(one.caption);
    const std::string& words = one.scene.alternative;
    const bool named = caption.empty() || words.find(caption) != std::string::npos;
    lines((named ? "" : caption + ": ") + words, "- ", "  ");
  }
  void write(const FigureRow& one) {
    for (const Figure& figure : one.figures) write(figure);
    out_ += "\n";
  }
  // Its words tell it; the drawing is for paper.
  void write(const Beside& one) {
    for (const Block& each : one.blocks) block(each);
  }
  void write(const Notice& one) {
    lines((one.title.empty() ? "" : one.title + " ") + spoken(one.text), "! ", "  ");
    out_ += "\n";
  }
  void write(const Steps& one) {
    for (const Step& step : one.steps) {
      lines((step.number.empty() ? "" : step.number + ". ") + step.title, "", "   ");
      for (const Inlines& text : step.text) lines(spoken(text), "   ", "   ");
      for (const Notice& notice : step.notices) write(notice);
    }
    out_ += "\n";
  }
  void write(const Cover& one) {
    lines(one.title);
    if (!one.subtitle.empty()) lines(one.subtitle);
    out_ += "\n";
  }
  void write(const FullSize& one) { lines(one.title + ", full size", "- ", "  "); }
  void write(const NoteLines& one) {
    lines(one.title);
    out_ += "\n";
  }
  void write(const SideBySide& one) {
    for (const SideBySide::Text& text : one.texts)
      for (const Block& each : text.blocks) block(each);
  }
  void write(const Ticks& one) {
    if (!one.name.empty()) lines(one.name);
    for (const Inlines& item : one.items) lines(spoken(item), "[ ] ", "    ");
    out_ += "\n";
  }
  void write(const Slips& one) {
    for (const Slip& slip : one.slips)
      for (const Block& each : slip.blocks) block(each);
  }
  void write(const Labels& one) {
    for (const Labels::Label& label : one.labels) {
      for (const std::string& line : label.lines) lines(line);
      out_ += "\n";
    }
  }
  // What belongs to paper alone.
  void write(const Contents&) {}
  void write(const ScaleBar&) {}
  void write(const PageBreak&) {}

  std::size_t width_;
  PlainLook::Tables tables_;
  std::string out_;
};

} // namespace

std::string plain_text(const Document& document, const PlainLook& look) {
  TextWriter writer(look);
  for (const Section& section : document.sections)
    for (const Block& block : section.blocks) writer.block(block);
  std::string text = (document.draft ? "DRAFT: not for sale\n\n" : "") + writer.take();
  if (!look.signature.empty())
    text += "\n-- \n" + plaintext::wrapped(look.signature, as_index(look.width));
  return text;
}

} // namespace leafwright::guide

namespace leafwright::guide::plaintext {

std::size_t columns_of(std::string_view text) {
  return as_index(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::string with_common_blanks(std::string text) {
  for (const std::string_view fixed : {"\u00A0", "\u2002"})
    for (std::size_t at = text.find(fixed); at != std::string::npos; at = text.find(fixed, at))
      text.replace(at, fixed.size(), " ");
  return text;
}

std::vector<std::string> lines_of(std::string_view text, std::size_t width) {
  std::vector<std::string> lines(1);
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    std::string& line = lines.back();
    if (line.empty())
      line = word;
    else if (columns_of(line) + 1 + columns_of(word) <= width)
      line.append(" ").append(word);
    else
      lines.emplace_back(word);
  }
  for (std::string& line : lines) line = with_common_blanks(std::move(line));
  return lines;
}

std::string wrapped(std::string_view text, std::size_t width, std::string_view first,
                    std::string_view rest) {
  std::string out;
  const std::size_t taken = std::max(columns_of(first), columns_of(rest));
  for (const std::string& line : lines_of(text, width - std::min(taken, width)))
    out.append(out.empty() ? first : rest).append(line).append("\n");
  return out;
}

namespace {

using Cells = std::vector<std::string>;

Cells cells_of(const Table& table, const std::vector<Inlines>& cells) {
  Cells texts;
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    texts.push_back(c < cells.size() ? spoken(cells[c]) : std::string());
  return texts;
}

// The widest column gives way until all fit, one blank at the edges and two between.
std::vector<std::size_t> widths_of(const Table& table, const std::vector<Cells>& rows,
                                   std::size_t width) {
  std::vector<std::size_t> widths(table.columns.size(), 1);
  for (std::size_t r = 0; r < rows.size(); ++r) {
    if (r > 0 && table.rows[r - 1].kind == Row::Kind::Group) continue;
    for (std::size_t c = 0; c < widths.size(); ++c)
      widths[c] = std::max(widths[c], columns_of(rows[r][c]));
  }
  const auto total = [&] {
    std::size_t sum = 2;
    for (const std::size_t one : widths) sum += one + 2;
    return sum;
  };
  constexpr std::size_t least = 8;
  while (total() > width) {
    const auto widest = std::max_element(widths.begin(), widths.end());
    if (*widest <= least) break;
    --*widest;
  }
  return widths;
}

std::string row_of(const Table& table, const Cells& cells, const std::vector<std::size_t>& widths) {
  std::vector<Cells> lines;
  std::size_t height = 1;
  for (std::size_t c = 0; c < cells.size(); ++c) {
    lines.push_back(lines_of(cells[c], widths[c]));
    height = std::max(height, lines.back().size());
  }
  std::string out;
  for (std::size_t l = 0; l < height; ++l) {
    std::string line = " ";
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const std::string text = l < lines[c].size() ? lines[c][l] : std::string();
      const std::string fill(widths[c] - std::min(columns_of(text), widths[c]), ' ');
      const bool right = table.columns[c].align == Column::Align::Right;
      line += " " + (right ? fill + text : text + fill) + " ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  }
  return out;
}

std::string row_told(const Table& table, const Row& row, std::size_t width) {
  std::string line;
  for (std::size_t c = 0; c < row.cells.size() && c < table.columns.size(); ++c) {
    const std::string cell = spoken(row.cells[c]);
    if (cell.empty()) continue;
    line += (line.empty() ? "" : c == 1 ? ": " : "; ") + cell;
  }
  return wrapped(line, width, row.kind == Row::Kind::Group ? "" : "- ", "  ");
}

} // namespace

std::string in_columns(const Table& table, std::size_t width) {
  std::vector<Inlines> heads;
  for (const Column& column : table.columns) heads.push_back(column.head);
  std::vector<Cells> rows{cells_of(table, heads)};
  for (const Row& row : table.rows) rows.push_back(cells_of(table, row.cells));
  const std::vector<std::size_t> widths = widths_of(table, rows, width);
  std::string out;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const bool group = r > 0 && table.rows[r - 1].kind == Row::Kind::Group;
    out += group ? wrapped(rows[r].front(), width) : row_of(table, rows[r], widths);
  }
  return out;
}

std::string told(const Table& table, std::size_t width) {
  std::string out;
  constexpr std::size_t narrow = 3;
  if (table.columns.size() <= narrow) {
    for (const Row& row : table.rows) out += row_told(table, row, width);
    return out;
  }
  for (std::size_t c = 1; c < table.columns.size(); ++c) {
    if (!out.empty()) out += "\n";
    out += wrapped(spoken(table.columns[c].head), width, "* ", "  ");
    for (const Row& row : table.rows) {
      if (row.kind == Row::Kind::Group || c >= row.cells.size()) continue;
      const std::string cell = spoken(row.cells[c]);
      if (cell.empty() || cell == "–") continue;
      out += wrapped(spoken(row.cells.front()) + ": " + cell, width, "  - ", "    ");
    }
  }
  return out;
}

} // namespace leafwright::guide::plaintext
