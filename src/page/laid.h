#pragma once

#include "guide/figure/drawing.h"
#include "model/finding.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// A document laid out: pages of drawing items, ready for a pen. Output sees this and nothing above
// it.

namespace leafwright::page {

// A node of the structure tree, ISO 32000-1 14.7 and 14.8 standard types: Document, Sect, H1..H6,
// P, L, LI, Lbl, LBody, Table, TR, TH, TD, THead, TBody, Figure, Caption, TOC, TOCI, Reference,
// Link, Span, Note, Form.
struct Node {
  std::string type;
  int parent = -1;                 // index; the first node is the Document and has none
  std::string alternative, actual; // Alt, ActualText
  std::string scope;               // TH: "Column", "Row"
  int column_span = 1;
  std::string list_numbering; // L: "Decimal", "Disc", "None"
  int page = -1;              // Figure: page and box of its BBox
  Rect box;
  std::string summary; // Table: its Summary attribute
};

struct LaidPage {
  Size size;
  std::string label;           // "iii", "12"
  bool scaled = false;         // holds something to scale: print scaling must be off
  std::vector<DrawItem> items; // in reading order
  // For a print shop. Items may reach over the page's edge by the bleed, which is cut off.
  Length bleed{};
  bool crop_marks = false; // lines beyond the corners, where to cut
};

struct Anchor {
  std::string id;
  int page = 0;
  Point at;
  std::string title{}; // what stands there
};

struct OutlineEntry {
  int level = 1;
  std::string title;
  int page = 0;
  Point at;
};

// Where a reader fills something in, on the page and in the file.
struct FormField {
  enum class Kind { Line, Lines, Tick };
  Kind kind = Kind::Line;
  std::string name;    // in the file, each once: "tier-full"
  std::string tooltip; // what is asked, for those who do not see the page
  int page = 0;
  Rect box;
  int node = -1; // of the structure tree, of type Form
};

struct Laid {
  std::string title, subject, author, language;
  std::vector<std::string> keywords;
  std::optional<std::int64_t> created;
  std::vector<LaidPage> pages;
  std::vector<Node> nodes; // nodes[0] is the Document; children in the order of their indices
  std::vector<Anchor> anchors;
  std::vector<OutlineEntry> outline;
  std::vector<FormField> fields; // in the order in which one goes through them
  Findings findings;             // missing glyphs, crowded figures, overfull lines
};

} // namespace leafwright::page
