#pragma once

#include "plan/cut/cut.h"

#include <string>
#include <vector>

// An independent look at a plan: from the placed rectangles alone, with nothing of the planner's
// own arithmetic. Also used by the benchmark.
namespace leafwright::cut::check {

struct Rectangle {
  Length x = 0, y = 0, width = 0, height = 0;
  int piece = -1;
};

std::vector<Rectangle> placed(const Pattern& pattern);

// Whether straight cuts of the given blade width, edge to edge, can part the rectangles.
bool separable(std::vector<Rectangle> rectangles, Length blade);

// Everything wrong with the plan; empty when it is sound: exactly the wanted copies, sizes and
// directions kept, inside the trimmed sheet, apart by the blade, separable, limits and cost right,
// the cut tree's parts fitting together, bound not above cost.
std::vector<std::string> faults(const Job& job, const Plan& plan);

} // namespace leafwright::cut::check
