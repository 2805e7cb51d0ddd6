#pragma once

#include "guide/block.h"
#include "page/context.h"

#include <span>
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
// Words stand beside a figure where the column is wide enough for both, else below it.
bool stands_beside(Length width, const Context& context);
Size beside_room(const guide::Beside& beside, Length width, const Context& context);
Length beside_words_width(const guide::Beside& beside, Length width, const Context& context);
// Notes, in context.group_scales, the scale of each group of figures in these blocks: the largest
// at which all fit their rooms.
void note_group_scales(std::span<const guide::Block> blocks, Length width, Context& context);

} // namespace leafwright::page
