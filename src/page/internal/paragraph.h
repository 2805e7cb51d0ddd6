#pragma once

#include "guide/block.h"
#include "measure/length.h"
#include "page/context.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

// Breaks a paragraph into lines so that the sum of all lines' costs is the least possible, after
// Knuth and Plass, "Breaking paragraphs into lines" (Software: Practice and Experience 11, 1981).
// Knows widths only; letters are the business of paragraph.h.

namespace leafwright::page {

// What is never divided, with the space that follows it and what may happen there.
struct LinePiece {
  enum class After { Stay, Break, Hyphen, Must };
  Length width;
  Length space; // after it; gone at the end of a line
  After after = After::Stay;
  Length hyphen;          // added to a line that ends here (After::Hyphen)
  Length next_correction; // added to a line that begins behind it: a word's tail is kerned anew
};

struct Measure {
  Length width;
  Length first_indent;
  bool justified = false;
  double stretch = 0.6; // justified: by how much of its width a space may grow ...
  double shrink = 0.18; // ... or shrink; more growth is possible, at a price
  Length shortest_last; // a last line below this is a runt
};

struct Line {
  std::size_t first = 0, end = 0; // pieces
  Length natural;                 // width without justification
  Length spaces;                  // sum of the spaces within
  bool hyphenated = false;
  bool last = false; // of the paragraph, or before a forced break
  bool overfull = false;
};

// Costs are pure numbers; a line 20 % short costs 40.
inline constexpr double overfull_cost = 1e7;
double line_cost(const Line& line, const Measure& measure, bool previous_hyphenated);
// The line made of pieces [first, end).
Line make_line(std::span<const LinePiece> pieces, std::size_t first, std::size_t end,
               const Measure& measure);
// The least costly set of lines; a line is overfull only when one undivided piece is too wide.
std::vector<Line> break_lines(std::span<const LinePiece> pieces, const Measure& measure);

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
  // How what a line lacks to its measure is shared out.
  struct Slack {
    Length word_space, letters;
  };
  void add_words(const guide::Inlines& inlines, Context& context);
  void add_piece(const Atom& like, std::string text, Length space, LinePiece::After after,
                 Context& context);
  void add_word(std::string text, Atom like, Length space, LinePiece::After after,
                Context& context);
  Slack shared_slack(const Line& line, const Measure& measure, Length slack) const;
  TextRun set_run(const Line& line, Slack slack, std::size_t& i, Point& at, Context& context) const;
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

// Draws a thing that stands in a line of text (piece letter, ink chip, tick box) with its left edge
// at `at.x` and the text's baseline at `at.y`.
void draw_thing(const Atom& atom, Point at, const TextStyle& style, Frame& into, Context& context);

} // namespace leafwright::page
