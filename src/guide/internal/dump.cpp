#include "guide/block.h"

#include "guide/prose.h"
#include "measure/index.h"

#include <type_traits>

namespace leafwright::guide {
namespace {

template <class>
constexpr bool unknown_block = false;

class Dumper {
 public:
  std::string take() { return std::move(out_); }

  void section(const Section& section) {
    line("=== " + section.name + (section.running.empty() ? "" : " [" + section.running + "]"));
    for (const Block& one : section.blocks) block(one);
    line("");
  }

  void block(const Block& block) {
    std::visit([this](const auto& what) { show(what); }, block.what);
  }

 private:
  void line(const std::string& text) { out_ += std::string(indent_, ' ') + text + "\n"; }

  void show(const Heading& one) {
    line("");
    std::string text(as_index(one.level), '#');
    if (!one.number.empty()) text += " " + one.number;
    text += " " + one.text;
    if (!one.aside.empty()) text += "  | " + one.aside;
    if (!one.anchor.empty()) text += "  {" + one.anchor + "}";
    line(text);
  }
  void show(const Paragraph& one) { line(spoken(one.text)); }
  void show(const List& one) {
    int number = 0;
    for (const Inlines& item : one.items)
      line((one.numbered ? std::to_string(++number) + ". " : "- ") + spoken(item));
  }
  void show(const Table& one) {
    line("[" + one.caption + "]");
    std::string head;
    for (const Column& column : one.columns) head += "| " + spoken(column.head) + " ";
    line(head);
    for (const Row& row : one.rows) {
      std::string text = row.kind == Row::Kind::Group ? "  -- " : "";
      for (const Inlines& cell : row.cells)
        text += (row.kind == Row::Kind::Group ? "" : "| ") + spoken(cell) + " ";
      line(text);
    }
  }
  void show(const Figure& one) {
    line("<figure: " + one.scene.alternative + ">" +
         (one.caption.empty() ? "" : " " + spoken(one.caption)));
  }
  void show(const FigureRow& one) {
    for (const Figure& figure : one.figures) show(figure);
  }
  void show(const Beside& one) {
    show(one.figure);
    indent_ += 2;
    for (const Block& each : one.blocks) block(each);
    indent_ -= 2;
  }
  void show(const Notice& one) { line("! " + one.title + " " + spoken(one.text)); }
  void show(const Steps& one) {
    for (const Step& step : one.steps) {
      line("");
      line(step.number + ". " + step.title + "  {" + step.anchor + "}");
      indent_ += 3;
      for (const Inlines& text : step.text) line(spoken(text));
      if (!step.parts.empty()) line(spoken(step.parts));
      if (step.figure) show(*step.figure);
      if (step.picture) line("<photograph: " + step.picture_words + ">");
      for (const Notice& notice : step.notices) show(notice);
      indent_ -= 3;
    }
  }
  void show(const Contents&) { line("<contents>"); }
  void show(const Cover& one) {
    line(one.maker);
    line(one.title);
    line(one.subtitle);
    for (const figure::Scene& card : one.cards) line("<figure: " + card.alternative + ">");
    line(one.left + " | " + one.right);
  }
  void show(const ScaleBar&) { line("<scale bar>"); }
  void show(const FullSize& one) {
    line("<full size: " + one.title + "> " + spoken(one.note));
    line("<figure: " + one.scene.alternative + ">");
  }
  void show(const NoteLines& one) {
    line("<" + std::to_string(one.lines) + " lines: " + one.title + ">");
  }
  void show(const PageBreak&) { line("<page break>"); }
  void show(const Ticks& one) {
    if (!one.name.empty()) line(one.name);
    for (const Inlines& item : one.items) line("[ ] " + spoken(item));
  }
  void show(const SideBySide& one) {
    for (const SideBySide::Text& text : one.texts)
      for (const Block& each : text.blocks) block(each);
  }
  void show(const Slips& one) {
    for (const Slip& slip : one.slips) {
      line("--------");
      for (const Block& each : slip.blocks) block(each);
    }
  }
  void show(const Labels& one) {
    for (const Labels::Label& label : one.labels) {
      line("--------");
      for (const std::string& text : label.lines) line(text);
    }
  }
  template <class T>
  void show(const T&) {
    static_assert(unknown_block<T>, "a block that the dump does not know");
  }

  std::string out_;
  std::size_t indent_ = 0;
};

} // namespace

std::string dump(const Section& section) {
  Dumper dumper;
  dumper.section(section);
  return dumper.take();
}

std::string dump(const Document& document) {
  std::string out = document.title + " · " + document.edition + "\n";
  for (const Section& section : document.sections) out += dump(section);
  return out;
}

} // namespace leafwright::guide
