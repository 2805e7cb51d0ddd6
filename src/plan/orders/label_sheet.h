#pragma once

#include "model/project.h"

#include <vector>

// Where the labels of a sheet stand.

namespace leafwright::orders {

// The sheet of the project, or a common one for its paper: letter 3 x 10 of 2 5/8 x 1 in, A4 3 x 7
// of 63.5 x 38.1 mm (common practice).
LabelSheet label_sheet_of(const Project& project);

// The box of label `index` on the sheet, counted from 0 along the rows.
Rect label_box(const LabelSheet& sheet, int index);

// Labels that run off the paper: "label-off-sheet".
Findings check_label_sheet(const Project& project, const LabelSheet& sheet);

} // namespace leafwright::orders
