#include "guide/plain/plain.h"

#include "guide/plain/lines.h"
#include "guide/plain/tables.h"
#include "guide/prose/prose.h"
#include "measure/index.h"

#include <algorithm>
#include <string_view>

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
    out_ += tables_ == PlainLook::Tables::Told ? plaintext::told(one, width_)
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
  void write(const Ticks& one) {
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
