#pragma once

#include "guide/block.h"
#include "page/context.h"
#include "page/line_breaker.h"

#include <string>
#include <vector>

namespace leafwright::page {

// One word or thing of a line, shaped and measured. Fragments of a divided word share `word`.
struct Atom {
  enum class Kind { Word, Letter, Chip, Tick };
  Kind kind = Kind::Word;
  std::size_t word = 0;
  std::string text;               // the whole word
  std::size_t begin = 0, end = 0; // the fragment, in bytes of `text`
  int face = 0;
  Length size;
  Colour colour;
  int ink = -1;
  std::string link; // target; empty = none
};

struct SetLine {
  FramePtr frame; // as wide as was asked for, one leading high
  Length used;    // where its text ends, from the left
};

// A paragraph measured once, to be set at any width.
class Paragraph {
 public:
  Paragraph(const guide::Inlines& inlines, const TextStyle& style, Context& context);

  bool empty() const { return atoms_.empty(); }
  Length widest() const;    // on one line
  Length narrowest() const; // its widest undivided piece
  // Lines of at most `width`; `indent` moves the first.
  std::vector<SetLine> set(Length width, Context& context, Length indent = {}) const;
  const std::vector<Atom>& atoms() const { return atoms_; }
  const std::vector<LinePiece>& pieces() const { return pieces_; }
  const TextStyle& style() const { return style_; }

 private:
  void add_words(const guide::Inlines& inlines, Context& context);
  void add_word(std::string text, Atom like, Length space, LinePiece::After after,
                Context& context);
  SetLine set_line(const Line& line, const Measure& measure, Length width, Context& context) const;

  TextStyle style_;
  std::vector<Atom> atoms_; // one for each piece
  std::vector<LinePiece> pieces_;
};

// The flow of a paragraph: one item a line, kept together so that no page begins or ends with a
// single line of a longer one. `node` is its structure type; empty = none of its own.
Flow paragraph_flow(const guide::Inlines& inlines, const TextStyle& style, Length width,
                    Context& context, const std::string& node = "P");
// The same as one unbreakable frame.
FramePtr paragraph_frame(const guide::Inlines& inlines, const TextStyle& style, Length width,
                         Context& context, const std::string& node = "P");
// Plain words in one style.
guide::Inlines plain(std::string words);

// Shapes one word with the document's features; a mixed number's parts ("4 1/4") are set close.
text::Shaped shape_word(std::string_view word, int face, Length size, bool tabular,
                        Context& context);
// Where the baseline is in a line of that leading.
Length baseline_in(Length leading, const Template& look);

} // namespace leafwright::page
