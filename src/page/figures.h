#pragma once

#include "guide/block.h"
#include "page/context.h"

#include <string>

// Helpers of the figure blocks.

namespace leafwright::page {

// A scene composed; a crowded one is told.
const Drawn& drawn(const figure::Scene& scene, Size room, double scale, Context& context);
// A figure of a sheet: its scale is worth saying.
bool is_sheet(const figure::Scene& scene);
std::string scale_note(const figure::Scene& scene, double scale, const Context& context);
// The figure with its caption below.
FramePtr captioned(const guide::Figure& figure, Size room, double scale, Context& context);
// One scale for all figures of a scale group, 0 when it has none.
double group_scale(const figure::Scene& scene, Context& context);
// The room that a figure gets in the text.
Size figure_room(const guide::Figure& figure, Length width, const Context& context);
Length beside_figure_width(const guide::Beside& beside, Length width, const Context& context);
// Finds the scale of each group in a document: the largest at which all its figures fit their
// rooms.
void find_group_scales(const guide::Document& document, Length width, Context& context);

} // namespace leafwright::page
