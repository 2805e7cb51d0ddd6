#pragma once

#include "guide/block.h"
#include "page/context.h"
#include "page/flow.h"

#include <cstddef>
#include <span>
#include <vector>

// Steps beside or below their figures, for the choice of pages and for the pages chosen.

namespace leafwright::page {

// Sets the steps of one run in the way of one trial.
class StepSetter {
 public:
  StepSetter(std::span<const guide::Step> steps, const Trial& trial, Length width,
             Context& context);

  // How much of the size that half the width would allow the figures lose, from 0 to 1.
  double loss();
  // Whether a label of some figure finds no place; draws them, unlike all else here.
  bool is_crowded();
  Flow flow();
  Length used(); // the height of that flow, without making it

 private:
  Length column_width() const;
  // Figures of one group (the card from outside, the open card, the flat base) are drawn at one
  // scale: the largest at which none is taller than the trial says.
  void find_scales();
  // A drawing may turn out a little larger than was expected: the ground around it gives way.
  Size drawing_room(std::size_t i) const;
  // A drawing that brings no ground of its own needs air around it on this one.
  Length cell_height(std::size_t i) const;
  // The figure on its ground: a cell of `cell`, the drawing centred in it.
  FramePtr figure_cell(std::size_t i, Size cell);
  void begin_step(Frame& into, const guide::Step& step);
  // The width of the figures: that of a column of steps, or of the pictures beside rows of words.
  Length figure_column() const;
  Length gap_above(std::size_t first, std::size_t end) const;
  Length words_x(Length column) const;
  Length row_height(std::size_t i, Length column);
  Length tallest_figure(std::size_t first, std::size_t end) const;
  Length words_y(std::size_t first, std::size_t end) const;
  Length height_side_by_side(std::size_t first, std::size_t end, Length column);

  // Figure at the left, words at its right, a hairline above.
  FlowItem row(std::size_t i, Length column);
  // As wide as what is drawn and a little ground around it.
  Length cell_width(std::size_t i, Length column) const;
  // Steps side by side, each with its words below its figure.
  FlowItem side_by_side(std::size_t first, std::size_t end, Length column);

  std::span<const guide::Step> steps_;
  Trial trial_;
  Length width_;
  Context& context_;
  Length grid_;
  Size room_;
  std::vector<double> scales_; // of each step's figure
  std::vector<Size> sizes_;
  Length widest_{};
};

} // namespace leafwright::page
