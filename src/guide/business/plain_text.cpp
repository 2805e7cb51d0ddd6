#include "guide/business/business.h"

#include "guide/prose/prose.h"

#include <algorithm>
#include <string_view>

namespace leafwright::guide {
namespace {

constexpr std::size_t line_width = 76;

// Characters, near enough for lines of a letter: bytes that begin one.
std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

// No-break spaces become plain ones once lines are broken.
std::string plain_blanks(std::string text) {
  constexpr std::string_view no_break = "\u00A0";
  for (std::size_t at = text.find(no_break); at != std::string::npos; at = text.find(no_break, at))
    text.replace(at, no_break.size(), " ");
  return text;
}

std::string wrapped(std::string_view text, std::string_view first, std::string_view rest) {
  std::string out, line(first);
  bool empty = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    if (!empty && width_of(line) + 1 + width_of(word) > line_width) {
      out += line + "\n";
      line = std::string(rest);
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
  }
  return plain_blanks(out + line + "\n");
}

class Letter {
 public:
  void add(const Block& block) {
    std::visit([this](const auto& what) { put(what); }, block.what);
  }
  std::string take() { return std::move(out_); }

 private:
  void gap() {
    if (!out_.empty() && !out_.ends_with("\n\n")) out_ += "\n";
  }

  void put(const Heading& heading) {
    gap();
    std::string text = heading.text;
    if (!heading.aside.empty()) text += (heading.level == 1 ? ", " : ": ") + heading.aside;
    out_ += wrapped(text, "", "");
    const std::size_t wide = std::min(width_of(text), line_width);
    if (heading.level <= 2) out_ += std::string(wide, heading.level == 1 ? '=' : '-') + "\n";
    if (heading.level <= 2) out_ += "\n";
  }
  void put(const Paragraph& paragraph) { out_ += wrapped(spoken(paragraph.text), "", "") + "\n"; }
  void put(const List& list) {
    for (const Inlines& item : list.items) out_ += wrapped(spoken(item), "- ", "  ");
    out_ += "\n";
  }

  // Wide tables do not fit a letter: what each column holds is told one under the other.
  void put(const Table& table) {
    if (table.show_caption) out_ += wrapped(table.caption, "", "") + "\n";
    const bool of_rows = table.columns.size() <= 3;
    if (of_rows) {
      for (const Row& row : table.rows) put_row(table, row);
      out_ += "\n";
      return;
    }
    for (std::size_t c = 1; c < table.columns.size(); ++c) {
      out_ += wrapped(spoken(table.columns[c].head), "* ", "  ");
      for (const Row& row : table.rows) {
        if (row.kind == Row::Kind::Group || c >= row.cells.size()) continue;
        const std::string cell = spoken(row.cells[c]);
        if (cell.empty() || cell == "–") continue;
        out_ += wrapped(spoken(row.cells.front()) + ": " + cell, "  - ", "    ");
      }
      out_ += "\n";
    }
  }
  void put_row(const Table& table, const Row& row) {
    std::string line;
    for (std::size_t c = 0; c < row.cells.size() && c < table.columns.size(); ++c) {
      const std::string cell = spoken(row.cells[c]);
      if (cell.empty()) continue;
      line += (line.empty() ? "" : c == 1 ? ": " : "; ") + cell;
    }
    out_ += wrapped(line, row.kind == Row::Kind::Group ? "" : "- ", "  ");
  }

  void put(const Figure& figure) {
    const std::string caption = spoken(figure.caption);
    const std::string& words = figure.scene.alternative;
    const bool named = caption.empty() || words.find(caption) != std::string::npos;
    out_ += wrapped((named ? "" : caption + ": ") + words, "- ", "  ");
  }
  void put(const FigureRow& row) {
    for (const Figure& figure : row.figures) put(figure);
    out_ += "\n";
  }
  void put(const Beside& beside) {
    put(beside.figure);
    for (const Block& block : beside.blocks) add(block);
  }
  void put(const Notice& notice) {
    out_ += wrapped(notice.title + " " + spoken(notice.text), "! ", "  ") + "\n";
  }
  void put(const Steps& steps) {
    for (const Step& step : steps.steps) {
      out_ += wrapped(step.title, step.number + " ", "   ");
      for (const Inlines& text : step.text) out_ += wrapped(spoken(text), "   ", "   ");
    }
  }
  void put(const Cover& cover) {
    out_ += wrapped(cover.title, "", "") + wrapped(cover.subtitle, "", "") + "\n";
  }
  void put(const FullSize& full) { out_ += wrapped(full.scene.alternative, "- ", "  "); }
  void put(const Ticks& ticks) { put(List{false, ticks.items}); }
  void put(const Slips& slips) {
    for (const Slip& slip : slips.slips)
      for (const Block& block : slip.blocks) add(block);
  }
  void put(const Contents&) {}
  void put(const ScaleBar&) {}
  void put(const NoteLines&) {}
  void put(const PageBreak&) {}
  void put(const Labels&) {}

  std::string out_;
};

} // namespace

std::string plain_text(const Document& document, const Project& project) {
  Letter letter;
  for (const Section& section : document.sections)
    for (const Block& block : section.blocks) letter.add(block);
  std::string out = letter.take();
  while (out.ends_with("\n\n")) out.pop_back();
  if (!project.maker.name.empty())
    out += "\n-- \n" + project.maker.name + ", " + plain_blanks(document.edition) + "\n";
  return out;
}

} // namespace leafwright::guide
