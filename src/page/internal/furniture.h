#pragma once

#include "page/context.h"

#include <string>
#include <vector>

namespace leafwright::page {

struct PageGeometry {
  Size page;
  Rect area;           // of the text
  bool turned = false; // an even page of a bound copy: what is outside stands at the left
};
PageGeometry page_geometry(const Template& look, const std::string& project_paper, int page_index);

// The running foot, relative to the page's corner.
FramePtr foot_frame(const PageGeometry& geometry, const guide::Document& document,
                    const std::string& running, const std::string& label, std::size_t pages,
                    Context& context);
// For the foot of pages drawn to scale, `width` long: the printed ruler, what it is for, and a
// square, since a printer may stretch one way only.
FramePtr measured_foot(Length width, Context& context);
// The draft's mark about a point, in large pale letters; it belongs to no node.
DrawItem draft_word(Point centre, Length size, Angle slant, Context& context);
// Marks a page as a draft: large pale letters across it, and the words in the top margin.
FramePtr draft_frame(const PageGeometry& geometry, Context& context);

// The upright bar that stands beside what is new since an earlier edition, in the margin at the
// left of `at` and `height` long: an artefact, with a Mark of kind "change-bar" for tests.
void add_change_bar(std::vector<Op>& ops, Point at, Length height, const Context& context);

// The same items, each with a bar over its whole height. Spaces between them stay open.
void mark_changed(Flow& flow, const Context& context);

} // namespace leafwright::page
