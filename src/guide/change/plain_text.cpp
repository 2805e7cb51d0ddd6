#include "guide/change/report.h"

#include "guide/prose/prose.h"

#include <algorithm>
#include <string_view>
#include <type_traits>

namespace leafwright::guide {
namespace {

// Columns of a terminal, one for a character: our words hold no wide ones.
std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::string with_common_blanks(std::string text) {
  for (const std::string_view fixed : {"\u00A0", "\u2002"})
    for (std::size_t at = text.find(fixed); at != std::string::npos; at = text.find(fixed, at))
      text.replace(at, fixed.size(), " ");
  return text;
}

std::vector<std::string> wrapped(const std::string& text, std::size_t width) {
  std::vector<std::string> lines(1);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = std::string_view(text).substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    std::string& line = lines.back();
    if (line.empty())
      line = word;
    else if (columns_of(line) + 1 + columns_of(word) <= width)
      line += " " + std::string(word);
    else
      lines.emplace_back(word);
  }
  return lines;
}

class TextWriter {
 public:
  explicit TextWriter(int width) : width_(static_cast<std::size_t>(std::max(width, 40))) {}

  std::string take() { return std::move(out_); }

  void block(const Block& one) {
    std::visit([this](const auto& what) { show(what); }, one.what);
  }

 private:
  void paragraph(const std::string& text, const std::string& first, const std::string& next) {
    bool head = true;
    for (const std::string& line : wrapped(with_common_blanks(text), width_ - next.size())) {
      out_ += (head ? first : next) + line + "\n";
      head = false;
    }
  }
  void show(const Heading& one) {
    if (!out_.empty()) out_ += "\n";
    std::string text = with_common_blanks(one.text);
    if (!one.aside.empty()) text += "  (" + with_common_blanks(one.aside) + ")";
    out_ += text + "\n";
    if (one.level == 1) out_ += std::string(columns_of(text), '=') + "\n";
    if (one.level == 2) out_ += std::string(columns_of(text), '-') + "\n";
  }
  void show(const Paragraph& one) { paragraph(spoken(one.text), "", ""); }
  void show(const List& one) {
    int number = 0;
    for (const Inlines& item : one.items) {
      const std::string mark = one.numbered ? std::to_string(++number) + ". " : "- ";
      paragraph(spoken(item), mark, std::string(mark.size(), ' '));
    }
  }
  void show(const Table& one) {
    if (one.show_caption) out_ += with_common_blanks(one.caption) + ":\n";
    std::vector<std::vector<std::string>> rows;
    const auto cells_of = [&](const std::vector<Inlines>& cells) {
      std::vector<std::string> texts;
      for (std::size_t c = 0; c < one.columns.size(); ++c)
        texts.push_back(c < cells.size() ? with_common_blanks(spoken(cells[c])) : std::string());
      return texts;
    };
    std::vector<Inlines> heads;
    for (const Column& column : one.columns) heads.push_back(column.head);
    rows.push_back(cells_of(heads));
    for (const Row& row : one.rows) rows.push_back(cells_of(row.cells));
    const std::vector<std::size_t> widths = widths_of(one, rows);
    for (std::size_t r = 0; r < rows.size(); ++r) {
      if (r > 0 && one.rows[r - 1].kind == Row::Kind::Group)
        out_ += rows[r].front() + "\n";
      else
        print_row(one, rows[r], widths);
    }
  }
  // The widest column gives way until all fit.
  std::vector<std::size_t> widths_of(const Table& table,
                                     const std::vector<std::vector<std::string>>& rows) const {
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
    while (total() > width_) {
      const auto widest = std::max_element(widths.begin(), widths.end());
      if (*widest <= least) break;
      --*widest;
    }
    return widths;
  }
  void print_row(const Table& table, const std::vector<std::string>& cells,
                 const std::vector<std::size_t>& widths) {
    std::vector<std::vector<std::string>> lines;
    std::size_t height = 1;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      lines.push_back(wrapped(cells[c], widths[c]));
      height = std::max(height, lines.back().size());
    }
    for (std::size_t l = 0; l < height; ++l) {
      std::string line = " ";
      for (std::size_t c = 0; c < cells.size(); ++c) {
        const std::string text = l < lines[c].size() ? lines[c][l] : std::string();
        const std::size_t used = std::min(columns_of(text), widths[c]);
        const std::string fill(widths[c] - used, ' ');
        const bool right = table.columns[c].align == Column::Align::Right;
        line += " " + (right ? fill + text : text + fill) + " ";
      }
      line.erase(line.find_last_not_of(' ') + 1);
      out_ += line + "\n";
    }
  }
  void show(const Figure& one) { paragraph("[" + one.scene.alternative + "]", "", " "); }
  void show(const FigureRow& one) {
    for (const Figure& figure : one.figures) show(figure);
  }
  void show(const Beside& one) { // its words tell it; the drawing is for paper
    for (const Block& each : one.blocks) block(each);
  }
  void show(const Notice& one) { paragraph(one.title + " " + spoken(one.text), "! ", "  "); }
  void show(const Steps& one) {
    for (const Step& step : one.steps) {
      paragraph(step.number + ". " + step.title, "", "   ");
      for (const Inlines& text : step.text) paragraph(spoken(text), "   ", "   ");
    }
  }
  void show(const Contents&) {}
  void show(const Cover& one) { paragraph(one.title, "", ""); }
  void show(const ScaleBar&) {}
  void show(const FullSize& one) { paragraph("[" + one.title + "]", "", " "); }
  void show(const NoteLines& one) { paragraph(one.title, "", ""); }
  void show(const PageBreak&) {}
  void show(const Ticks& one) {
    for (const Inlines& item : one.items) paragraph(spoken(item), "[ ] ", "    ");
  }
  void show(const Slips& one) {
    for (const Slip& slip : one.slips)
      for (const Block& each : slip.blocks) block(each);
  }
  void show(const Labels& one) {
    for (const Labels::Label& label : one.labels)
      for (const std::string& line : label.lines) paragraph(line, "", "");
  }

  std::size_t width_;
  std::string out_;
};

} // namespace

std::string plain_text(const Document& document, int width) {
  TextWriter writer(width);
  for (const Section& section : document.sections)
    for (const Block& block : section.blocks) writer.block(block);
  return writer.take();
}

} // namespace leafwright::guide
