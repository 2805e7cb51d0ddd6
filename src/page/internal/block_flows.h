#pragma once

#include "guide/block.h"
#include "measure/length.h"
#include "page/context.h"
#include "page/internal/paginate.h"

#include <span>
#include <vector>

namespace leafwright::page {

// What a column needs: its narrowest (no word divided) and its widest (nothing broken) content.
struct ColumnNeed {
  Length narrowest, widest;
  double share = 1.0;        // of what is left over
  std::vector<Length> cells; // widest of each cell, to weigh how many lines it will take
};

// Widths that sum to `room`. Where all content fits unbroken, what is left goes by the shares; else
// every column gets its narrowest and the rest goes where it saves most lines. Narrower than the
// sum of the narrowest, all are shortened alike (false in `fits`).
struct ColumnWidths {
  std::vector<Length> widths;
  bool fits = true;
};
ColumnWidths column_widths(std::span<const ColumnNeed> needs, Length room);

// The blocks of a section made into flow, its figures and steps set in the way that fills pages of
// these heights best, together with what stands `below` it in any case.
Flow section_flow(std::span<const guide::Block> blocks, Length width, Heights heights,
                  Context& context, const Flow& below = {});

// How well a flow sits on pages, beside pagination's own cost: space left empty within items counts
// too.
double layout_cost(const Flow& flow, Heights heights);

} // namespace leafwright::page
