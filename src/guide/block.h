#pragma once

#include "guide/figure/scene.h"
#include "model/finding.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

// The content of a document as a tree of blocks, without any thought of pages. Built from model and
// plan; laid out by page. Every block knows the place in the project it came from, so that a
// problem found late (a missing glyph, a figure too crowded) still names a line.

namespace leafwright::guide {

// --- Inside a line ----------------------------------------------------------------------------

struct Words {
  enum class Style { Plain, Strong, Emphasis, Quiet };
  std::string text; // UTF-8; "3/8" is set as a true fraction; U+00A0 never breaks
  Style style = Style::Plain;
};
struct PieceLetter { // the letter of a piece in a dot, as in its diagram
  std::string letter;
};
struct InkChip { // a small square in the ink's colour with its mark, beside its name
  int ink = -1;
};
struct PageOf { // the page number of an anchor, as a link
  std::string anchor;
};
struct Go { // words that lead somewhere: an anchor or an address
  std::string target;
  std::string text;
};
struct TickBox {};
using Inline = std::variant<Words, PieceLetter, InkChip, PageOf, Go, TickBox>;
using Inlines = std::vector<Inline>;

// --- Blocks -----------------------------------------------------------------------------------

struct Heading {
  int level = 1;
  std::string anchor; // unique in the document; empty = none
  std::string text;
  std::string number; // "1": set apart before the text
  std::string
      aside; // quiet words on the same line at the right: "Make two · 35 min · top fold, A2"
  std::string link{}; // what a link to it says, "Card 2, The garden gate"; empty = number and text
};
struct Paragraph {
  enum class Kind { Body, Lead, Small };
  Kind kind = Kind::Body;
  Inlines text;
};
struct List {
  bool numbered = false;
  std::vector<Inlines> items;
};
struct Column {
  enum class Align { Left, Right, Centre, Decimal };
  Inlines head;
  Align align = Align::Left;
  double share = 1.0;       // of the width, beside the natural width of its content
  bool is_row_head = false; // its cells are headers of their rows (TH, scope row)
};
struct Row {
  enum class Kind { Plain, Group, Total };
  Kind kind = Kind::Plain;
  std::vector<Inlines> cells; // Group: one cell across all columns
  bool changed = false;       // since an earlier edition: a bar stands beside it in the margin
};
struct Table {
  std::string caption; // read out and, when `show_caption`, printed
  bool show_caption = false;
  std::vector<Column> columns;
  std::vector<Row> rows;
};
struct Figure {
  figure::Scene scene;
  Inlines caption;
  enum class Width { Narrow, Half, Full } width = Width::Half;
};
struct FigureRow { // figures side by side, of one scale, wrapped when they must be
  std::vector<Figure> figures;
  bool leads = false;    // the first is what a chapter is about: large, the others small beside it
  bool swatches = false; // each as large as its cell bears, the cells alike
};
// Text beside a figure: cut diagrams with their order of cutting, the ink key ...
struct Beside {
  Figure figure;
  std::vector<struct Block> blocks;
  bool opens = false;  // a chapter: the figure as large as the page bears, on its ground
  std::string title{}; // what it is of, said again where its words run on in another column
};
struct Notice { // caution or tip, set apart with a bar and a word, never by colour alone
  enum class Kind { Caution, Tip, Alternative, Draft, Warning };
  Kind kind = Kind::Caution;
  std::string title; // "Blades and small parts."
  Inlines text;
};
struct Step {
  std::string anchor, number, title;
  std::vector<Inlines> text; // paragraphs
  std::optional<Figure> figure;
  Inlines parts; // "You need: (C) dotted mat, tape" ; empty = none
  std::vector<Notice> notices;
  std::optional<int> picture; // photograph, index into Project::pictures
  std::string picture_words;
  bool changed = false; // see Row
  Place place{};        // of the thing that it tells, or of the author's own words for it
};
struct Steps { // kept whole each, two side by side where they are short and the template says so
  std::vector<Step> steps;
};
struct Contents {}; // filled in by page: headings of level 1 with page numbers
struct Cover {
  std::string maker, title, subtitle;
  std::vector<figure::Scene> cards; // finished cards, arranged overlapping, slightly turned
  std::string left, right;          // the quiet line at the foot
};
struct ScaleBar { // "This bar is 2 in / 50 mm long when printed at 100 %."
  bool inch_first = true;
};
struct FullSize { // a true-size drawing, on pages of its own; several small ones share a page
  figure::Scene scene;
  std::string title;
  Inlines note;
  std::string anchor{}; // unique in the document; empty = none
};
struct NoteLines { // room to write: a title and ruled lines
  std::string title;
  int lines = 4;
};
struct PageBreak {};
struct Ticks { // short things to tick off, side by side in columns and read along the rows
  int columns = 2;
  std::vector<Inlines> items;
  std::string name{}; // what they belong to, at their left: "Card 1"
};
struct SideBySide { // texts in columns of one width, read one after the other
  struct Text {
    std::vector<struct Block> blocks;
  };
  std::vector<Text> texts;
  bool framed = false; // each on a ground of its own, those of a row equally high
};
struct Slip {
  std::vector<struct Block> blocks;
  Place place;
};
struct Slips { // up to four on a page with lines to cut along, or one where it needs the whole
  std::vector<Slip> slips;
};
struct Labels { // on paper of their own, at exact places; margins do not matter
  Size paper;
  std::vector<Rect> boxes; // of one sheet
  int first = 0;           // the box that the first label takes
  struct Label {
    std::vector<std::string> lines; // the first stands out
    Place place;
  };
  std::vector<Label> labels;
};

struct Block {
  std::variant<Heading, Paragraph, List, Table, Figure, FigureRow, Beside, Notice, Steps, Contents,
               Cover, ScaleBar, FullSize, NoteLines, PageBreak, Ticks, SideBySide, Slips, Labels>
      what;
  Place place{};
  bool changed = false; // see Row
};

// A named part of a document; a template says which sections it takes and in which order. Names:
// cover, contents, reading, supplies, cut-list, cut-diagrams, inks, cards (all card
// chapters: card-<id> each), templates, colophon.
struct Section {
  std::string name;
  std::string running; // for the running foot: "What you need"
  std::vector<Block> blocks;
};

struct Document {
  std::string title, subject, author, language;
  std::string edition; // "Edition 3 · 2 March 2027"
  std::vector<std::string> keywords;
  std::optional<std::int64_t> created; // seconds since the epoch (UTC); from the project's date
  bool draft = false;                  // marked on each page
  std::vector<Section> sections;
};

// A document as plain text, for tests and for reading its prose aloud. Letters stand in brackets,
// drawings by their alternative text.
std::string dump(const Document& document);
std::string dump(const Section& section);

} // namespace leafwright::guide
