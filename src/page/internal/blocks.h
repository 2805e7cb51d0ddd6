#pragma once

#include "guide/block.h"
#include "page/context.h"
#include "page/flow.h"

#include <span>

// Blocks become flow: one function a kind of block. Each makes items no wider than `width`.

namespace leafwright::page {

Flow blocks_flow(std::span<const guide::Block> blocks, Length width, Context& context);
// Figures among words, and steps, are tried in several sizes; all else is set once.
bool depends_on_trial(const guide::Block& block);

Flow heading_flow(const guide::Heading& heading, Length width, Context& context);
Flow body_flow(const guide::Paragraph& paragraph, Length width, Context& context);
Flow list_flow(const guide::List& list, Length width, Context& context);
Flow notice_flow(const guide::Notice& notice, Length width, Context& context);
Flow contents_flow(Length width, Context& context);

Flow table_flow(const guide::Table& table, Length width, Context& context);

Flow figure_flow(const guide::Figure& figure, Length width, Context& context);
Flow figure_row_flow(const guide::FigureRow& row, Length width, Context& context);
Flow beside_flow(const guide::Beside& beside, Length width, Context& context);
// What begins a chapter: its figure large, what is said of it at the right, or below on a narrow
// page.
Flow chapter_opening(const guide::Beside& beside, Length width, Context& context);
Flow note_lines_flow(const guide::NoteLines& lines, Length width, Context& context);
Flow scale_bar_flow(const guide::ScaleBar& bar, Length width, Context& context);
// All full-size drawings that follow each other, several in a row or on a page where they have
// room.
Flow full_size_flow(std::span<const guide::Block> blocks, Length width, Context& context);

// Steps page by page in the way that fits each best: two by two or in rows, their figures large or
// smaller. `rooms`: what the page on which they begin has left, and what the others have.
struct StepRooms {
  Length first, page;
};
Flow steps_flow(const guide::Steps& steps, const StepRooms& rooms, Length width, Context& context);
Flow steps_flow(const guide::Steps& steps, Length width, Context& context);

// Number, title and words of a step, `width` wide. Number and title share a baseline.
FramePtr step_words(const guide::Step& step, Length width, Context& context);

Flow ticks_flow(const guide::Ticks& ticks, Length width, Context& context);
// Rows of as many texts as are wide enough to read; one below the other where a page bears no row.
Flow side_by_side_flow(const guide::SideBySide& abreast, Length width, Context& context);
// As many slips on a page of `context.text_height` as it has room for, each on a quarter, a third,
// a half or the whole of it.
Flow slips_flow(const guide::Slips& slips, Length width, Context& context);
// As many of the slips as fill whole pages, `least` of them or all: thousands are laid in runs.
struct SlipRun {
  Flow flow;
  std::size_t taken = 0;
};
SlipRun slip_run(std::span<const guide::Slip> slips, std::size_t least, Length width,
                 Context& context);

// A drawn figure with its structure node, at the frame's top left.
FramePtr figure_frame(const Drawn& composed, const std::string& alternative);
// The ruler that is printed on pages drawn to scale: 2 in above, 50 mm below.
FramePtr ruler_frame(bool inch_first, Context& context);
// How long its edges are, the upper first.
std::string ruler_words(bool inch_first, const Context& context);
// A square to measure both ways, its size written in it.
FramePtr check_square_frame(bool inch, Length side, Context& context);

// A rule across, `width` long, at the top of a frame without height.
Op rule_at(Length x, Length y, Length width, Length thickness, Colour colour);

// The whole cover page, relative to the page's corner; `area` is the text area on it.
FramePtr cover_frame(const guide::Cover& cover, Size page, Rect area, Context& context);

} // namespace leafwright::page
