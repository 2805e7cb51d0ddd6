#pragma once

#include "measure/length.h"
#include "model/outline.h"
#include "text/fonts.h"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

// The display list: everything that is drawn, in real lengths, y down, ready for two pens (the PDF
// and cairo). A player must handle every command (std::visit without a catch-all).

namespace leafwright {

struct Fill {
  Path path; // even-odd rule
  Colour colour;
  double opacity = 1.0;
};

struct Stroke {
  enum class Cap { Butt, Round, Square };
  enum class Join { Miter, Round, Bevel };
  Path path;
  Colour colour;
  Length width = micrometres(88); // 0.25 pt hairline
  std::vector<Length> dash;       // on, off, ...; empty = solid
  Cap cap = Cap::Butt;
  Join join = Join::Miter;
  double opacity = 1.0;
};

struct TextRun {
  text::Shaped shaped;
  Point baseline; // where the first glyph's origin stands
  Colour colour;
  Angle turned{};      // about the baseline point, clockwise
  Length word_space{}; // added at each U+0020 to justify a line
};

struct Image {
  int picture = -1; // index into Project::pictures
  Rect box;         // before turning
  Angle turned{};   // about the box's centre
};

struct PushClip {
  Path path; // until the matching PopClip; even-odd
};
struct PopClip {};

// A rectangle that leads somewhere when clicked: `target` is the id of an anchor in the document,
// or an address when it holds "://" or starts with "mailto:".
struct Link {
  Rect box;
  std::string target;
  int node = -1; // structure node of the link, see Begin
  std::string
      says{}; // where it leads, for those who do not see it: "Card 2, The garden gate, page 14"
};

// Structure (PDF/UA): what lies between Begin and End belongs to node `node` of the document's
// structure tree; node -1 is an artefact (rules, running heads). They do not nest.
struct Begin {
  int node = -1;
};
struct End {};

// A mark with a meaning, drawn by nobody: tests and other documents find things by it.
struct Mark {
  std::string kind; // "cut", "score", "sheet", "template", "scale-bar"
  std::string id;   // piece id ...
  Rect box;         // on the page
  Size real;        // the true size of the thing
};

using DrawItem =
    std::variant<Fill, Stroke, TextRun, Image, PushClip, PopClip, Link, Begin, End, Mark>;

struct Drawing {
  Size size;
  std::vector<DrawItem> items;
};

DrawItem moved_item(const DrawItem& item, Point by);
// The same drawing moved by `by`.
void append_moved(std::vector<DrawItem>& into, const Drawing& drawing, Point by);

} // namespace leafwright

// What is cut and scored on a sheet at true size, for a cutting machine: lines without looks.

namespace leafwright::figure {

struct CutLines {
  struct Line {
    Point from, to;
    friend bool operator==(const Line&, const Line&) = default;
  };
  struct ScoreLine {
    Line line;
    bool mountain = false; // else a valley
  };
  std::string title;
  Size size;
  bool edge = false;          // the sheet's own edge is drawn
  std::vector<Line> cuts;     // straight
  std::vector<Path> outlines; // to be cut as well
  std::vector<ScoreLine> scores;
};

} // namespace leafwright::figure
