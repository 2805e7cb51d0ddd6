#pragma once

#include "guide/block.h"
#include "page/context.h"

#include <string>

// Helpers of the figure blocks.

namespace leafwright::page {

// A scene composed; a crowded one is told.
const Drawn& drawn(const figure::Scene& scene, Size room, double scale, Context& context);
// The printed size of a scene at `scale`, or what it is expected to be.
Size drawn_size(const figure::Scene& scene, Size room, double scale, bool estimate,
                Context& context);
// `scale` times `shrink`, in whole percents as figures are drawn.
double shrunk(double scale, double shrink);
// A figure of a sheet: its scale is worth saying.
bool is_sheet(const figure::Scene& scene);
std::string scale_note(const figure::Scene& scene, double scale, const Context& context);
// The figure at that scale with its caption below; in an estimate its place is left empty.
FramePtr captioned(const guide::Figure& figure, Size room, double scale, bool estimate,
                   Context& context);
// Things of one group and one size (letter sheets, 12 in sheets) share a scale.
std::string scale_group_of(const figure::Scene& scene);
// The scale of its group, or else the largest that fits the room.
double chosen_scale(const figure::Scene& scene, Size room, Context& context);
// The room that a figure gets in the text.
Size figure_room(const guide::Figure& figure, Length width, const Context& context);
Length besides_tallest(const guide::Beside& beside, const Context& context);
Length beside_figure_width(const guide::Beside& beside, Length width, const Context& context);
// Finds the scale of each group in a document: the largest at which all its figures fit their
// rooms.
void find_group_scales(const guide::Document& document, Length width, Context& context);

} // namespace leafwright::page
