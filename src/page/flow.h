#pragma once

#include "model/supply.h"
#include "page/laid.h"

#include <memory>
#include <string>
#include <utility>
#include <variant>
#include <vector>

// Laid pieces of a page before it is known on which page they stand: drawing items and structure in
// reading order, relative to the piece's top left corner. Frames nest and are shared, so that
// trying a layout and throwing it away costs nothing but the trying.

namespace leafwright::page {

struct Frame;
using FramePtr = std::shared_ptr<const Frame>;

struct OpenNode { // what follows belongs to this node, until CloseNode
  Node node;
  bool boxed = false; // Figure: `node.box` is moved to the page with the frame
};
struct CloseNode {};
struct Furniture { // what follows is an artefact, until switched off
  bool on = true;
};
struct Inset { // another frame within this one
  Point at;
  FramePtr frame;
};
struct InsetDrawing {
  Point at;
  std::shared_ptr<const Drawing> drawing;
};
struct AnchorHere {
  std::string id;
  std::string title{}; // what a link to it says
};
struct OutlineHere {
  int level = 1;
  std::string title;
};
struct LinkHere { // belongs to the innermost open node
  Rect box;
  std::string target;
};
struct RunningHere { // from here on the running foot says this
  std::string words;
};
using Op = std::variant<OpenNode, CloseNode, Furniture, Inset, InsetDrawing, AnchorHere,
                        OutlineHere, LinkHere, RunningHere, DrawItem>;

struct Frame {
  Size size;
  std::vector<Op> ops;
};

// One thing of the flow down the page.
struct FlowItem {
  FramePtr frame;
  Length space_before;          // dropped at the top of a page
  bool keep_with_next = false;  // no page ends behind it
  double break_cost = 0.0;      // of ending a page, or a column, behind it
  double page_break_cost = 0.0; // and what more it costs where the page ends, not only a column
  bool break_after = false;     // a page must end behind it
  FramePtr repeat_head;         // printed again above it when it comes first on a page
  Length head_space;            // height that repeated head takes
  Length stretch;               // extra space above that a nearly full page may use
  FramePtr repeat_below;        // furniture printed again below it, as often as the page has room
  bool full_size = false;       // a drawing at true size
  double filled = 1.0; // part of its area that holds something, for choosing between layouts
};
using Flow = std::vector<FlowItem>;

FramePtr frame_of(std::vector<Op> ops, Size size);
Node node_of(std::string type); // a structure node that is nothing but its type

Length height(const Flow& flow); // with all spaces but the first
// The flow as one frame, for what stands in a box of its own.
FramePtr stacked(const Flow& flow, Length width);
// Adds operations before the first and behind the last item (a node that spans the flow).
void enclose(Flow& flow, std::vector<Op> before, std::vector<Op> after);
// Rounds up to a whole number of grid steps.
Length on_grid(Length a, Length grid);

// The same drawing turned clockwise about its centre; its size grows to hold it. Exact to the
// nanometre.
Drawing turned_drawing(const Drawing& drawing, Angle angle);

// Outlines of simple things.
Path rectangle(Rect box);
Path circle(Point centre, Length radius);
Path straight(Point from, Point to);

// A square in an ink's colour with the ink's own mark, so that inks are told apart without colour.
void draw_chip(Rect box, Colour colour, Ink::Mark mark, Colour edge, Frame& into);

// A colour as the grey of its luma (ITU-R BT.601, from memory).
Colour grey_of(Colour colour);

// Every colour becomes its grey, for printers without colour and to see whether everything can
// still be told apart. Photographs stay as they are.
void make_grey(std::vector<DrawItem>& items);
void make_grey(Laid& laid);

} // namespace leafwright::page
